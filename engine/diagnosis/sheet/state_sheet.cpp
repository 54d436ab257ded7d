#include "engine/diagnosis/sheet/state_sheet.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/sheet/belonging.h"
#include "engine/diagnosis/sheet/meter.h"
#include "engine/diagnosis/sheet/under_load.h"
#include "engine/diagnosis/swing.h"
#include "engine/instruments/voltmeter.h"
#include "engine/model/structure.h"

namespace halfsplit::diagnosis {

namespace {

/// Nobody is told of what happens in fewer vehicles than one in a thousand: the limits leave out ten.
constexpr double kWorthTelling = 0.001;

class Builder {
  public:
    Builder(const AsWired& wired, const simulation::Settled& settled)
        : wired_(wired), settled_(settled), wiring_(wired.circuit, settled.network, settled.point) {}

    tl::expected<StateSheet, Diagnostics> build(int state) {
        add_signs();
        const std::vector<LiveWay> ways = live_ways(wiring_);
        for (const TestPoint& point : wired_.points) add_voltage(point.name, Practice::none, 0);
        for (const UnderLoad& each : under_load(wired_.circuit, ways)) add_under_load(each);
        const auto limits = limits_in_state(wired_.circuit, settled_, observations_);
        if (!limits) return tl::unexpected(limits.error());
        const auto metered = metered_v(settled_, observations_);
        if (!metered) return tl::unexpected(metered.error());
        for (std::size_t i = 0; i < rows_.size(); ++i) fill(rows_[i], limits->limits[i], (*metered)[i]);
        if (auto watched = find_pulses(); !watched) return tl::unexpected(watched.error());
        find_belonging(ways);
        sort();
        signs_.insert(signs_.end(), std::make_move_iterator(rows_.begin()),
                      std::make_move_iterator(rows_.end()));
        return StateSheet{state, std::move(signs_), doubts_in(*limits)};
    }

  private:
    bool is_wanted(int part) const {
        return wired_.parts.empty() || std::ranges::find(wired_.parts, part) != wired_.parts.end();
    }
    int node_of(const std::string& point) const { return settled_.network.point_nodes.find(point)->second; }

    void add_signs() {
        const network::Solution solution{settled_.point.potential_v, settled_.point.current_a};
        for (const SignSource& source : sign_sources(wired_.circuit)) {
            if (source.shows == Shows::fuse || !is_wanted(source.part)) continue;
            std::vector<int> branches;
            for (int branch = 0; branch < wiring_.branch_count(); ++branch)
                if (!source.branch.empty() && wiring_.branch(branch).name == source.branch)
                    branches.push_back(branch);
            SheetRow row{SheetRow::Kind::sign, source.name, "", kLookAndListen};
            row.part = source.part;
            row.place = place_of(wired_.circuit, source.part);
            row.sign = sign_of(source, branches, settled_.network, settled_.point.conditions, solution);
            signs_.push_back(std::move(row));
            across_signs_.push_back(across(branches));
        }
    }

    /// What stands across the first of a sign's branches; nothing, where a condition shows it.
    Observation across(const std::vector<int>& branches) const {
        if (branches.empty()) return {};
        const network::Branch& branch = wiring_.branch(branches.front()).electrical;
        return {branch.from, branch.to};
    }

    void add(SheetRow row, const std::string& at_point, const std::string& against_point) {
        if (!is_wanted(row.part)) return;
        const Observation observation{node_of(at_point), node_of(against_point)};
        const auto is_floating = [&](int node) {
            return node != network::kBody && settled_.point.floating[at(node)];
        };
        row.floating = is_floating(observation.at) || is_floating(observation.against);
        rows_.push_back(std::move(row));
        observations_.push_back(observation);
        sort_at_.push_back(wiring_.vertex(observation.at));
    }

    void add_voltage(const std::string& name, Practice practice, double allowed_v) {
        const auto known = std::ranges::find_if(rows_, [&](const SheetRow& row) {
            return row.kind == SheetRow::Kind::voltage && row.at == name;
        });
        if (known != rows_.end()) {
            if (practice == Practice::none) return;
            known->practice = practice;
            known->allowed_v = allowed_v;
            return;
        }
        const TestPoint point = test_point(wiring_, name);
        SheetRow row{SheetRow::Kind::voltage, name, std::string(model::kBodyId), "voltmeter"};
        row.part = point.pin.part;
        row.place = point.place;
        row.practice = practice;
        row.allowed_v = allowed_v;
        for (int wire = 0; wire < static_cast<int>(wired_.circuit.wires.size()); ++wire) {
            const model::Wire& each = wired_.circuit.wires[at(wire)];
            for (const model::PinRef end : {each.from, each.to})
                if (end.part == point.pin.part && end.pin == point.pin.pin) row.wires.push_back(wire);
        }
        add(std::move(row), name, std::string(model::kBodyId));
    }

    void add_under_load(const UnderLoad& what) {
        const double allowed_v = allowed_drop_v(what.practice, what.couplings, wired_.circuit.nominal_v);
        if (what.against == model::kBodyId) return add_voltage(what.at, what.practice, allowed_v);
        SheetRow row{SheetRow::Kind::drop, what.at, what.against, "voltmeter"};
        row.practice = what.practice;
        row.allowed_v = allowed_v;
        row.wires = what.wires;
        if (what.practice == Practice::fuse) return add_fuse(what.part, std::move(row));
        const TestPoint far = test_point(wiring_, what.against);
        row.part = test_point(wiring_, what.at).pin.part;
        row.place = far.place;
        if (is_wanted(far.pin.part)) add(std::move(row), what.at, what.against);
    }

    /// On the two test points a fuse has, from its first pin to its second.
    void add_fuse(int part, SheetRow row) {
        const auto test_tip = [&](int pin) { return wired_.circuit.point_name({part, pin}) + "@part"; };
        row.at = wired_.circuit.parts[at(part)].id;
        row.against = "";
        row.instrument = "fuse-millivolts";
        row.part = part;
        row.place = place_of(wired_.circuit, part);
        add(std::move(row), test_tip(0), test_tip(1));
    }

    /// The meter takes from a point what it takes from its limits too.
    static void fill(SheetRow& row, const Limits& limits, double metered_v) {
        row.expected = instruments::volts_on_display(metered_v).value;
        if (row.floating) return;
        const double shift_v = metered_v - limits.nominal_v;
        row.bends = limits.bends;
        row.low = instruments::volts_on_display(limits.low_v + shift_v).low;
        row.high = instruments::volts_on_display(limits.high_v + shift_v).high;
    }

    tl::expected<void, Diagnostics> find_pulses() {
        std::vector<Observation> all = observations_;
        all.insert(all.end(), across_signs_.begin(), across_signs_.end());
        const auto swings = watch(wired_.circuit, settled_, all);
        if (!swings) return tl::unexpected(swings.error());
        for (std::size_t i = 0; i < all.size(); ++i) {
            const Swing& swing = (*swings)[i];
            const bool is_sign = i >= rows_.size();
            SheetRow& row = is_sign ? signs_[i - rows_.size()] : rows_[i];
            // A dark lamp feels what others do to the ground they share.
            row.pulses = swing.pulses && (!is_sign || swing.most_v - swing.least_v > kLeastSwingV);
            if (!swing.pulses || is_sign) continue;
            row.floating = false;
            row.bends = false;
            row.low = instruments::volts_on_display(swing.least_v).low;
            row.high = instruments::volts_on_display(swing.most_v).high;
        }
        return {};
    }

    void find_belonging(const std::vector<LiveWay>& ways) {
        const Belonging belonging(wiring_, wired_.walk, ways);
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const bool is_drop = rows_[i].kind == SheetRow::Kind::drop;
            const int node = is_drop ? observations_[i].against : observations_[i].at;
            rows_[i].fuse = belonging.fuse(node);
            rows_[i].ground = belonging.ground(node);
        }
    }

    /// Place by place in the author's order, what has none last; in each from supply to ground, and what is
    /// left on the way there at the end. Contacts that open and close by themselves are left out.
    void sort() {
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < rows_.size(); ++i)
            if (!(rows_[i].pulses && rows_[i].practice == Practice::contact)) order.push_back(i);
        const auto key = [&](std::size_t i) {
            const auto places = static_cast<int>(wired_.circuit.places.size());
            const int place = rows_[i].place < 0 ? places : rows_[i].place;
            return std::tuple(place, rows_[i].practice == Practice::ground, wired_.walk.rank(sort_at_[i]),
                              rows_[i].kind == SheetRow::Kind::drop, i);
        };
        std::ranges::sort(order, {}, key);
        std::vector<SheetRow> sorted;
        sorted.reserve(order.size());
        for (const std::size_t i : order) sorted.push_back(std::move(rows_[i]));
        rows_ = std::move(sorted);
    }

    /// The other condition of a part that a trigger moves.
    int other_condition(int part) const {
        const int now = settled_.point.conditions[at(part)];
        for (const network::NetworkTrigger& each : settled_.network.triggers) {
            if (each.part != part) continue;
            const bool is_above = now == each.trigger.above || now == each.trigger.also_above;
            if (is_above) return each.trigger.below;
            if (now == each.trigger.below) return each.trigger.above;
        }
        return now;
    }

    std::vector<SheetDoubt> doubts_in(const StateLimits& limits) const {
        std::vector<SheetDoubt> doubts;
        for (const Doubt& doubt : limits.doubts) {
            const bool is_known = std::ranges::find(doubts, doubt.part, &SheetDoubt::part) != doubts.end();
            if (doubt.chance < kWorthTelling || is_known) continue;
            doubts.push_back({doubt.part, settled_.point.conditions[at(doubt.part)],
                              other_condition(doubt.part), doubt.chance});
        }
        return doubts;
    }

    const AsWired& wired_;
    const simulation::Settled& settled_;
    tracing::Wiring wiring_;
    std::vector<SheetRow> signs_;
    std::vector<Observation> across_signs_;  ///< one per sign
    std::vector<SheetRow> rows_;             ///< all but signs
    std::vector<Observation> observations_;  ///< one per row
    std::vector<int> sort_at_;               ///< vertex per row
};

}  // namespace

tl::expected<StateSheet, Diagnostics> state_sheet(const AsWired& wired, int state,
                                                  const simulation::Settled& settled) {
    return Builder(wired, settled).build(state);
}

}  // namespace halfsplit::diagnosis
