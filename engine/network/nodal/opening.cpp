#include "engine/network/nodal/opening.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/network/nodal/constants.h"

namespace halfsplit::network {

namespace {

/// More than any wire has in a row, and than are worth looking through.
constexpr int kMostPoints = 32;
constexpr std::size_t kMostLegs = 8;
constexpr int kMostEarlier = 32;

}  // namespace

/// What the branch, or the wire it is part of, leads to on one side.
struct Opening::Side {
    int column = 0;
    double share = 1;  ///< of the ampere, that comes as far as here
    Tie more;          ///< what its tie to ground has more with the branch open
    Tie off;           ///< and how far that may be off
};

/// The ampere that z is for: first.share into one side, second.share out of the other.
struct Opening::Ampere {
    Side first;
    Side second;
    double excess =
        0;           ///< of the second share over the first: what the wire has lost to ground, with its sign
    double off = 0;  ///< how far shares and excess may be off

    /// That is eliminated next.
    bool is_first_next() const { return first.column < second.column; }
    const Side& next() const { return is_first_next() ? first : second; }
    const Side& other() const { return is_first_next() ? second : first; }

    void pass(const Star& star);
};

/// What else a column is tied to while it is eliminated with the branch open.
struct Opening::Star {
    struct Leg {
        int to = 0;
        Tie tie;
    };
    int column = 0;
    Tie ground;          ///< with the branch open
    Tie off;             ///< how far that may be off
    Tie ground_before;   ///< as it is
    Tie between;         ///< to the other side, as it is
    double siemens = 0;  ///< of all legs and the ground with the branch open
    std::array<Leg, kMostLegs> legs;
    std::size_t count = 0;
    bool is_whole = true;  ///< no leg is missing here
};

/// Eliminates the point of a wire that comes next. As it is, what it joins and the ground share what comes
/// there; open, all goes on along the wire or to ground.
void Opening::Ampere::pass(const Star& star) {
    const auto& [to, leg] = star.legs[0];
    const bool is_first = is_first_next();
    Side& here = is_first ? first : second;
    Side& there = is_first ? second : first;
    const Tie before = star.ground_before;
    const double pivot_s = before.conductance + leg.conductance + star.between.conductance;
    const double to_ground = before.conductance / pivot_s;
    const double onwards = leg.conductance / pivot_s;
    const double across = star.between.conductance / pivot_s;
    const double to_ground_open = star.ground.conductance / star.siemens;
    const double onwards_open = leg.conductance / star.siemens;

    there.more.conductance -= across * before.conductance;
    there.more.source -= across * before.source - to_ground * star.between.source;
    there.off.conductance += kRounding * across * before.conductance;
    there.off.source +=
        kRounding * (across * std::abs(before.source) + to_ground * std::abs(star.between.source));

    const Tie closed{onwards * before.conductance, onwards * before.source - to_ground * leg.source};
    const Tie open{onwards_open * star.ground.conductance,
                   onwards_open * star.ground.source - to_ground_open * leg.source};
    here.more = {open.conductance - closed.conductance, open.source - closed.source};
    here.off.conductance += kRounding * (open.conductance + closed.conductance);
    here.off.source +=
        kRounding * (std::abs(star.ground.source) + std::abs(before.source) +
                     (to_ground + to_ground_open) * std::abs(leg.source)) +
        here.off.conductance * (std::abs(star.ground.source) + std::abs(leg.source)) / star.siemens;
    here.column = to;

    const double lost = here.share * to_ground;
    off += kRounding * (std::abs(excess) + lost);
    excess += is_first ? lost : -lost;
    here.share *= onwards;
    there.share = is_first ? here.share + excess : here.share - excess;
}

Opening::Opening(const Assembly& solved, std::span<const double> inverse, double largest_v)
    : solved_(solved), inverse_(inverse), largest_v_(largest_v), pattern_(solved.elimination().pattern()) {}

double Opening::inverse(int a, int b) const {
    return inverse_[at(a == b ? pattern_.entries() + a : pattern_.entry(a, b))];
}

Opening::Star Opening::star_of(const Side& side, const Side& other) const {
    const Elimination& elimination = solved_.elimination();
    Star star;
    star.column = side.column;
    star.ground_before = elimination.eliminated(pattern_.entries() + side.column);
    star.ground = {star.ground_before.conductance + side.more.conductance,
                   star.ground_before.source + side.more.source};
    star.off = side.off;
    star.siemens = star.ground.conductance;
    for (int e = pattern_.start[at(side.column)]; e < pattern_.start[at(side.column) + 1]; ++e) {
        const Tie tie = elimination.eliminated(e);
        if (pattern_.row[at(e)] == other.column) {
            star.between = tie;
        } else if (tie != Tie{}) {
            star.is_whole = star.is_whole && star.count < kMostLegs;
            if (!star.is_whole) break;
            star.legs[star.count++] = {pattern_.row[at(e)], tie};
            star.siemens += tie.conductance;
        }
    }
    return star;
}

/// Whether no column eliminated before joins the two sides, but for one.
bool Opening::is_only_way(const Ampere& ampere, int but_through) const {
    const int early = ampere.next().column;
    const int late = ampere.other().column;
    const int begin = pattern_.before_start[at(early)];
    const int end = pattern_.before_start[at(early) + 1];
    if (end - begin > kMostEarlier) return false;
    const Elimination& elimination = solved_.elimination();
    for (int k = begin; k < end; ++k) {
        const int e = pattern_.before[at(k)];
        const int column = pattern_.column[at(e)];
        if (column == but_through || elimination.eliminated(e) == Tie{}) continue;
        for (int f = e + 1; f < pattern_.start[at(column) + 1]; ++f)
            if (pattern_.row[at(f)] == late && elimination.eliminated(f) != Tie{}) return false;
    }
    return true;
}

std::optional<double> Opening::current_at(const Star& star, const Ampere& ampere, double allowed_a) const {
    const double share = ampere.first.share;
    double largest_ohm = 0;
    const auto moves = [&](int column) {
        const double by_first = inverse(column, ampere.first.column);
        const double by_second = inverse(column, ampere.second.column);
        largest_ohm = std::max({largest_ohm, by_first, by_second});
        return share * (by_first - by_second) - ampere.excess * by_second;
    };
    const std::span<const double> potential = solved_.potential();
    const double own_v = potential[at(star.column)];
    const double own_ohm = moves(star.column);
    double source_a = star.ground.source;
    double sources_a = std::abs(star.ground.source);
    double above = star.ground.conductance * own_v;
    double below = star.ground.conductance * own_ohm;
    for (std::size_t i = 0; i < star.count; ++i) {
        const auto& [to, tie] = star.legs[i];
        above += tie.conductance * (own_v - potential[at(to)]);
        below += tie.conductance * (own_ohm - moves(to));
        source_a += tie.source;
        sources_a += std::abs(tie.source);
    }
    const double current_a = (above - source_a) / below;
    const double off_shares = kRounding * (share + std::abs(ampere.excess)) + ampere.off;
    const double off_above = kRounding * (2 * star.siemens * largest_v_ + sources_a) +
                             star.off.conductance * largest_v_ + star.off.source;
    const double off_below =
        star.siemens * 4 * off_shares * largest_ohm + star.off.conductance * std::abs(own_ohm);
    const double off_a = (off_above + std::abs(current_a) * off_below) / std::abs(below);
    if (!(off_a <= allowed_a)) return std::nullopt;
    return current_a;
}

std::optional<double> Opening::current(int branch, double allowed_a) const {
    const auto [from, to] = solved_.ends(branch);
    const Tie line = solved_.line(branch);
    if (std::max(from, to) == solved_.columns() || from == to || line.source != 0) return std::nullopt;
    if (solved_.elimination().get(pattern_.entry(from, to)) != line) return std::nullopt;
    Ampere ampere{{from, 1, {}, {}}, {to, 1, {}, {}}, 0, 0};
    int through = -1;
    for (int point = 0; point < kMostPoints && is_only_way(ampere, through); ++point) {
        const Star star = star_of(ampere.next(), ampere.other());
        if (!star.is_whole) return std::nullopt;
        if (const auto found = current_at(star, ampere, allowed_a)) return found;
        const bool is_point_of_a_wire = star.count == 1 && star.legs[0].tie.conductance > 0;
        if (!is_point_of_a_wire) return std::nullopt;
        const int joined = pattern_.entry(star.legs[0].to, ampere.other().column);
        if (solved_.elimination().get(joined) != Tie{}) return std::nullopt;
        through = star.column;
        ampere.pass(star);
    }
    return std::nullopt;
}

}  // namespace halfsplit::network
