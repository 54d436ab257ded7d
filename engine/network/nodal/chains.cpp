#include "engine/network/nodal/chains.h"

#include <array>

#include "engine/base/index.h"

namespace halfsplit::network {

namespace {

constexpr int kNone = -1;

double ohm_of(const Branch& branch) {
    return std::get<model::Resistance>(branch.law).ohm;
}

int far_end(const Branch& branch, int near) {
    return branch.from == near ? branch.to : branch.from;
}

/// Per node the two branches that meet there, where there are two, both may join, and no other.
class Inner {
  public:
    Inner(int node_count, std::span<const Branch> branches, std::span<const char> may_join)
        : branches_(branches), meets_(at(node_count)), count_(at(node_count), 0) {
        for (std::size_t k = 0; k < branches.size(); ++k)
            for (const int node : {branches[k].from, branches[k].to}) {
                if (node == kBody) continue;
                int& count = count_[at(node)];
                const bool joins = may_join[k] != 0 && branches[k].from != branches[k].to;
                if (!joins || count >= 2)
                    count = kTooMany;
                else
                    meets_[at(node)][at(count++)] = static_cast<int>(k);
            }
    }
    bool operator()(int node) const { return node != kBody && count_[at(node)] == 2; }
    int other(int node, int branch) const {
        const auto [one, two] = meets_[at(node)];
        return one == branch ? two : one;
    }

  private:
    static constexpr int kTooMany = 3;
    std::span<const Branch> branches_;
    std::vector<std::array<int, 2>> meets_;
    std::vector<int> count_;
};

}  // namespace

/// Each row is walked from the end that comes first. One that returns to where it began is left as it is, and
/// so is a ring without any end.
std::vector<Chains::Row> Chains::find_rows(std::span<const char> may_join) const {
    const Inner is_inner(static_cast<int>(spots_.size()), before_, may_join);
    std::vector<char> walked(before_.size(), 0);
    std::vector<Row> rows;
    for (std::size_t k = 0; k < before_.size(); ++k) {
        const auto [from, to] = std::pair{before_[k].from, before_[k].to};
        if (walked[k] != 0 || is_inner(from) == is_inner(to)) continue;
        Row row;
        int node = is_inner(from) ? to : from;
        for (int branch = static_cast<int>(k);; branch = is_inner.other(node, branch)) {
            walked[at(branch)] = 1;
            row.push_back({branch, node});
            node = far_end(before_[at(branch)], node);
            if (!is_inner(node)) break;
        }
        if (node != row.front().before) rows.push_back(std::move(row));
    }
    return rows;
}

Chains::Chains(int node_count, std::span<const Branch> branches, std::span<const char> may_join)
    : before_(branches.begin(), branches.end()),
      places_(branches.size(), {kNone, 1}),
      spots_(at(node_count)) {
    const std::vector<Row> rows = find_rows(may_join);
    std::vector<char> is_within(at(node_count), 0);
    for (const Row& row : rows)
        for (std::size_t i = 1; i < row.size(); ++i) is_within[at(row[i].before)] = 1;
    for (int node = 0; node < node_count; ++node) {
        if (is_within[at(node)] != 0) continue;
        const int left = this->node_count();
        spots_[at(node)] = {left, left, 0};
        node_before_.push_back(node);
    }
    std::vector<int> row_begun_by(branches.size(), kNone);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (const Link& link : rows[i]) row_begun_by[at(link.branch)] = static_cast<int>(i);
    }
    for (int branch = 0; branch < static_cast<int>(branches.size()); ++branch) {
        if (places_[at(branch)].branch != kNone) continue;
        const int row = row_begun_by[at(branch)];
        if (row == kNone)
            keep(branch);
        else
            join(rows[at(row)]);
    }
}

void Chains::keep(int branch) {
    const auto left_node = [&](int node) { return node == kBody ? kBody : spots_[at(node)].from; };
    places_[at(branch)] = {static_cast<int>(left_.size()), 1};
    left_.push_back(before_[at(branch)]);
    left_.back().from = left_node(left_.back().from);
    left_.back().to = left_node(left_.back().to);
    row_of_left_.emplace_back();
}

void Chains::join(const Row& row) {
    const auto left_node = [&](int node) { return node == kBody ? kBody : spots_[at(node)].from; };
    const int left = static_cast<int>(left_.size());
    const Link& last = row.back();
    left_.push_back({left_node(row.front().before), left_node(far_end(before_[at(last.branch)], last.before)),
                     model::Resistance{1}, true});
    row_of_left_.push_back(row);
    for (const Link& link : row)
        places_[at(link.branch)] = {left, before_[at(link.branch)].from == link.before ? 1 : -1};
    update_row(left);
}

/// Nodes on either side of a break stand at the potential of their end; between two breaks nothing drives
/// them.
void Chains::update_row(int left) {
    const Row& row = row_of_left_[at(left)];
    double total_ohm = 0;
    int breaks = 0;
    for (const Link& link : row) {
        total_ohm += ohm_of(before_[at(link.branch)]);
        breaks += before_[at(link.branch)].conducts ? 0 : 1;
    }
    Branch& branch = left_[at(left)];
    branch.law = model::Resistance{total_ohm};
    branch.conducts = breaks == 0;
    double passed_ohm = 0;
    int passed_breaks = 0;
    for (std::size_t i = 0; i + 1 < row.size(); ++i) {
        passed_ohm += ohm_of(before_[at(row[i].branch)]);
        passed_breaks += before_[at(row[i].branch)].conducts ? 0 : 1;
        Spot& spot = spots_[at(row[i + 1].before)];
        if (breaks == 0)
            spot = {branch.from, branch.to, passed_ohm / total_ohm};
        else if (passed_breaks == 0)
            spot = {branch.from, branch.from, 0};
        else if (passed_breaks == breaks)
            spot = {branch.to, branch.to, 0};
        else
            spot = {};
    }
}

void Chains::set_law(int branch, const model::Law& law) {
    before_[at(branch)].law = law;
    const int left = places_[at(branch)].branch;
    if (row_of_left_[at(left)].empty())
        left_[at(left)].law = law;
    else
        update_row(left);
}

void Chains::set_conducts(int branch, bool conducts) {
    before_[at(branch)].conducts = conducts;
    const int left = places_[at(branch)].branch;
    if (row_of_left_[at(left)].empty())
        left_[at(left)].conducts = conducts;
    else
        update_row(left);
}

}  // namespace halfsplit::network
