#include "engine/network/nodal/elimination.h"

#include <algorithm>
#include <bit>
#include <functional>
#include <limits>

#include "engine/base/index.h"

namespace halfsplit::network {

namespace {

/// Below this a pivot has lost digits (a denormal number) and its inverse may overflow: it counts as 0.
constexpr double kSmallestPivot = std::numeric_limits<double>::min();

/// Columns to a word of the bits that say which are to be eliminated anew.
constexpr int kWord = 64;

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

Elimination::Elimination(int node_count, std::span<const Link> links, int targets_per_entry,
                         std::span<const int> watched)
    : pattern_(analyse(node_count, links, targets_per_entry, watched)),
      own_(at(slots())),
      tie_(at(pattern_.all_slots())),
      ratio_(at(pattern_.entries())),
      inverse_(at(node_count)),
      potential_(at(node_count)),
      waiting_(at(node_count / kWord + 1), 0),
      is_share_changed_(at(pattern_.all_slots() - slots()), 1),
      slot_of_row_(pattern_.has_targets ? 0 : at(node_count)) {}

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
    const std::vector<Share>& shares = pattern_.shares;
    int next_shared = shares.empty() ? -1 : shares.front().column;
    for (int p = 0; p < pattern_.columns(); ++p) {
        if (p == next_shared) {
            const std::span<const Share> own = pattern_.shares_of(p);
            add_up(own);
            next_shared = &own.back() == &shares.back() ? -1 : (&own.back() + 1)->column;
        }
        eliminate(p);
        const Tie ground = tie_[at(entries + p)];
        const double ground_ratio = ground.conductance * inverse_[at(p)];
        const int end = pattern_.start[at(p) + 1];
        for (int e = pattern_.start[at(p)]; e < end; ++e) {
            const Tie leg = tie_[at(e)];
            const double ratio = ratio_[at(e)];
            add_star(tie_[at(pattern_.ground_target[at(e)])], leg, ratio, ground, ground_ratio);
            for (int f = e + 1; f < end; ++f)
                add_star(tie_[at(*target++)], leg, ratio, tie_[at(f)], ratio_[at(f)]);
        }
    }
}

/// What the earlier columns before[begin] … before[end - 1] add.
template <bool kHasTargets>
inline void Elimination::add_stars(int begin, int end) {
    for (int k = begin; k < end; ++k) {
        const int e = pattern_.before[at(k)];
        const int p = pattern_.column[at(e)];
        const int last = pattern_.start[at(p) + 1];
        const Tie leg = tie_[at(e)];
        const double ratio = ratio_[at(e)];
        const Tie& ground = tie_[at(pattern_.ground_slot(p))];
        add_star(tie_[at(pattern_.ground_target[at(e)])], leg, ratio, ground,
                 ground.conductance * inverse_[at(p)]);
        const int* target = kHasTargets ? pattern_.target.data() + pattern_.target_start[at(e)] : nullptr;
        for (int f = e + 1; f < last; ++f) {
            const int slot = kHasTargets ? *target++ : slot_of_row_[at(pattern_.row[at(f)])];
            add_star(tie_[at(slot)], leg, ratio, tie_[at(f)], ratio_[at(f)]);
        }
    }
}

/// Makes room for what add_stars() adds to a column.
inline void Elimination::clear_sums(int column, int ground, int first_entry) {
    tie_[at(ground)] = {};
    const int begin = pattern_.start[at(column)];
    for (int k = 0; k < pattern_.entries_of(column); ++k) {
        tie_[at(first_entry + k)] = {};
        if (!pattern_.has_targets) slot_of_row_[at(pattern_.row[at(begin + k)])] = first_entry + k;
    }
}

/// Sums anew what the earlier columns add to the ties of one, as far as they have changed.
void Elimination::gather(int column) {
    if (const std::span<const Share> shares = pattern_.shares_of(column); !shares.empty())
        return gather_shares(shares);
    clear_sums(column, pattern_.ground_slot(column), pattern_.start[at(column)]);
    const int begin = pattern_.before_start[at(column)];
    const int end = pattern_.before_start[at(column) + 1];
    pattern_.has_targets ? add_stars<true>(begin, end) : add_stars<false>(begin, end);
}

void Elimination::gather_shares(std::span<const Share> shares) {
    for (const Share& share : shares) {
        char& is_changed = is_share_changed_[at(share.slot - slots())];
        if (is_changed == 0) continue;
        is_changed = 0;
        clear_sums(share.column, share.slot, share.slot + 1);
        pattern_.has_targets ? add_stars<true>(share.begin, share.end)
                             : add_stars<false>(share.begin, share.end);
    }
    add_up(shares);
}

/// The sums of a column's shares are its own.
void Elimination::add_up(std::span<const Share> shares) {
    const int column = shares.front().column;
    for (int k = 0; k <= pattern_.entries_of(column); ++k) {
        Tie total;
        for (const Share& share : shares) total = sum(total, tie_[at(share.slot + k)]);
        tie_[at(k == 0 ? pattern_.ground_slot(column) : pattern_.start[at(column)] + k - 1)] = total;
    }
}

void Elimination::factor() {
    changed_.clear();
    factored_ = true;
    are_all_touched_ = true;
    if (pattern_.has_targets) {
        std::fill(tie_.begin(), tie_.end(), Tie{});
        eliminate_all_with_targets();
        std::fill(is_share_changed_.begin(), is_share_changed_.end(), 0);
        return;
    }
    std::fill(is_share_changed_.begin(), is_share_changed_.end(), 1);
    for (int p = 0; p < pattern_.columns(); ++p) {
        gather(p);
        eliminate(p);
    }
}

/// How many columns were not on another path yet.
int Elimination::mark_path(int column) {
    int count = 0;
    for (int p = column; p >= 0; p = pattern_.parent(p)) {
        std::uint64_t& word = waiting_[at(p / kWord)];
        const std::uint64_t bit = std::uint64_t{1} << (p % kWord);
        if ((word & bit) != 0) break;
        word |= bit;
        ++count;
    }
    return count;
}

void Elimination::eliminate_anew(int column) {
    touch(column);
    gather(column);
    eliminate(column);
    if (pattern_.shares.empty()) return;
    for (int e = pattern_.start[at(column)]; e < pattern_.start[at(column) + 1]; ++e)
        if (const int share = pattern_.ground_target[at(e)] - slots(); share >= 0)
            is_share_changed_[at(share)] = 1;
}

void Elimination::update() {
    if (!factored_) return factor();
    const int limit = pattern_.columns() / 4;
    int count = 0;
    int first = pattern_.columns();
    for (const int column : changed_) {
        first = std::min(first, column);
        count += mark_path(column);
        if (count > limit) {
            std::fill(waiting_.begin(), waiting_.end(), 0);
            return factor();
        }
    }
    for (std::size_t i = at(first / kWord); count > 0; ++i)
        for (; waiting_[i] != 0; waiting_[i] &= waiting_[i] - 1, --count)
            eliminate_anew(static_cast<int>(i) * kWord + std::countr_zero(waiting_[i]));
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
    if (const std::span<const Share> shares = pattern_.shares_of(column); !shares.empty()) {
        const auto first = at(shares.front().slot);
        const auto sums = shares.size() * at(1 + pattern_.entries_of(column));
        std::copy_n(&remembered_.tie[first], sums, &tie_[first]);
    }
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
    solve_range(0, pattern_.columns(), potential);
}

void Elimination::solve_at(std::span<const int> columns, std::span<double> potential) const {
    for (const int p : columns) potential[at(p)] = potential_of(p, potential);
}

void Elimination::solve_range(int first, int last, std::span<double> potential) const {
    for (int p = last - 1; p >= first; --p) potential[at(p)] = potential_of(p, potential);
}

void Elimination::solve_from(int first, std::span<double> flow_a, std::span<double> potential) const {
    for (int p = first; p < pattern_.columns(); ++p) {
        const double flow = flow_a[at(p)];
        if (flow == 0) continue;
        for (int e = pattern_.start[at(p)]; e < pattern_.start[at(p) + 1]; ++e)
            flow_a[at(pattern_.row[at(e)])] += ratio_[at(e)] * flow;
        flow_a[at(p)] = flow * inverse_[at(p)];  // volts from here on
    }
    for (int p = pattern_.columns() - 1; p >= first; --p) {
        potential[at(p)] = potential_of(p, potential) + flow_a[at(p)];
        flow_a[at(p)] = 0;
    }
}

std::vector<int> Elimination::path_of(int column) const {
    std::vector<int> path;
    for (int p = column; p >= 0; p = pattern_.parent(p)) path.push_back(p);
    std::ranges::reverse(path);
    return path;
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

/// Row by row from the last column back: what flows into p spreads to the later columns it is tied to, so its
/// column of the inverse is the mean of theirs, each by its share of the pivot.
void Elimination::inverse_entries(std::span<double> ohm) const {
    const int entries = pattern_.entries();
    const auto between = [&](int e, int f) {
        const int row_e = pattern_.row[at(e)];
        if (e == f) return entries + row_e;
        const bool is_tabled = pattern_.has_targets && pattern_.ground_target[at(e)] < slots();
        return is_tabled ? pattern_.target[at(pattern_.target_start[at(e)] + f - e - 1)]
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
