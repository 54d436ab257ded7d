#include "engine/diagnosis/fault_universe.h"

#include <algorithm>
#include <set>
#include <string>

#include "engine/base/number.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::diagnosis {

using model::Circuit;
using model::FaultSpec;
using model::LinkEffect;

namespace {

/// The author's rate for this fault: the most exact of those that fit, else the kind's own.
double rate_of(const std::vector<model::FaultRate>& authored, const FaultSpec& spec, std::string_view where) {
    double rate = spec.rate;
    for (const model::FaultRate& each : authored)
        if (each.kind == spec.kind && each.where.empty()) rate = each.rate;
    for (const model::FaultRate& each : authored)
        if (each.kind == spec.kind && !each.where.empty() && each.where == where) rate = each.rate;
    return rate;
}

LinkEffect::What link_of(const FaultSpec& spec) {
    const auto* link = std::get_if<LinkEffect>(&spec.effect);
    return link == nullptr ? LinkEffect::What::open : link->what;
}

/// Posts and studs are bolted far apart: only contacts in one housing get wet together, are mixed up or
/// touch.
bool shares_a_housing(const model::Part& part) {
    return part.kind->letter != "G";
}

class Universe {
  public:
    explicit Universe(const Circuit& circuit) : circuit_(circuit) { find_wired_pins(); }

    std::vector<PossibleFault> all() {
        for (std::size_t i = 0; i < circuit_.parts.size(); ++i) {
            add_part(circuit_.parts[i]);
            add_contacts(static_cast<int>(i));
            add_plug(circuit_.parts[i]);
        }
        for (const model::Wire& wire : circuit_.wires) add_wire(wire);
        return std::move(faults_);
    }

  private:
    void find_wired_pins() {
        for (const model::Wire& wire : circuit_.wires)
            for (const model::PinRef end : {wire.from, wire.to}) wired_.insert({end.part, end.pin});
    }

    bool is_wired(int part, int pin) const { return wired_.contains({part, pin}); }

    void add(const FaultSpec& spec, const std::string& where, double rate) {
        if (rate <= 0) return;
        auto fault = network::parse_fault(circuit_, std::string(spec.kind) + ":" + where);
        if (fault) faults_.push_back({std::move(*fault), rate});
    }

    void add_part(const model::Part& part) {
        for (const FaultSpec& spec : part.kind->faults) {
            if (std::holds_alternative<model::ContactEffect>(spec.effect)) {
                for (const std::string& contact : network::contact_elements(circuit_, part))
                    add(spec, part.id + "." + contact, rate_of(part.fault_rates, spec, contact));
                continue;
            }
            if (std::holds_alternative<model::DeadInput>(spec.effect)) {
                for (const model::Pin& pin : part.pins)
                    if (pin.kind == "input")
                        add(spec, part.id + "." + pin.id, rate_of(part.fault_rates, spec, pin.id));
                continue;
            }
            const std::string where =
                spec.element.empty() ? part.id : part.id + "." + std::string(spec.element);
            add(spec, where, rate_of(part.fault_rates, spec, spec.element));
        }
    }

    void add_contacts(int index) {
        const model::Part& part = circuit_.parts[static_cast<std::size_t>(index)];
        const bool is_coupling = part.kind->pin_policy == model::PinPolicy::counted;
        if (!part.plugged && !is_coupling) return;
        const int step = is_coupling ? 2 : 1;
        for (int pin = 0; pin < static_cast<int>(part.pins.size()); pin += step) {
            if (!is_wired(index, pin)) continue;
            for (const FaultSpec& spec : model::contact_faults())
                if (const std::string where = place_of(spec, index, pin, step); !where.empty())
                    add(spec, where, rate_of(part.fault_rates, spec, contact_id(part, pin)));
        }
    }

    /// Where a contact's fault sits, "X20.3" or "X20.3+X20.4"; empty where it cannot be. Fuses work either
    /// way round.
    std::string place_of(const FaultSpec& spec, int index, int pin, int step) const {
        const model::Part& part = circuit_.parts[static_cast<std::size_t>(index)];
        std::string here = part.id + "." + contact_id(part, pin);
        const LinkEffect::What what = link_of(spec);
        if (what != LinkEffect::What::swapped && what != LinkEffect::What::wet) return here;
        const int next = pin + step;
        const bool has_neighbour =
            shares_a_housing(part) && next < static_cast<int>(part.pins.size()) && is_wired(index, next);
        if (!has_neighbour) return {};
        if (what == LinkEffect::What::wet) return here;
        return part.kind->letter == "F" ? std::string() : here + "+" + part.id + "." + contact_id(part, next);
    }

    static std::string contact_id(const model::Part& part, int pin) {
        std::string id = part.pins[static_cast<std::size_t>(pin)].id;
        if (part.kind->pin_policy == model::PinPolicy::counted) id.pop_back();
        return id;
    }

    void add_plug(const model::Part& part) {
        const bool is_coupling = part.kind->pin_policy == model::PinPolicy::counted;
        if (part.pins.empty() || (!part.plugged && !is_coupling)) return;
        for (const FaultSpec& spec : model::plug_faults())
            add(spec, part.id, rate_of(part.fault_rates, spec, ""));
    }

    void add_wire(const model::Wire& wire) {
        for (const FaultSpec& spec : model::wire_kind().faults) {
            const double rate = rate_of(wire.fault_rates, spec, "");
            if (link_of(spec) == LinkEffect::What::between_wires) {
                for (const std::string& neighbour : later_neighbours(wire))
                    add(spec, wire.id + "+" + neighbour, rate);
            } else if (link_of(spec) == LinkEffect::What::chafed) {
                if (const model::Quantity* shaking = circuit_.find_quantity("vibration"))
                    add(spec,
                        wire.id + "=open@vibration:" + number_text((shaking->min + shaking->max) / 2) + ".." +
                            number_text(shaking->max),
                        rate);
            } else {
                add(spec, wire.id, rate);
            }
        }
    }

    /// Wires on the next pin of a plug this wire goes to, each pair once.
    std::vector<std::string> later_neighbours(const model::Wire& wire) const {
        std::set<std::string> names;
        for (const model::PinRef end : {wire.from, wire.to}) {
            const model::Part& part = circuit_.parts[static_cast<std::size_t>(end.part)];
            const int step = part.kind->pin_policy == model::PinPolicy::counted ? 2 : 1;
            if (!shares_a_housing(part)) continue;
            for (const model::Wire& other : circuit_.wires)
                for (const model::PinRef other_end : {other.from, other.to})
                    if (other.id != wire.id && other_end.part == end.part && other_end.pin == end.pin + step)
                        names.insert(other.id);
        }
        return {names.begin(), names.end()};
    }

    const Circuit& circuit_;
    std::set<std::pair<int, int>> wired_;
    std::vector<PossibleFault> faults_;
};

}  // namespace

std::vector<PossibleFault> fault_universe(const Circuit& circuit) {
    return Universe(circuit).all();
}

}  // namespace halfsplit::diagnosis
