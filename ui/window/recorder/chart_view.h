#pragma once

#include <array>

#include "engine/instruments/strip.h"

namespace halfsplit::window {

/// Which while of a recording is seen, and where the two cursors stand in it.
class ChartView {
  public:
    double from_s() const { return end_s_ - span_s(); }
    double to_s() const { return end_s_; }
    double span_s() const;
    double share_at(double time_s) const { return (time_s - from_s()) / span_s(); }
    double time_at(double share) const { return from_s() + share * span_s(); }

    /// Time has come so far: that is the right edge now, and the cursors stay where they are on the screen.
    void follow(double now_s);
    /// All of a recording as far as the longest while goes, cursors within it.
    void show(double end_s);
    /// The moment at that share stays where it is; so do the cursors in time. Shorter for -1, longer for 1.
    void change_span(int steps, double share);
    /// So many halves of what is seen later, but not beyond `least_s` and `most_s`.
    void pan(int halves, double least_s, double most_s);

    /// 0 or 1.
    double cursor_s(std::size_t which) const { return time_at(cursors_[which]); }
    void put_cursor(std::size_t which, double time_s) { cursors_[which] = share_at(time_s); }
    /// Of the width.
    void move_cursor(std::size_t which, double by_share);
    std::size_t nearest_cursor(double share) const;

  private:
    void look(double end_s, std::size_t span);

    double end_s_ = 0;
    std::size_t span_ = 7;
    std::array<double, 2> cursors_{0.3, 0.7};
};

/// Puts the cursors on two rises of the channel that follow each other, the next two where they are on such
/// already. False: it does not rise twice in what is seen.
bool put_on_rises(ChartView& view, const instruments::Strip& strip, std::size_t channel);

}  // namespace halfsplit::window
