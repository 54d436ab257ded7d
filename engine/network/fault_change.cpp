#include "engine/network/fault_change.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/model/slow_change.h"
#include "engine/network/faults_at_work.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::network {

using model::Circuit;
using model::Electrics;

namespace {

bool changes_numbers(const Fault& fault) {
    const model::FaultEffect& effect = fault.spec->effect;
    return fault.subject == FaultSubject::part && (std::holds_alternative<model::ScaleNumber>(effect) ||
                                                   std::holds_alternative<model::SetNumber>(effect) ||
                                                   std::holds_alternative<model::Ailment>(effect));
}

/// Whether both are the same elements, perhaps with other laws.
bool same_elements(const Electrics& before, const Electrics& now) {
    const auto same = [](const model::Element& a, const model::Element& b) {
        return a.name == b.name && a.from == b.from && a.to == b.to && a.conducts_in == b.conducts_in &&
               a.contact == b.contact && a.driver == b.driver;
    };
    return before.inner_nodes == now.inner_nodes && before.triggers.size() == now.triggers.size() &&
           before.oscillator.has_value() == now.oscillator.has_value() &&
           before.travel.has_value() == now.travel.has_value() &&
           std::ranges::equal(before.elements, now.elements, same);
}

bool is_bent(const model::Trigger& before, const model::Trigger& now) {
    return before.rise != now.rise || before.fall != now.fall;
}

/// Adds what has another key than all that is there; false where something has not.
template <class Each, class Key>
bool add_apart(std::vector<Each>& all, const std::vector<Each>& further, Key key) {
    for (const Each& each : further)
        if (std::ranges::any_of(all, [&](const Each& present) { return key(present) == key(each); }))
            return false;
    all.insert(all.end(), further.begin(), further.end());
    return true;
}

}  // namespace

std::optional<FaultChange> together(FaultChange one, const FaultChange& other) {
    const bool are_apart =
        add_apart(one.branches, other.branches, [](const auto& changed) { return changed.branch; }) &&
        add_apart(one.leaks, other.leaks, [](const auto& leak) { return std::minmax(leak.from, leak.to); }) &&
        add_apart(one.held, other.held, [](const auto& held) { return held.part; }) &&
        add_apart(one.levels, other.levels, [](const auto& level) { return level.trigger; });
    return are_apart ? std::optional(std::move(one)) : std::nullopt;
}

model::Law crept(const model::Law& law, const model::Law& built, const NetworkBranch& now) {
    const model::Law& present = now.electrical.law;
    if (law == built) return present;
    if (present == built || present.index() != built.index() || law.index() != built.index()) return law;
    if (const auto* resistance = std::get_if<model::Resistance>(&law))
        return model::Resistance{resistance->ohm * std::get<model::Resistance>(present).ohm /
                                 std::get<model::Resistance>(built).ohm};
    if (const auto* warming = std::get_if<model::Warming>(&now.change))
        if (const auto* motor = std::get_if<model::RunningMotor>(&built))
            if (const auto* metal = std::get_if<model::MetalCurve>(&warming->curve)) {
                const double factor = std::get<model::RunningMotor>(present).ohm / motor->ohm;
                return model::changed(law, now.change, (factor - 1) / metal->per_kelvin);
            }
    if (const auto* charge = std::get_if<model::Charge>(&now.change))
        if (const auto* cell = std::get_if<model::Cell>(&built);
            cell != nullptr && charge->volts_per_share > 0)
            return model::changed(
                law, now.change,
                (std::get<model::Cell>(present).emf_v - cell->emf_v) / charge->volts_per_share);
    return law;
}

FaultChanges::FaultChanges(const Circuit& circuit, const Network& network, Draft draft)
    : circuit_(circuit), network_(network), draft_(std::move(draft)), terminals_(draft_.terminals.count()) {
    int branch = 0;
    int trigger = 0;
    for (std::size_t part = 0; part < circuit.parts.size(); ++part) {
        const model::Part& each = circuit.parts[part];
        if (each.plugged) branch += static_cast<int>(each.pins.size());
        first_element_.push_back(branch);
        first_trigger_.push_back(trigger);
        branch += static_cast<int>(draft_.electrics[part].elements.size());
        trigger += static_cast<int>(draft_.electrics[part].triggers.size());
    }
    for (std::size_t i = 0; i < draft_.network.branches.size(); ++i) {
        NetworkBranch& each = draft_.network.branches[i];
        built_.push_back(each.electrical.law);
        each.electrical.law = network.branches[i].electrical.law;
        kept_.push_back({each.electrical, each.always});
    }
}

tl::expected<FaultChanges, Diagnostics> FaultChanges::in(const Circuit& circuit, const Network& network,
                                                         const Situation& situation) {
    auto draft = draft_network(circuit, situation);
    if (!draft) return tl::unexpected(draft.error());
    if (draft->network.branches.size() != network.branches.size())
        return tl::unexpected(one_problem("the network is not that of the situation"));
    return FaultChanges(circuit, network, std::move(*draft));
}

std::optional<FaultChange> FaultChanges::of(const Fault& fault) {
    FaultChange change;
    if (changes_numbers(fault)) return change_numbers(fault, change) ? std::optional(change) : std::nullopt;
    const bool can = work_in(fault, change);
    restore(fault);
    return can ? std::optional(change) : std::nullopt;
}

bool FaultChanges::change_numbers(const Fault& fault, FaultChange& change) {
    const model::Part& part = circuit_.parts[at(fault.part)];
    const Electrics now = electrics_of(circuit_, part, faulted_numbers(part, fault.part, {fault}),
                                       network_.quantities, ailments_of(fault.part, {fault}));
    const Electrics& before = draft_.electrics[at(fault.part)];
    if (!same_elements(before, now)) return false;
    if (now.travel && now.travel->start != before.travel->start) return false;
    if (!change_laws(fault.part, now, change)) return false;
    change_levels(fault.part, now, change);
    change_travels(fault.part, now, change);
    return true;
}

/// What a rotor moves makes its law heavier; `but` of the travels counts by another factor.
model::Law FaultChanges::loaded(int rotor, model::Law law, int but, double factor) const {
    auto* motor = std::get_if<model::RunningMotor>(&law);
    if (motor == nullptr) return law;
    for (std::size_t i = 0; i < network_.travels.size(); ++i)
        if (network_.travels[i].rotor == rotor)
            *motor = model::heavier(
                *motor, static_cast<int>(i) == but ? factor : network_.travels[i].travel.load_factor);
    return law;
}

bool FaultChanges::set_law(int branch, const model::Law& law, FaultChange& change) const {
    if (law == built_[at(branch)]) return true;
    const Kept& kept = kept_[at(branch)];
    const auto* resistance = std::get_if<model::Resistance>(&law);
    const bool is_ideal = resistance != nullptr && resistance->ohm == 0;
    if (is_ideal || is_ideal_short(draft_.network.branches[at(branch)])) return false;
    change.branches.push_back({branch, crept(law, built_[at(branch)], network_.branches[at(branch)]),
                               kept.electrical.conducts, kept.always});
    return true;
}

bool FaultChanges::change_laws(int part, const Electrics& now, FaultChange& change) const {
    int branch = first_element_[at(part)];
    for (const model::Element& element : now.elements) {
        if (!set_law(branch, loaded(branch, element.law, -1, 1), change)) return false;
        ++branch;
    }
    return true;
}

void FaultChanges::change_levels(int part, const Electrics& now, FaultChange& change) const {
    for (std::size_t i = 0; i < now.triggers.size(); ++i) {
        const int trigger = first_trigger_[at(part)] + static_cast<int>(i);
        if (is_bent(network_.triggers[at(trigger)].trigger, now.triggers[i]))
            change.levels.push_back({trigger, now.triggers[i]});
    }
}

/// A mechanism that is stiff or stuck shows in its motor.
void FaultChanges::change_travels(int part, const Electrics& now, FaultChange& change) const {
    for (std::size_t i = 0; i < network_.travels.size(); ++i) {
        const NetworkTravel& travel = network_.travels[i];
        if (travel.part != part || !now.travel) continue;
        if (now.travel->jammed && travel.part != travel.motor)
            change.held.push_back({travel.motor, travel.blocking.at_end});
        if (now.travel->load_factor == travel.travel.load_factor) continue;
        const int element = travel.rotor - first_element_[at(travel.motor)];
        const model::Law& light = draft_.electrics[at(travel.motor)].elements[at(element)].law;
        set_law(travel.rotor, loaded(travel.rotor, light, static_cast<int>(i), now.travel->load_factor),
                change);
    }
}

bool FaultChanges::work_in(const Fault& fault, FaultChange& change) {
    Network& network = draft_.network;
    const std::vector<bool> forced = network.forced;
    touched_.clear();
    if (!apply_fault(circuit_, fault, draft_.terminals, network)) return false;
    for (int i = 0; i < static_cast<int>(kept_.size()); ++i)
        if (is_touched(i)) touched_.push_back(i);
    for (const int branch : touched_)
        if (!compare(branch, change)) return false;
    for (std::size_t i = kept_.size(); i < network.branches.size(); ++i)
        if (!add_leak(network.branches[i], change)) return false;
    for (std::size_t i = 0; i < forced.size(); ++i)
        if (network.forced[i] != forced[i])
            change.held.push_back({static_cast<int>(i), network.conditions[i]});
    return true;
}

bool FaultChanges::is_touched(int branch) const {
    const NetworkBranch& now = draft_.network.branches[at(branch)];
    const Kept& kept = kept_[at(branch)];
    return now.electrical.from != kept.electrical.from || now.electrical.to != kept.electrical.to ||
           now.electrical.conducts != kept.electrical.conducts || now.always != kept.always ||
           !(now.electrical.law == kept.electrical.law);
}

/// A branch that went elsewhere is one that has gone and one that was not there.
bool FaultChanges::compare(int branch, FaultChange& change) const {
    const NetworkBranch& now = draft_.network.branches[at(branch)];
    NetworkBranch before = now;
    before.electrical = kept_[at(branch)].electrical;
    if (is_ideal_short(before) || is_ideal_short(now)) return false;
    const bool is_moved =
        now.electrical.from != before.electrical.from || now.electrical.to != before.electrical.to;
    change.branches.push_back({branch, now.electrical.law, now.electrical.conducts && !is_moved, now.always});
    return !is_moved || add_leak(now, change);
}

bool FaultChanges::add_leak(const NetworkBranch& added, FaultChange& change) const {
    const auto* resistance = std::get_if<model::Resistance>(&added.electrical.law);
    const bool is_plain = resistance != nullptr && resistance->ohm > 0 && added.conducts_in.empty();
    const Branch& ends = added.electrical;
    if (!is_plain || ends.from >= terminals_ || ends.to >= terminals_) return false;
    const int from = node_of(ends.from);
    const int to = node_of(ends.to);
    if (ends.conducts && from != to) change.leaks.push_back({from, to, resistance->ohm});
    return true;
}

void FaultChanges::restore(const Fault& fault) {
    Network& network = draft_.network;
    network.branches.resize(kept_.size());
    for (const int branch : touched_) {
        network.branches[at(branch)].electrical = kept_[at(branch)].electrical;
        network.branches[at(branch)].always = kept_[at(branch)].always;
    }
    network.forced = network_.forced;
    network.dead_inputs.erase({fault.part, fault.pin});
}

int FaultChanges::node_of(int terminal) const {
    return network_.point_nodes.find(draft_.terminals.name(terminal))->second;
}

}  // namespace halfsplit::network
