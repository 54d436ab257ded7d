#include "engine/network/nodal/assembly.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>

#include "engine/base/index.h"
#include "engine/network/nodal/characteristic.h"
#include "engine/network/nodal/constants.h"

namespace halfsplit::network {

namespace {

bool joins_two_nodes(const Branch& branch) {
    return branch.from != branch.to && branch.from != kBody && branch.to != kBody;
}

std::vector<Link> links_of(int node_count, std::span<const Branch> branches) {
    if (node_count < 0) throw std::invalid_argument("a network cannot have a negative number of nodes");
    std::vector<Link> links;
    links.reserve(branches.size());
    for (const Branch& branch : branches) {
        if (std::min(branch.from, branch.to) < kBody || std::max(branch.from, branch.to) >= node_count)
            throw std::invalid_argument("a branch names a node that does not exist");
        if (joins_two_nodes(branch)) links.push_back({branch.from, branch.to});
    }
    return links;
}

std::vector<int> ends_of_curved(std::span<const Branch> branches) {
    std::vector<int> nodes;
    for (const Branch& branch : branches)
        if (!is_linear(branch.law))
            for (const int node : {branch.from, branch.to})
                if (node != kBody) nodes.push_back(node);
    return nodes;
}

}  // namespace

Assembly::Assembly(int node_count, std::span<const Branch> branches)
    : elimination_(node_count, links_of(node_count, branches), kTargetsPerEntry, ends_of_curved(branches)),
      ends_(branches.size()),
      slot_(branches.size()),
      line_(branches.size()),
      carries_(branches.size()),
      is_changed_(at(elimination_.slots()), 1),
      potential_(at(node_count) + 1, 0) {
    find_ends(branches);
    list_branches_by_slot();
    changed_.resize(at(elimination_.slots()));
    std::iota(changed_.begin(), changed_.end(), 0);
}

void Assembly::find_ends(std::span<const Branch> branches) {
    for (std::size_t k = 0; k < branches.size(); ++k) {
        const Branch& branch = branches[k];
        ends_[k] = {column(branch.from), column(branch.to)};
        if (branch.from == branch.to)
            slot_[k] = -1;
        else if (joins_two_nodes(branch))
            slot_[k] = elimination_.pattern().entry(ends_[k].from, ends_[k].to);
        else
            slot_[k] = elimination_.pattern().entries() + std::min(ends_[k].from, ends_[k].to);
    }
}

void Assembly::list_branches_by_slot() {
    by_slot_start_.assign(at(elimination_.slots()) + 1, 0);
    for (const int slot : slot_)
        if (slot >= 0) ++by_slot_start_[at(slot) + 1];
    for (std::size_t i = 1; i < by_slot_start_.size(); ++i) by_slot_start_[i] += by_slot_start_[i - 1];
    by_slot_.resize(at(by_slot_start_.back()));
    std::vector<int> end(by_slot_start_.begin(), by_slot_start_.end() - 1);
    for (int k = 0; k < branches(); ++k)
        if (const int slot = slot_[at(k)]; slot >= 0) by_slot_[at(end[at(slot)]++)] = k;
}

void Assembly::put(int branch, Tie line) {
    line_[at(branch)] = line;
    carries_[at(branch)] = line == Tie{} ? 0 : 1;
}

void Assembly::note(int branch) {
    if (remembers_) replaced_.push_back({branch, line_[at(branch)]});
}

void Assembly::mark(int slot) {
    if (slot < 0 || is_changed_[at(slot)]) return;
    is_changed_[at(slot)] = 1;
    changed_.push_back(slot);
}

void Assembly::set(int branch, Tie line) {
    if (line_[at(branch)] == line) return;
    note(branch);
    put(branch, line);
    mark(slot_[at(branch)]);
}

void Assembly::shift_source(int branch, double source) {
    if (shifted_a_.empty()) {
        shifted_a_.resize(ends_.size());
        is_shifted_.resize(ends_.size());
        flow_a_.resize(potential_.size());
    }
    note(branch);
    if (is_shifted_[at(branch)] == 0) shifted_.push_back(branch);
    is_shifted_[at(branch)] = 1;
    shifted_a_[at(branch)] += source - line_[at(branch)].source;
    put(branch, {line_[at(branch)].conductance, source});
}

void Assembly::forget_shifts() {
    for (const int branch : shifted_) {
        shifted_a_[at(branch)] = 0;
        is_shifted_[at(branch)] = 0;
    }
    shifted_.clear();
}

/// A slot's source flows into its earlier column (for a tie to ground: into its only one), a branch's out of
/// `from`.
void Assembly::sum(int slot) {
    Tie total{slot < elimination_.pattern().entries() ? 0 : kLeakageSiemens, 0};
    for (int i = by_slot_start_[at(slot)]; i < by_slot_start_[at(slot) + 1]; ++i) {
        const int k = by_slot_[at(i)];
        const Tie& line = line_[at(k)];
        total.conductance += line.conductance;
        total.source += ends_[at(k)].from < ends_[at(k)].to ? -line.source : line.source;
        if (!shifted_.empty()) shifted_a_[at(k)] = 0;
    }
    elimination_.set(slot, total);
}

void Assembly::update() {
    for (const int slot : changed_) {
        sum(slot);
        is_changed_[at(slot)] = 0;
    }
    changed_.clear();
    elimination_.update();
    is_back_ = false;
}

std::span<const double> Assembly::solve() {
    for (const int branch : shifted_) mark(slot_[at(branch)]);
    forget_shifts();
    update();
    elimination_.solve(potential_);
    return potential_;
}

std::span<const double> Assembly::solve_at(std::span<const int> columns) {
    update();
    elimination_.solve_at(columns, potential_);
    return potential_;
}

std::span<const double> Assembly::solve_watched() {
    update();
    const int first = elimination_.pattern().first_watched;
    if (shifted_.empty()) {
        elimination_.solve_range(first, columns(), potential_);
        return potential_;
    }
    for (const int branch : shifted_) {
        flow_a_[at(ends_[at(branch)].from)] -= shifted_a_[at(branch)];
        flow_a_[at(ends_[at(branch)].to)] += shifted_a_[at(branch)];
    }
    flow_a_.back() = 0;
    elimination_.solve_from(first, flow_a_, potential_);
    return potential_;
}

std::span<const double> Assembly::solve_others() {
    elimination_.solve_range(0, elimination_.pattern().first_watched, potential_);
    return potential_;
}

bool Assembly::is_watched(int branch) const {
    return std::min(ends_[at(branch)].from, ends_[at(branch)].to) >= elimination_.pattern().first_watched;
}

void Assembly::remember() {
    solve();
    elimination_.remember();
    remembered_potential_ = potential_;
    replaced_.clear();
    remembers_ = true;
}

void Assembly::go_back() {
    std::for_each(replaced_.rbegin(), replaced_.rend(),
                  [this](const Replaced& last) { put(last.branch, last.line); });
    replaced_.clear();
    for (const int slot : changed_) is_changed_[at(slot)] = 0;
    changed_.clear();
    forget_shifts();
    elimination_.go_back();
    is_back_ = true;
}

void Assembly::resistances(std::span<const int> of, std::span<double> ohm) const {
    std::vector<double> inverse(at(elimination_.slots()));
    elimination_.inverse_entries(inverse);
    const auto own = [&](int column) {
        return column == columns() ? 0 : inverse[at(elimination_.pattern().entries() + column)];
    };
    for (std::size_t i = 0; i < of.size(); ++i) {
        const auto [from, to] = ends_[at(of[i])];
        const bool is_coupling = from != columns() && to != columns() && from != to;
        const double both = is_coupling ? inverse[at(slot_[at(of[i])])] : 0;
        ohm[i] = from == to ? 0 : own(from) + own(to) - 2 * both;
    }
}

void Assembly::spread(int branch, std::span<double> volt) const {
    std::fill(volt.begin(), volt.end(), 0);
    const auto [from, to] = ends_[at(branch)];
    volt[at(from)] += 1;
    volt[at(to)] -= 1;
    volt[at(columns())] = 0;
    elimination_.solve_injected(volt);
}

}  // namespace halfsplit::network
