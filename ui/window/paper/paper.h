#pragma once

#include <optional>
#include <string>

#include "ui/window/frame/frame.h"
#include "ui/window/paper/marks.h"
#include "ui/window/paper/page.h"
#include "ui/window/paper/viewport.h"

namespace halfsplit::window {

/// What somebody did on the paper in this frame.
struct PaperDeed {
    std::optional<Pick> near;    ///< under the mouse
    std::optional<Pick> first;   ///< clicked with the left button
    std::optional<Pick> second;  ///< with the right one
    bool beside = false;         ///< clicked where nothing is
};

/// The sheet that a diagram is on: zoomed, moved, pointed at.
class Paper {
  public:
    /// Fills what is left of ImGui's current window.
    PaperDeed draw(const Frame& frame, const DrawnCircuit& drawn, const Marks& marks);

    int page() const { return page_; }
    /// Turned to and fitted with the next draw().
    void turn_to(int page);
    void fit() { fit_next_ = Fit::all; }
    void show(const Found& found);
    /// To the next page something is drawn on; false where it is on no other.
    bool go_on(const DrawnCircuit& drawn, const Pick& pick);
    /// To where one was before the last show(); nothing after the first.
    void go_back();
    void zoom(double factor);

  private:
    enum class Fit { no, readable, all };

    /// How the paper lay.
    struct View {
        int page = 0;
        Viewport viewport;
    };

    void steer(const Frame& frame);
    void note_view();
    void underline_references(const Frame& frame, const view::diagram::Diagram& diagram) const;
    void name_landmarks(const Frame& frame, const view::diagram::Diagram& diagram) const;

    Viewport viewport_;
    int page_ = 0;
    Fit fit_next_ = Fit::readable;
    std::optional<Found> show_next_;
    std::vector<View> before_;
    bool is_dragged_ = false;
    float dragged_px_ = 0;
};

}  // namespace halfsplit::window
