#include "engine/diagnosis/sheet/belonging.h"

namespace halfsplit::diagnosis {

namespace {

constexpr std::size_t kFew = 2;

std::vector<int> if_few(const std::set<int>& parts) {
    return parts.size() > kFew ? std::vector<int>{} : std::vector<int>(parts.begin(), parts.end());
}

}  // namespace

Belonging::Belonging(const tracing::Wiring& wiring, const Walk& walk, const std::vector<LiveWay>& ways)
    : wiring_(wiring), walk_(walk) {
    for (const LiveWay& way : ways)
        for (const LiveWay::Stop& stop : way.stops) {
            std::set<int>& fuses = fuses_[stop.node];
            if (stop.fuse >= 0) fuses.insert(stop.fuse);
            std::set<int>& grounds = grounds_[stop.node];
            if (!way.passages.empty() && way.passages.back().kind == Passage::Kind::ground)
                grounds.insert(way.passages.back().part);
        }
}

std::vector<int> Belonging::fuses(int node) const {
    if (const auto live = fuses_.find(node); live != fuses_.end()) return if_few(live->second);
    const int fuse = walk_.fuse(wiring_.vertex(node));
    return fuse < 0 ? std::vector<int>{} : std::vector<int>{fuse};
}

std::vector<int> Belonging::grounds(int node) const {
    const auto live = grounds_.find(node);
    return if_few(live != grounds_.end() ? live->second : walk_.grounds(wiring_.vertex(node)));
}

}  // namespace halfsplit::diagnosis
