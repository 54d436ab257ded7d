#pragma once

#include <string>
#include <string_view>

#include "ui/window/frame/frame.h"
#include "ui/window/paper/paper.h"

namespace halfsplit::window {

/// One thing that is done at the desk: it has the paper and the trolley while it is on.
class Mode {
  public:
    Mode() = default;
    Mode(const Mode&) = delete;
    Mode& operator=(const Mode&) = delete;
    virtual ~Mode() = default;

    virtual std::string_view id() const = 0;     ///< "study"
    virtual std::string_view title() const = 0;  ///< "Study"
    /// Whom it is for and what it is good for, for an empty desk.
    virtual std::string_view about() const = 0;

    /// What lies on the paper; nullptr: nothing yet.
    virtual const DrawnCircuit* drawn() const = 0;
    virtual Marks marks() const = 0;
    /// The trolley's drawers.
    virtual void trolley(const Frame& frame, Paper& paper) = 0;
    virtual void done_on_paper(const PaperDeed& deed) = 0;
    /// What is drawn below the paper: a recorder's screen, where one is at work.
    virtual bool has_screen() const { return false; }
    virtual void screen(const Frame& frame) { static_cast<void>(frame); }
    /// Keys that only this mode has; not while somebody types.
    virtual void keys() {}
    /// Its keys, a line each, for the list.
    virtual std::vector<std::pair<std::string, std::string>> key_list() const { return {}; }
    /// What a click does now, in a line.
    virtual std::string hint() const = 0;
    /// Seconds of a person's life; not of the vehicle's.
    virtual void advance(double seconds) { static_cast<void>(seconds); }
    /// Something moves or is worked at: frames are wanted though nobody touches anything.
    virtual bool is_lively() const { return false; }
    /// Whether a file of this name is of a kind it knows.
    virtual bool takes(const std::string& path) const = 0;
    /// Whether it would show of the file what others are meant to find out: then it gets it only where it is
    /// opened while this mode is on.
    virtual bool gives_away(const std::string& /*path*/) const { return false; }
    /// Opens it, or again what has changed. Empty: it is open; else what went wrong, and all is as it was.
    virtual Diagnostics open(const std::string& path) = 0;
};

}  // namespace halfsplit::window
