#pragma once

#include <string>
#include <vector>

#include "engine/instruments/instrument.h"
#include "ui/window/frame/frame.h"
#include "ui/window/paper/marks.h"

namespace halfsplit::window {

/// The instrument that is in hand, and where its leads are.
class LeadsInHand {
  public:
    const std::string& instrument() const { return instrument_; }
    const instruments::Leads& leads() const { return leads_; }

    void take(const std::string& instrument_id);
    /// A click on something: `first` puts down the first lead (clip, or what goes into a fuse), else the
    /// second. False where this instrument does not go there.
    bool put(const Pick& pick, bool first);
    void put_second_on_body() { leads_.against = "body"; }
    void lift();
    bool has_second_lead() const { return connection() == instruments::Connection::two_points; }
    /// Everything that has to be somewhere is.
    bool is_placed() const;
    /// "Left button: red lead. Right button: black lead."
    std::string hint() const;
    std::vector<LeadMark> marks() const;

  private:
    instruments::Connection connection() const;

    std::string instrument_ = "voltmeter";
    instruments::Leads leads_;
};

/// Choosing among the instruments of these ids (all where empty); where its leads are, in words.
void leads_drawer(const Frame& frame, const std::vector<std::string>& allowed, LeadsInHand& leads);

}  // namespace halfsplit::window
