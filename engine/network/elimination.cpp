#include "engine/network/elimination.h"

#include <algorithm>
#include <functional>
#include <limits>

#include "engine/base/index.h"

namespace halfsplit::network {

namespace {

/// Below this a pivot has lost digits (a denormal number) and its inverse may overflow: it counts as 0.
constexpr double kSmallestPivot = std::numeric_limits<double>::min();

/// What a star leg adds between its outer end and another leg's outer end: `ratio_a` and `ratio_b` are the
/// legs' shares of the pivot. The source added flows into the outer end of a.
inline void add_star(Tie& sum, const Tie& a, double ratio_a, const Tie& b, double ratio_b) {
    sum.conductance += ratio_a * b.conductance;
    sum.source += ratio_a * b.source - ratio_b * a.source;
}

inline Tie sum(const Tie& a, const Tie& b) {
    return {a.conductance + b.conductance, a.source + b.source};
}

}  // namespace

Elimination::Elimination(int node_count, std::span<const Link> links, int targets_per_entry)
    : pattern_(analyse(node_count, links, targets_per_entry)),
      own_(at(slots())),
      tie_(at(slots())),
      ratio_(at(pattern_.entries())),
      inverse_(at(node_count)),
      potential_(at(node_count)),
      marked_(at(node_count), 0),
      entry_of_row_(pattern_.has_targets ? 0 : at(node_count)) {}

void Elimination::set(int slot, Tie tie) {
    own_[at(slot)] = tie;
    if (!factored_) return;
    const int entries = pattern_.entries();
    changed_.push_back(slot < entries ? pattern_.column[at(slot)] : slot - entries);
}

/// Completes the ties of a column with its own values, and finds its pivot, ratios and potential. The own
/// values come last: a hub of a thousand weak circuits at a strong source would lose a bit of each in the sum
/// otherwise. Inline, since it makes up half of the work of factor().
inline void Elimination::eliminate(int column) {
    const int begin = pattern_.start[at(column)];
    const int end = pattern_.start[at(column) + 1];
    const std::size_t ground = at(pattern_.entries() + column);
    Tie total = tie_[ground] = sum(tie_[ground], own_[ground]);
    for (int e = begin; e < end; ++e) total = sum(total, tie_[at(e)] = sum(tie_[at(e)], own_[at(e)]));
    const auto [pivot, source] = total;
    const double inverse = pivot >= kSmallestPivot ? 1 / pivot : 0;
    inverse_[at(column)] = inverse;
    potential_[at(column)] = source * inverse;
    for (int e = begin; e < end; ++e) ratio_[at(e)] = tie_[at(e)].conductance * inverse;
}

void Elimination::eliminate_all_with_targets() {
    const int entries = pattern_.entries();
    const int* target = pattern_.target.data();
    for (int p = 0; p < pattern_.columns(); ++p) {
        eliminate(p);
        const Tie ground = tie_[at(entries + p)];
        const double ground_ratio = ground.conductance * inverse_[at(p)];
        const int end = pattern_.start[at(p) + 1];
        for (int e = pattern_.start[at(p)]; e < end; ++e) {
            const Tie leg = tie_[at(e)];
            const double ratio = ratio_[at(e)];
            add_star(tie_[at(entries + pattern_.row[at(e)])], leg, ratio, ground, ground_ratio);
            for (int f = e + 1; f < end; ++f)
                add_star(tie_[at(*target++)], leg, ratio, tie_[at(f)], ratio_[at(f)]);
        }
    }
}

/// Sums anew what the earlier columns add to the ties of one.
void Elimination::gather(int column) {
    const int entries = pattern_.entries();
    Tie& ground = tie_[at(entries + column)];
    ground = {};
    for (int e = pattern_.start[at(column)]; e < pattern_.start[at(column) + 1]; ++e) {
        tie_[at(e)] = {};
        if (!pattern_.has_targets) entry_of_row_[at(pattern_.row[at(e)])] = e;
    }
    for (int k = pattern_.before_start[at(column)]; k < pattern_.before_start[at(column) + 1]; ++k) {
        const int e = pattern_.before[at(k)];
        const int p = pattern_.column[at(e)];
        const int end = pattern_.start[at(p) + 1];
        const Tie leg = tie_[at(e)];
        const double ratio = ratio_[at(e)];
        const Tie& ground_of_p = tie_[at(entries + p)];
        add_star(ground, leg, ratio, ground_of_p, ground_of_p.conductance * inverse_[at(p)]);
        if (pattern_.has_targets) {
            const int* target = pattern_.target.data() + pattern_.target_start[at(e)];
            for (int f = e + 1; f < end; ++f)
                add_star(tie_[at(*target++)], leg, ratio, tie_[at(f)], ratio_[at(f)]);
        } else {
            for (int f = e + 1; f < end; ++f)
                add_star(tie_[at(entry_of_row_[at(pattern_.row[at(f)])])], leg, ratio, tie_[at(f)],
                         ratio_[at(f)]);
        }
    }
}

void Elimination::factor() {
    changed_.clear();
    factored_ = true;
    are_all_touched_ = true;
    if (pattern_.has_targets) {
        std::fill(tie_.begin(), tie_.end(), Tie{});
        eliminate_all_with_targets();
        return;
    }
    for (int p = 0; p < pattern_.columns(); ++p) {
        gather(p);
        eliminate(p);
    }
}

void Elimination::mark_path(int column) {
    for (int p = column; p >= 0 && !marked_[at(p)]; p = pattern_.parent(p)) {
        marked_[at(p)] = 1;
        path_.push_back(p);
    }
}

void Elimination::update() {
    if (!factored_) return factor();
    const std::size_t limit = at(pattern_.columns()) / 4;
    path_.clear();
    for (const int column : changed_) {
        mark_path(column);
        if (path_.size() > limit) break;
    }
    for (const int p : path_) marked_[at(p)] = 0;
    if (path_.size() > limit) return factor();
    std::sort(path_.begin(), path_.end());
    for (const int p : path_) {
        touch(p);
        gather(p);
        eliminate(p);
    }
    changed_.clear();
}

void Elimination::remember() {
    update();
    remembered_ = {own_, tie_, ratio_, inverse_, potential_};
    is_touched_.assign(at(pattern_.columns()), 0);
    touched_.clear();
    are_all_touched_ = false;
}

inline void Elimination::touch(int column) {
    if (are_all_touched_ || is_touched_[at(column)] != 0) return;
    is_touched_[at(column)] = 1;
    touched_.push_back(column);
}

void Elimination::bring_back(int column) {
    const auto begin = at(pattern_.start[at(column)]);
    const auto count = at(pattern_.start[at(column) + 1]) - begin;
    const std::size_t ground = at(pattern_.entries() + column);
    const auto copy = [begin, count](const auto& from, auto& to) {
        std::copy_n(from.begin() + static_cast<std::ptrdiff_t>(begin), count,
                    to.begin() + static_cast<std::ptrdiff_t>(begin));
    };
    copy(remembered_.own, own_);
    copy(remembered_.tie, tie_);
    copy(remembered_.ratio, ratio_);
    own_[ground] = remembered_.own[ground];
    tie_[ground] = remembered_.tie[ground];
    inverse_[at(column)] = remembered_.inverse[at(column)];
    potential_[at(column)] = remembered_.potential[at(column)];
    is_touched_[at(column)] = 0;
}

void Elimination::go_back() {
    for (const int column : changed_) touch(column);
    changed_.clear();
    if (are_all_touched_ || touched_.size() > at(pattern_.columns()) / 4) {
        own_ = remembered_.own;
        tie_ = remembered_.tie;
        ratio_ = remembered_.ratio;
        inverse_ = remembered_.inverse;
        potential_ = remembered_.potential;
        is_touched_.assign(at(pattern_.columns()), 0);
    } else {
        for (const int column : touched_) bring_back(column);
    }
    touched_.clear();
    are_all_touched_ = false;
}

inline double Elimination::potential_of(int column, std::span<const double> potential) const {
    double v = potential_[at(column)];
    for (int e = pattern_.start[at(column)]; e < pattern_.start[at(column) + 1]; ++e)
        v += ratio_[at(e)] * potential[at(pattern_.row[at(e)])];
    return v;
}

void Elimination::solve(std::span<double> potential) const {
    for (int p = pattern_.columns() - 1; p >= 0; --p) potential[at(p)] = potential_of(p, potential);
}

void Elimination::solve_at(std::span<const int> columns, std::span<double> potential) const {
    for (const int p : columns) potential[at(p)] = potential_of(p, potential);
}

std::vector<int> Elimination::paths_of(std::span<const int> columns) const {
    std::vector<char> is_on_path(at(pattern_.columns()), 0);
    std::vector<int> paths;
    for (const int column : columns)
        for (int p = column; p >= 0 && is_on_path[at(p)] == 0; p = pattern_.parent(p)) {
            is_on_path[at(p)] = 1;
            paths.push_back(p);
        }
    std::sort(paths.begin(), paths.end(), std::greater<>());
    return paths;
}

void Elimination::solve_injected(std::span<double> value) const {
    for (int p = 0; p < pattern_.columns(); ++p) {
        const double injected = value[at(p)];
        for (int e = pattern_.start[at(p)]; e < pattern_.start[at(p) + 1]; ++e)
            value[at(pattern_.row[at(e)])] += ratio_[at(e)] * injected;
        value[at(p)] = injected * inverse_[at(p)];
    }
    for (int p = pattern_.columns() - 1; p >= 0; --p)
        for (int e = pattern_.start[at(p)]; e < pattern_.start[at(p) + 1]; ++e)
            value[at(p)] += ratio_[at(e)] * value[at(pattern_.row[at(e)])];
}

/// What flows into a column goes on along its path to the last one; then all come back together.
void Elimination::inverse_columns(std::span<const int> columns, std::span<double> table) const {
    const std::size_t width = columns.size();
    std::fill_n(table.begin(), width * at(pattern_.columns()), 0);
    std::vector<double> flow(at(pattern_.columns()));
    for (std::size_t k = 0; k < width; ++k) {
        flow[at(columns[k])] = 1;
        for (int p = columns[k]; p >= 0; p = pattern_.parent(p)) {
            for (int e = pattern_.start[at(p)]; e < pattern_.start[at(p) + 1]; ++e)
                flow[at(pattern_.row[at(e)])] += ratio_[at(e)] * flow[at(p)];
            table[at(p) * width + k] = flow[at(p)] * inverse_[at(p)];
            flow[at(p)] = 0;
        }
    }
    for (int p = pattern_.columns() - 1; p >= 0; --p)
        for (int e = pattern_.start[at(p)]; e < pattern_.start[at(p) + 1]; ++e) {
            const double ratio = ratio_[at(e)];
            const double* later = table.data() + at(pattern_.row[at(e)]) * width;
            double* own = table.data() + at(p) * width;
            for (std::size_t k = 0; k < width; ++k) own[k] += ratio * later[k];
        }
}

/// Row by row from the last column back: what flows into p spreads to the later columns it is tied to, so its
/// column of the inverse is the mean of theirs, each by its share of the pivot.
void Elimination::inverse_entries(std::span<double> ohm) const {
    const int entries = pattern_.entries();
    const auto between = [&](int e, int f) {
        const int row_e = pattern_.row[at(e)];
        if (e == f) return entries + row_e;
        return pattern_.has_targets ? pattern_.target[at(pattern_.target_start[at(e)] + f - e - 1)]
                                    : pattern_.entry(row_e, pattern_.row[at(f)]);
    };
    for (int p = pattern_.columns() - 1; p >= 0; --p) {
        const int begin = pattern_.start[at(p)];
        const int end = pattern_.start[at(p) + 1];
        for (int e = begin; e < end; ++e) ohm[at(e)] = 0;
        for (int e = begin; e < end; ++e)
            for (int f = e; f < end; ++f) {
                const double both = ohm[at(between(e, f))];
                ohm[at(e)] += ratio_[at(f)] * both;
                if (f != e) ohm[at(f)] += ratio_[at(e)] * both;
            }
        double own = inverse_[at(p)];
        for (int e = begin; e < end; ++e) own += ratio_[at(e)] * ohm[at(e)];
        ohm[at(entries + p)] = own;
    }
}

std::vector<int> Elimination::zero_pivots() const {
    std::vector<int> columns;
    for (int p = 0; p < pattern_.columns(); ++p)
        if (inverse_[at(p)] == 0) columns.push_back(p);
    return columns;
}

}  // namespace halfsplit::network
