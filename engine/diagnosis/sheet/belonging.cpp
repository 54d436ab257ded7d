#include "engine/diagnosis/sheet/belonging.h"

#include <algorithm>
#include <set>

namespace halfsplit::diagnosis {

namespace {

/// What carries so much of the current is the one somebody would name; a unit's sense currents do not count
/// beside its motor's. From memory.
constexpr double kMainShare = 0.8;

}  // namespace

Belonging::Belonging(const tracing::Wiring& wiring, const Walk& walk, const std::vector<LiveWay>& ways)
    : wiring_(wiring), walk_(walk) {
    for (const LiveWay& way : ways) {
        const bool ends_in_ground =
            !way.passages.empty() && way.passages.back().kind == Passage::Kind::ground;
        const int ground = ends_in_ground ? way.passages.back().part : -1;
        for (const LiveWay::Stop& stop : way.stops) {
            fuses_[stop.node][stop.fuse] += way.current_a;
            grounds_[stop.node][ground] += way.current_a;
        }
    }
}

int Belonging::main_one(const Shares& shares) {
    double all = 0;
    for (const auto& share : shares) all += share.second;
    const auto most = std::ranges::max_element(shares, {}, [](const auto& share) { return share.second; });
    return most->second >= kMainShare * all ? most->first : -1;
}

int Belonging::fuse(int node) const {
    const auto live = fuses_.find(node);
    return live != fuses_.end() ? main_one(live->second) : walk_.fuse(wiring_.vertex(node));
}

int Belonging::ground(int node) const {
    const auto live = grounds_.find(node);
    if (live != grounds_.end()) return main_one(live->second);
    const std::set<int>& wired = walk_.grounds(wiring_.vertex(node));
    return wired.size() == 1 ? *wired.begin() : -1;
}

}  // namespace halfsplit::diagnosis
