#include "engine/tracing/flood.h"

#include <deque>

namespace halfsplit::tracing {

namespace {

/// Where the flood has got to: a vertex, the branch it came through and the last switching contact before (-1
/// where there was none), because what may follow depends on those.
struct Front {
    int vertex = 0;
    int arrived_by = -1;
    int last_contact = -1;
};

bool is_switched(Role role) {
    return role == Role::contact || role == Role::protection;
}

class Flood {
  public:
    Flood(const Wiring& wiring, const FloodRules& rules)
        : wiring_(wiring),
          rules_(rules),
          reached_(static_cast<std::size_t>(wiring.vertex_count()), false),
          walked_(2 * static_cast<std::size_t>(wiring.branch_count())) {}

    std::vector<bool> from(const std::vector<bool>& starts) {
        for (int vertex = 0; vertex < wiring_.vertex_count(); ++vertex)
            if (starts[static_cast<std::size_t>(vertex)] && vertex != rules_.barred_vertex)
                arrive({vertex, -1, -1});
        while (!fronts_.empty()) {
            const Front front = fronts_.front();
            fronts_.pop_front();
            if (front.arrived_by < 0 || !wiring_.grounds()[static_cast<std::size_t>(front.vertex)])
                spread(front);
        }
        return std::move(reached_);
    }

  private:
    void arrive(Front front) {
        reached_[static_cast<std::size_t>(front.vertex)] = true;
        fronts_.push_back(front);
    }

    void spread(const Front& front) {
        for (const int branch : wiring_.branches_at(front.vertex)) {
            const int next = wiring_.far_end(branch, front.vertex);
            const std::size_t walk =
                2 * static_cast<std::size_t>(branch) + (wiring_.from(branch) == front.vertex ? 0U : 1U);
            if (next == rules_.barred_vertex || !may_take(branch, front)) continue;
            const int contact = wiring_.role(branch) == Role::contact ? branch : front.last_contact;
            if (walked_[walk].insert(contact).second) arrive({next, branch, contact});
        }
    }

    bool may_take(int branch, const Front& front) const {
        if (rules_.barred_branches.contains(branch)) return false;
        if (rules_.only_conductors && is_switched(wiring_.role(branch))) return false;
        return wiring_.passes(branch, front.vertex, rules_.extent, rules_.sense) &&
               !wiring_.exclude_each_other(branch, front.last_contact);
    }

    const Wiring& wiring_;
    const FloodRules& rules_;
    std::vector<bool> reached_;
    /// Two a branch, from its first terminal and from its second: behind which contacts it was walked.
    std::vector<std::set<int>> walked_;
    std::deque<Front> fronts_;
};

}  // namespace

std::vector<bool> flood(const Wiring& wiring, const std::vector<bool>& starts, const FloodRules& rules) {
    return Flood(wiring, rules).from(starts);
}

}  // namespace halfsplit::tracing
