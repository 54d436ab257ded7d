#include "ui/window/recorder/chart_view.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::window {

namespace {

constexpr std::array kSpansS{0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 30.0, 60.0};

}  // namespace

double ChartView::span_s() const {
    return kSpansS[span_];
}

void ChartView::follow(double now_s) {
    end_s_ = now_s;
    for (double& cursor : cursors_) cursor = std::clamp(cursor, 0.0, 1.0);
}

void ChartView::show(double end_s) {
    const auto enough = std::ranges::lower_bound(kSpansS, end_s * (1 - 1e-9));
    span_ = static_cast<std::size_t>(std::min(enough, kSpansS.end() - 1) - kSpansS.begin());
    end_s_ = span_s();
    const double share = end_s / span_s();
    cursors_ = {0.3 * share, 0.7 * share};
}

void ChartView::look(double end_s, std::size_t span) {
    const std::array times{cursor_s(0), cursor_s(1)};
    end_s_ = end_s;
    span_ = span;
    for (std::size_t i = 0; i < times.size(); ++i) put_cursor(i, times[i]);
}

void ChartView::change_span(int steps, double share) {
    const double stays_s = time_at(share);
    const int last = static_cast<int>(kSpansS.size()) - 1;
    const auto span = static_cast<std::size_t>(std::clamp(static_cast<int>(span_) + steps, 0, last));
    look(stays_s + (1 - share) * kSpansS[span], span);
}

void ChartView::pan(int halves, double least_s, double most_s) {
    const double wanted_s = end_s_ + halves * span_s() / 2;
    const double first_s = std::min(least_s + span_s(), most_s);
    look(std::clamp(wanted_s, std::min(first_s, end_s_), std::max(most_s, end_s_)), span_);
}

void ChartView::move_cursor(std::size_t which, double by_share) {
    cursors_[which] = std::clamp(cursors_[which] + by_share, 0.0, 1.0);
}

std::size_t ChartView::nearest_cursor(double share) const {
    return std::abs(cursors_[0] - share) <= std::abs(cursors_[1] - share) ? 0 : 1;
}

bool put_on_rises(ChartView& view, const instruments::Strip& strip, std::size_t channel) {
    const std::vector<double> rises =
        instruments::rises(strip, channel, std::max(0.0, view.from_s()), view.to_s());
    if (rises.size() < 2) return false;
    constexpr double kSameShare = 1e-9;
    const auto after = std::ranges::upper_bound(rises, view.cursor_s(0) + kSameShare * view.span_s());
    const auto first = after == rises.end() || after + 1 == rises.end() ? rises.begin() : after;
    view.put_cursor(0, *first);
    view.put_cursor(1, *(first + 1));
    return true;
}

}  // namespace halfsplit::window
