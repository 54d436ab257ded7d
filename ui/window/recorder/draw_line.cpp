#include "ui/window/recorder/draw_line.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace halfsplit::window {

namespace {

/// Where in a pattern one has come to.
class PatternWalk {
  public:
    PatternWalk(const LinePattern& pattern, double scale) : pattern_(pattern), scale_(scale) {
        left_px_ = length();
    }
    bool is_stroke() const { return place_ % 2 == 0; }
    float left_px() const { return left_px_; }
    void go(float px) {
        left_px_ -= px;
        if (left_px_ > 0) return;
        place_ = (place_ + 1) % pattern_.size();
        left_px_ = length();
    }

  private:
    float length() const { return pattern_[place_] * static_cast<float>(scale_); }

    const LinePattern& pattern_;
    double scale_;
    std::size_t place_ = 0;
    float left_px_ = 0;
};

}  // namespace

const LinePattern& pattern_of(std::size_t channel) {
    static const std::array<LinePattern, 4> kPatterns{{{}, {9, 5}, {2.5F, 3.5F}, {12, 4, 2.5F, 4}}};
    return kPatterns[channel % kPatterns.size()];
}

void draw_line(ImDrawList& list, std::span<const ImVec2> points, const LinePattern& pattern, double scale,
               ImU32 colour, float width_px) {
    // Legs one by one: joined, they would be drawn out to spikes where a signal turns back.
    if (pattern.empty()) {
        for (std::size_t i = 1; i < points.size(); ++i)
            list.AddLine(points[i - 1], points[i], colour, width_px);
        return;
    }
    PatternWalk walk(pattern, scale);
    for (std::size_t i = 1; i < points.size(); ++i) {
        const ImVec2 from = points[i - 1];
        const ImVec2 to = points[i];
        const float length = std::hypot(to.x - from.x, to.y - from.y);
        float gone = 0;
        while (gone < length) {
            const float leg = std::min(walk.left_px(), length - gone);
            const auto place = [&](float at) {
                return ImVec2{from.x + (to.x - from.x) * at / length, from.y + (to.y - from.y) * at / length};
            };
            if (walk.is_stroke()) list.AddLine(place(gone), place(gone + leg), colour, width_px);
            walk.go(leg);
            gone += leg;
            if (leg <= 0) break;
        }
    }
}

}  // namespace halfsplit::window
