#include "engine/network/single_changes.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/network/constants.h"
#include "engine/network/opening.h"

namespace halfsplit::network {

namespace {

/// What rounding may make of a result, in volts.
constexpr double kDoubtV = 2e-10;

/// Nodes observed at once: of 64 to 5 000 the quickest, measured.
constexpr std::size_t kBlock = 512;

}  // namespace

SingleChanges::SingleChanges(const Assembly& solved, std::span<const SingleChange> changes)
    : solved_(solved), changes_(changes.begin(), changes.end()), inverse_(at(solved.elimination().slots())) {
    solved.elimination().inverse_entries(inverse_);
    for (const double potential_v : solved.potential())
        largest_v_ = std::max(largest_v_, std::abs(potential_v));
    for (int i = 0; i < static_cast<int>(changes_.size()); ++i) weigh(i);
    columns_.clear();
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

/// Of the branch's ends once it is changed, by eliminating anew what that touches.
double SingleChanges::voltage_after(const SingleChange& change, int from, int to) {
    if (!anew_) anew_.emplace(solved_);
    const std::array ends{from, to};
    std::vector<int> columns;
    for (const int end : ends)
        if (end != solved_.columns()) columns.push_back(end);
    anew_->set(change.branch, change.line);
    const std::span<const double> potential = anew_->solve_at(anew_->elimination().paths_of(columns));
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
    if (from == to) return quick_.push_back({index, from, to, 0});
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
    quick_.push_back({index, from, to, current_a});
}

/// A table of the columns of the inverse that belong to the nodes, one row for each column of the
/// elimination, makes a change two rows of it.
void SingleChanges::observe_quickly(std::span<const int> nodes, std::size_t first, const Hear& hear,
                                    std::vector<double>& table) const {
    const std::size_t width = nodes.size();
    std::vector<int> columns;
    std::vector<double> now;
    for (const int node : nodes) {
        columns.push_back(solved_.column(node));
        now.push_back(solved_.potential()[at(columns.back())]);
    }
    table.resize((at(solved_.columns()) + 1) * width);
    solved_.elimination().inverse_columns(columns, table);
    std::fill_n(table.end() - static_cast<std::ptrdiff_t>(width), width, 0.0);  // the body's row
    std::vector<double> then(width);
    for (const Quick& quick : quick_) {
        const double* from = table.data() + at(quick.from) * width;
        const double* to = table.data() + at(quick.to) * width;
        for (std::size_t k = 0; k < width; ++k) then[k] = now[k] - quick.current_a * (from[k] - to[k]);
        hear(quick.change, first, then);
    }
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
    // Kept from block to block: it is large, and memory that is new costs more than what is done with it.
    std::vector<double> table;
    for (std::size_t first = 0; first < nodes.size(); first += kBlock)
        observe_quickly(nodes.subspan(first, std::min(kBlock, nodes.size() - first)), first, hear, table);
    eliminate_anew(nodes, hear);
}

}  // namespace halfsplit::network
