#include "engine/network/nodal/single_changes.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/network/nodal/constants.h"
#include "engine/network/nodal/inverse_rows.h"
#include "engine/network/nodal/opening.h"

namespace halfsplit::network {

namespace {

/// What rounding may make of a result, in volts.
constexpr double kDoubtV = 2e-10;

/// Nodes observed at once: of 128 to 2 048 the quickest for all of 5 000, measured.
constexpr std::size_t kBlock = 2048;

/// What a current makes of the potentials: one flat loop over all of them.
void put_difference(std::span<const double> now, double current_a, const double* from, const double* to,
                    double* then) {
    const std::size_t count = now.size();
    const double* before = now.data();
    for (std::size_t k = 0; k < count; ++k) then[k] = before[k] - current_a * (from[k] - to[k]);
}

}  // namespace

SingleChanges::SingleChanges(const Assembly& solved, std::span<const SingleChange> changes)
    : solved_(solved), changes_(changes.begin(), changes.end()), inverse_(at(solved.elimination().slots())) {
    solved.elimination().inverse_entries(inverse_);
    for (const double potential_v : solved.potential())
        largest_v_ = std::max(largest_v_, std::abs(potential_v));
    for (int i = 0; i < static_cast<int>(changes_.size()); ++i) weigh(i);
    sort_by_column();
    anew_.reset();
}

double SingleChanges::own(int column) const {
    if (column == solved_.columns()) return 0;
    return inverse_[at(solved_.elimination().pattern().entries() + column)];
}

/// The potential at one end per ampere into the other.
double SingleChanges::mutual(const SingleChange& change, int from, int to) {
    if (from == solved_.columns() || to == solved_.columns()) return 0;
    if (change.branch >= 0) return inverse_[at(solved_.elimination().pattern().entry(from, to))];
    auto& column = columns_[to];
    if (column.empty()) {
        column.assign(at(solved_.columns()), 0);
        column[at(to)] = 1;
        solved_.elimination().solve_injected(column);
    }
    return column[at(from)];
}

/// Of the branch's ends once it is changed, by eliminating anew what that touches. The end eliminated later
/// is on the path of the other.
double SingleChanges::voltage_after(const SingleChange& change, int from, int to) {
    if (!anew_) anew_.emplace(solved_);
    anew_->set(change.branch, change.line);
    const std::span<const double> potential =
        anew_->solve_at(anew_->elimination().path_of(std::min(from, to)));
    const double voltage_v = potential[at(from)] - potential[at(to)];
    anew_->set(change.branch, solved_.line(change.branch));
    ++doubted_;
    return voltage_v;
}

void SingleChanges::weigh(int index) {
    const SingleChange& change = changes_[at(index)];
    const bool is_there = change.branch >= 0;
    const int from = is_there ? solved_.ends(change.branch).from : solved_.column(change.from);
    const int to = is_there ? solved_.ends(change.branch).to : solved_.column(change.to);
    if (from == to) return add_quick(index, from, to, 0);
    const Tie before = is_there ? solved_.line(change.branch) : Tie{};
    const double more_s = change.line.conductance - before.conductance;
    const double more_a = change.line.source - before.source;
    const double ohm = own(from) + own(to) - 2 * mutual(change, from, to);
    const double from_v = solved_.potential()[at(from)];
    const double to_v = solved_.potential()[at(to)];
    const double left = 1 + more_s * ohm;
    double current_a = (more_s * (from_v - to_v) + more_a) / left;
    const double off_ohm = kRounding * (own(from) + own(to));
    const double off_v = kRounding * 2 * largest_v_;  // a small potential may be what large sources leave
    const double off_a = std::abs(more_s) * (std::abs(current_a) * off_ohm + off_v) / left;
    const bool is_sure = left > 0 && off_a * ohm + std::abs(current_a) * off_ohm <= kDoubtV;
    if (is_there && !is_sure) {
        std::optional<double> sure_a;
        if (change.line == Tie{})
            sure_a = Opening(solved_, inverse_, largest_v_).current(change.branch, kDoubtV / (ohm + off_ohm));
        current_a = sure_a ? *sure_a : more_s * voltage_after(change, from, to) + more_a;
    }
    if (is_there && std::abs(current_a) * off_ohm > kDoubtV) return wholly_anew_.push_back(index);
    add_quick(index, from, to, current_a);
}

/// Of the two ends of a branch the one eliminated first comes first; of those of a new one the body comes
/// last.
void SingleChanges::add_quick(int index, int from, int to, double current_a) {
    const bool is_there = changes_[at(index)].branch >= 0;
    if (is_there ? to < from : from == solved_.columns())
        quick_.push_back({index, to, from, -current_a});
    else
        quick_.push_back({index, from, to, current_a});
}

void SingleChanges::sort_by_column() {
    first_quick_.assign(at(solved_.columns()) + 2, 0);
    for (const Quick& quick : quick_) ++first_quick_[at(quick.from) + 1];
    std::partial_sum(first_quick_.begin(), first_quick_.end(), first_quick_.begin());
    std::vector<int> next(first_quick_.begin(), first_quick_.end() - 1);
    std::vector<Quick> sorted(quick_.size());
    for (const Quick& quick : quick_) sorted[at(next[at(quick.from)]++)] = quick;
    quick_ = std::move(sorted);
}

/// A change is two rows of the inverse at the columns of the nodes: those of its ends.
void SingleChanges::observe_quickly(std::span<const int> nodes, std::size_t first, const Hear& hear) const {
    const std::size_t width = nodes.size();
    std::vector<int> columns;
    std::vector<double> now;
    for (const int node : nodes) {
        columns.push_back(solved_.column(node));
        now.push_back(solved_.potential()[at(columns.back())]);
    }
    InverseRows rows(solved_.elimination(), columns);
    const std::vector<double> of_body(width);
    std::map<int, std::vector<double>> of_far;
    for (const auto& [column, potential_v] : columns_)
        for (const int other : columns) of_far[column].push_back(potential_v[at(other)]);
    std::vector<double> then(width);
    const auto row_of = [&](int column) {
        return column == solved_.columns() ? of_body.data() : rows.row(column);
    };
    const auto tell = [&](const Quick& quick) {
        const bool is_joined = changes_[at(quick.change)].branch >= 0 || quick.to == quick.from;
        const bool is_far = !is_joined && quick.to != solved_.columns();
        const double* from = row_of(quick.from);
        const double* to = is_far ? of_far.at(quick.to).data() : row_of(quick.to);
        put_difference(now, quick.current_a, from, to, then.data());
        hear(quick.change, first, then);
    };
    const auto tell_all = [&](int column) {
        for (int i = first_quick_[at(column)]; i < first_quick_[at(column) + 1]; ++i) tell(quick_[at(i)]);
    };
    rows.walk(tell_all);
    tell_all(solved_.columns());
}

void SingleChanges::eliminate_anew(std::span<const int> nodes, const Hear& hear) const {
    if (wholly_anew_.empty()) return;
    Assembly assembly = solved_;
    std::vector<int> columns;
    for (const int node : nodes) columns.push_back(assembly.column(node));
    const std::vector<int> paths = assembly.elimination().paths_of(columns);
    std::vector<double> then(nodes.size());
    for (const int index : wholly_anew_) {
        const SingleChange& change = changes_[at(index)];
        const Tie before = assembly.line(change.branch);
        assembly.set(change.branch, change.line);
        const std::span<const double> potential = assembly.solve_at(paths);
        for (std::size_t k = 0; k < columns.size(); ++k) then[k] = potential[at(columns[k])];
        hear(index, 0, then);
        assembly.set(change.branch, before);
    }
}

void SingleChanges::observe(std::span<const int> nodes, const Hear& hear) const {
    for (std::size_t first = 0; first < nodes.size(); first += kBlock)
        observe_quickly(nodes.subspan(first, std::min(kBlock, nodes.size() - first)), first, hear);
    eliminate_anew(nodes, hear);
}

}  // namespace halfsplit::network
