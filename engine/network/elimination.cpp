#include "engine/network/elimination.h"

#include <algorithm>
#include <stdexcept>

#include "engine/network/elimination_structure.h"

namespace halfsplit::network {

namespace {

std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

/// More pairs than this a node, and looking targets up beats a table of them: mesh-like graphs would take
/// gigabytes.
constexpr std::size_t kMostPairsPerNode = 64;

/// Beyond this share of all columns a path update costs more than starting over.
constexpr int kUpdateShare = 4;

}  // namespace

Elimination::Elimination(int node_count, std::span<const Coupling> couplings) {
    for (const Coupling& coupling : couplings)
        if (coupling.a < 0 || coupling.b < 0 || coupling.a >= node_count || coupling.b >= node_count ||
            coupling.a == coupling.b)
            throw std::invalid_argument("a coupling must join two different nodes of the network");
    EliminationStructure structure = analyse_elimination(node_count, couplings);
    column_of_node_ = std::move(structure.column_of_node);
    node_of_column_ = std::move(structure.node_of_column);
    start_ = std::move(structure.start);
    row_ = std::move(structure.row);
    entry_of_coupling_ = std::move(structure.entry_of_coupling);
    coupling_start_ = std::move(structure.coupling_start);
    couplings_of_entry_ = std::move(structure.couplings_of_entry);
    const std::size_t columns = at(node_count);
    parent_.assign(columns, -1);
    for (std::size_t column = 0; column < columns; ++column)
        if (start_[column] < start_[column + 1]) parent_[column] = row_[at(start_[column])];
    contribution_start_.assign(columns + 1, 0);
    for (const int row : row_) ++contribution_start_[at(row) + 1];
    for (std::size_t i = 0; i < columns; ++i) contribution_start_[i + 1] += contribution_start_[i];
    contributions_.resize(row_.size());
    std::vector<int> next(contribution_start_.begin(), contribution_start_.end() - 1);
    for (int column = 0; column < node_count; ++column)
        for (int entry = start_[at(column)]; entry < start_[at(column) + 1]; ++entry)
            contributions_[at(next[at(row_[at(entry)])]++)] = {column, entry};
    make_update_table();
    coupling_s_.assign(couplings.size(), 0);
    to_body_s_.assign(columns, 0);
    injected_a_.assign(columns, 0);
    entry_s_.assign(row_.size(), 0);
    share_.assign(row_.size(), 0);
    gathered_body_s_.assign(columns, 0);
    gathered_a_.assign(columns, 0);
    inverse_pivot_.assign(columns, 0);
    is_touched_.assign(columns, false);
}

int Elimination::entry_of(int column, int row) const {
    const auto first = row_.begin() + start_[at(column)];
    const auto last = row_.begin() + start_[at(column) + 1];
    return static_cast<int>(std::lower_bound(first, last, row) - row_.begin());
}

void Elimination::make_update_table() {
    const std::size_t columns = column_of_node_.size();
    table_start_.assign(columns + 1, 0);
    for (std::size_t column = 0; column < columns; ++column) {
        const auto entries = at(start_[column + 1] - start_[column]);
        table_start_[column + 1] = table_start_[column] + entries * (entries - (entries > 0 ? 1 : 0)) / 2;
    }
    has_update_table_ = table_start_.back() <= kMostPairsPerNode * columns;
    if (!has_update_table_) return;
    update_target_.reserve(table_start_.back());
    for (std::size_t column = 0; column < columns; ++column)
        for (int i = start_[column]; i < start_[column + 1]; ++i)
            for (int j = i + 1; j < start_[column + 1]; ++j)
                update_target_.push_back(entry_of(row_[at(i)], row_[at(j)]));
}

void Elimination::set_coupling(int coupling, double siemens) {
    double& present = coupling_s_[at(coupling)];
    if (present == siemens) return;
    present = siemens;
    const int entry = entry_of_coupling_[at(coupling)];
    touch(static_cast<int>(std::upper_bound(start_.begin(), start_.end(), entry) - start_.begin()) - 1);
}

void Elimination::set_to_body(int node, double siemens) {
    double& present = to_body_s_[at(column_of_node_[at(node)])];
    if (present == siemens) return;
    present = siemens;
    touch(column_of_node_[at(node)]);
}

void Elimination::set_injection(int node, double amperes) {
    double& present = injected_a_[at(column_of_node_[at(node)])];
    if (present == amperes) return;
    present = amperes;
    touch(column_of_node_[at(node)]);
}

void Elimination::touch(int column) {
    if (is_touched_[at(column)]) return;
    is_touched_[at(column)] = true;
    touched_.push_back(column);
}

void Elimination::load_values() {
    for (std::size_t entry = 0; entry < row_.size(); ++entry) {
        double sum = 0;
        for (int i = coupling_start_[entry]; i < coupling_start_[entry + 1]; ++i)
            sum += coupling_s_[at(couplings_of_entry_[at(i)])];
        entry_s_[entry] = sum;
    }
    gathered_body_s_ = to_body_s_;
    gathered_a_ = injected_a_;
}

void Elimination::take_pivot(int column) {
    double pivot = gathered_body_s_[at(column)];
    for (int entry = start_[at(column)]; entry < start_[at(column) + 1]; ++entry)
        pivot += entry_s_[at(entry)];
    inverse_pivot_[at(column)] = pivot > 0 ? 1 / pivot : 0;
    for (int entry = start_[at(column)]; entry < start_[at(column) + 1]; ++entry)
        share_[at(entry)] = entry_s_[at(entry)] * inverse_pivot_[at(column)];
}

/// Turns the column's star into a mesh among its later neighbours.
void Elimination::eliminate(int column) {
    take_pivot(column);
    const int last = start_[at(column) + 1];
    std::size_t pair = table_start_[at(column)];
    for (int i = start_[at(column)]; i < last; ++i) {
        const double share = share_[at(i)];
        const int row = row_[at(i)];
        gathered_body_s_[at(row)] += gathered_body_s_[at(column)] * share;
        gathered_a_[at(row)] += gathered_a_[at(column)] * share;
        for (int j = i + 1; j < last; ++j) {
            const int target = has_update_table_ ? update_target_[pair++] : entry_of(row, row_[at(j)]);
            entry_s_[at(target)] += share * entry_s_[at(j)];
        }
    }
}

void Elimination::factor() {
    load_values();
    for (int column = 0; column < node_count(); ++column) eliminate(column);
    for (const int column : touched_) is_touched_[at(column)] = false;
    touched_.clear();
    is_factored_ = true;
    islands_ = static_cast<int>(std::ranges::count(inverse_pivot_, 0.0));
}

/// Sums a column's values anew: its own, then what each earlier column adds, in the order factor() adds them.
void Elimination::gather(int column) {
    const int first = start_[at(column)];
    const int last = start_[at(column) + 1];
    for (int entry = first; entry < last; ++entry) {
        double sum = 0;
        for (int i = coupling_start_[at(entry)]; i < coupling_start_[at(entry) + 1]; ++i)
            sum += coupling_s_[at(couplings_of_entry_[at(i)])];
        entry_s_[at(entry)] = sum;
    }
    double body_s = to_body_s_[at(column)];
    double current_a = injected_a_[at(column)];
    for (int i = contribution_start_[at(column)]; i < contribution_start_[at(column) + 1]; ++i) {
        const auto [from, entry] = contributions_[at(i)];
        const double share = share_[at(entry)];
        body_s += gathered_body_s_[at(from)] * share;
        current_a += gathered_a_[at(from)] * share;
        const int from_last = start_[at(from) + 1];
        if (has_update_table_) {
            const std::size_t entries = at(from_last - start_[at(from)]);
            const std::size_t place = at(entry - start_[at(from)]);
            std::size_t pair = table_start_[at(from)] + place * entries - place * (place + 1) / 2;
            for (int j = entry + 1; j < from_last; ++j)
                entry_s_[at(update_target_[pair++])] += share * entry_s_[at(j)];
        } else {
            for (int j = entry + 1; j < from_last; ++j)
                entry_s_[at(entry_of(column, row_[at(j)]))] += share * entry_s_[at(j)];
        }
    }
    gathered_body_s_[at(column)] = body_s;
    gathered_a_[at(column)] = current_a;
}

void Elimination::update() {
    if (!is_factored_) return factor();
    // The paths from what was touched up to the roots; each column once.
    for (std::size_t i = 0; i < touched_.size(); ++i) {
        if (touched_.size() * kUpdateShare > column_of_node_.size() + kUpdateShare * kUpdateShare)
            return factor();
        if (const int parent = parent_[at(touched_[i])]; parent >= 0) touch(parent);
    }
    std::ranges::sort(touched_);
    for (const int column : touched_) {
        is_touched_[at(column)] = false;
        islands_ -= inverse_pivot_[at(column)] == 0 ? 1 : 0;
        gather(column);
        take_pivot(column);
        islands_ += inverse_pivot_[at(column)] == 0 ? 1 : 0;
    }
    touched_.clear();
}

void Elimination::potentials(std::span<double> volts) const {
    std::vector<double> by_column(column_of_node_.size());
    for (int column = node_count() - 1; column >= 0; --column) {
        double sum = gathered_a_[at(column)] * inverse_pivot_[at(column)];
        for (int entry = start_[at(column)]; entry < start_[at(column) + 1]; ++entry)
            sum += share_[at(entry)] * by_column[at(row_[at(entry)])];
        by_column[at(column)] = sum;
        volts[at(node_of_column_[at(column)])] = sum;
    }
}

}  // namespace halfsplit::network
