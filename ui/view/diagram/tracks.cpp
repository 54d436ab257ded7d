#include "ui/view/diagram/tracks.h"

#include <algorithm>
#include <map>
#include <set>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

/// Between the ends of two nets in one track.
constexpr int kGap = 8;

class TrackMaker {
  public:
    TrackMaker(const Grid& grid, int channel) : grid_(grid), nets_(grid.channel(channel)) {}

    ChannelTracks make() {
        for (const Net& net : nets_) {
            NetTrack track;
            track.aside.assign(net.below.size(), false);
            tracks_.nets.push_back(track);
            measure(static_cast<int>(tracks_.nets.size()) - 1);
        }
        find_constraints();
        while (!waiting_.empty()) fill_next_track();
        return std::move(tracks_);
    }

  private:
    bool is_straight(const Net& net) const {
        return !net.is_hub && net.above.size() == 1 && net.below.size() == 1 &&
               grid_.slot_of(net.above.front()) == grid_.slot_of(net.below.front());
    }

    void measure(int index) {
        const Net& net = nets_[at(index)];
        NetTrack& track = tracks_.nets[at(index)];
        track.left = 1 << 30;
        track.right = -(1 << 30);
        const auto include = [&](int x) {
            track.left = std::min(track.left, x);
            track.right = std::max(track.right, x);
        };
        for (const Crossing& crossing : net.above) include(lane_x(grid_, crossing));
        for (std::size_t i = 0; i < net.below.size(); ++i)
            include(lane_x(grid_, net.below[i], track.aside[i]));
        if (net.is_hub && net.hub.is_splice() && track.left == track.right) {
            track.left -= kRailOverhang;
            track.right += kRailOverhang;
        }
    }

    void find_constraints() {
        std::map<int, int> from_above;  // slot -> net
        for (int net = 0; net < static_cast<int>(nets_.size()); ++net)
            for (const Crossing& crossing : nets_[at(net)].above) from_above[grid_.slot_of(crossing)] = net;
        over_.resize(nets_.size());
        for (int net = 0; net < static_cast<int>(nets_.size()); ++net) {
            if (is_straight(nets_[at(net)])) continue;
            waiting_.push_back(net);
            for (const Crossing& crossing : nets_[at(net)].below) {
                const auto above = from_above.find(grid_.slot_of(crossing));
                if (above != from_above.end() && above->second != net) over_[at(net)].insert(above->second);
            }
        }
    }

    bool is_free(int net) const { return over_[at(net)].empty(); }

    void fill_next_track() {
        if (std::none_of(waiting_.begin(), waiting_.end(), [&](int net) { return is_free(net); }))
            step_aside();
        std::vector<int> candidates;
        for (const int net : waiting_)
            if (is_free(net)) candidates.push_back(net);
        // What only joins things below is better off low, so it waits while others can go first.
        const auto rank = [&](int net) { return nets_[at(net)].above.empty() ? 1 : 0; };
        std::stable_sort(candidates.begin(), candidates.end(), [&](int a, int b) {
            return std::pair(rank(a), tracks_.nets[at(a)].left) <
                   std::pair(rank(b), tracks_.nets[at(b)].left);
        });
        std::vector<int> chosen;
        for (const int net : candidates)
            if (std::none_of(chosen.begin(), chosen.end(), [&](int other) { return collide(net, other); }))
                chosen.push_back(net);
        for (const int net : chosen) put(net);
        ++tracks_.track_count;
    }

    bool collide(int a, int b) const {
        const NetTrack& one = tracks_.nets[at(a)];
        const NetTrack& other = tracks_.nets[at(b)];
        return one.left < other.right + kGap && other.left < one.right + kGap;
    }

    void put(int net) {
        tracks_.nets[at(net)].track = tracks_.track_count;
        std::erase(waiting_, net);
        for (auto& over : over_) over.erase(net);
    }

    /// Frees the net that the fewest others keep waiting.
    void step_aside() {
        const int net = *std::min_element(waiting_.begin(), waiting_.end(), [&](int a, int b) {
            return over_[at(a)].size() < over_[at(b)].size();
        });
        std::set<int> taken;
        for (const int other : over_[at(net)])
            for (const Crossing& crossing : nets_[at(other)].above) taken.insert(grid_.slot_of(crossing));
        NetTrack& track = tracks_.nets[at(net)];
        for (std::size_t i = 0; i < track.aside.size(); ++i)
            if (taken.contains(grid_.slot_of(nets_[at(net)].below[i]))) track.aside[i] = true;
        over_[at(net)].clear();
        tracks_.has_aside = true;
        measure(net);
    }

    const Grid& grid_;
    const std::vector<Net>& nets_;
    ChannelTracks tracks_;
    std::vector<std::set<int>> over_;  ///< nets that must lie above each
    std::vector<int> waiting_;
};

}  // namespace

ChannelTracks tracks_of(const Grid& grid, int channel) {
    return TrackMaker(grid, channel).make();
}

int lane_x(const Grid& grid, const Crossing& crossing, bool aside) {
    return slot_middle(grid.slot_of(crossing)) + (aside ? kHalfSlot : 0);
}

}  // namespace halfsplit::view::diagram
