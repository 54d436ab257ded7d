#include <algorithm>

#include "engine/base/nearest.h"
#include "engine/model/conductor.h"
#include "engine/model/driver_levels.h"
#include "engine/network/draft.h"
#include "engine/network/faults_at_work.h"
#include "engine/network/moved_parts.h"
#include "engine/network/network.h"
#include "engine/network/part_electrics.h"
#include "engine/network/placed_conditions.h"
#include "engine/network/terminals.h"

namespace halfsplit::network {

using model::Circuit;

namespace {

/// Where a circuit has no quantity `ambient`, its copper is as warm as the tables assume.
constexpr double kRoomDegC = 20;

/// Builds in the order current flows through a reader's mind: plug contacts, parts, wires, then what is wrong
/// with them and what is connected to them. Until the end, branches join terminals; then terminals become
/// nodes.
class Builder {
  public:
    Builder(const Circuit& circuit, const Situation& situation)
        : circuit_(circuit), situation_(situation), terminals_(circuit) {}

    tl::expected<Network, Diagnostics> build() {
        put_together();
        if (!problems_.empty()) return tl::unexpected(problems_);
        merge_ideal_shorts();
        number_nodes();
        list_points();
        return std::move(network_);
    }

    tl::expected<Draft, Diagnostics> draft() {
        put_together();
        if (!problems_.empty()) return tl::unexpected(problems_);
        return Draft{std::move(network_), std::move(terminals_), std::move(electrics_)};
    }

  private:
    const model::Part& part_at(int part) const { return circuit_.parts[static_cast<std::size_t>(part)]; }
    void complain(std::string message) { problems_.push_back(problem(std::move(message))); }

    void put_together() {
        network_.quantities = complete_quantities(circuit_, situation_.quantities);
        place_conditions(circuit_, situation_, network_, problems_);
        for (int part = 0; part < static_cast<int>(circuit_.parts.size()); ++part) {
            add_contacts(part);
            add_elements(part);
        }
        add_wires();
        join_moved_parts(circuit_, situation_, electrics_, network_, problems_);
        for (const Fault& fault : situation_.faults)
            if (const auto applied = apply_fault(circuit_, fault, terminals_, network_); !applied)
                complain(applied.error());
        part_plugs();
        insert();
        attach();
    }

    void add_contacts(int part) {
        const model::Part& each = part_at(part);
        if (!each.plugged) return;
        for (int pin = 0; pin < static_cast<int>(each.pins.size()); ++pin) {
            NetworkBranch contact;
            contact.electrical = {terminals_.harness_side(part, pin), terminals_.part_side(part, pin),
                                  model::Resistance{each.contact_ohm}, true};
            contact.name = circuit_.point_name({part, pin});
            contact.source = BranchSource::contact;
            contact.part = part;
            network_.branches.push_back(std::move(contact));
        }
    }

    void add_elements(int part) {
        const model::Part& each = part_at(part);
        const model::Electrics& electrics = electrics_.emplace_back(
            electrics_of(circuit_, each, faulted_numbers(each, part, situation_.faults), network_.quantities,
                         ailments_of(part, situation_.faults)));
        network_.felt.insert(electrics.felt.begin(), electrics.felt.end());
        const int pins = static_cast<int>(each.pins.size());
        std::vector<int> inner;
        inner.reserve(static_cast<std::size_t>(electrics.inner_nodes));
        for (int i = 0; i < electrics.inner_nodes; ++i)
            inner.push_back(terminals_.add_inner("inside " + each.id));
        const auto terminal = [&](model::Terminal at) {
            if (at == model::kBodyTerminal) return Terminals::kBodyTerminal;
            return at < pins ? terminals_.part_side(part, at) : inner[static_cast<std::size_t>(at - pins)];
        };
        std::multimap<std::string_view, int> branch_of_element;
        for (const model::Element& element : electrics.elements) {
            branch_of_element.emplace(element.name, static_cast<int>(network_.branches.size()));
            NetworkBranch branch;
            branch.electrical = {terminal(element.from), terminal(element.to), element.law, true};
            branch.name = each.id + "." + element.name;
            branch.part = part;
            branch.conducts_in = element.conducts_in;
            branch.slot = element.driver.empty() ? part : driver_slot(part, element.driver);
            branch.store = element.store;
            branch.change = element.change;
            branch.switching = element.contact;
            if (each.kind->pin_policy == model::PinPolicy::counted) branch.source = BranchSource::contact;
            network_.branches.push_back(std::move(branch));
        }
        const auto branches_of = [&](std::string_view element) {
            std::vector<int> branches;
            const auto [first, last] = branch_of_element.equal_range(element);
            for (auto branch = first; branch != last; ++branch) branches.push_back(branch->second);
            return branches;
        };
        for (const model::Trigger& trigger : electrics.triggers)
            network_.triggers.push_back({part, trigger, branches_of(trigger.subject)});
        if (electrics.oscillator)
            network_.oscillators.push_back(
                {part, *electrics.oscillator, branches_of(electrics.oscillator->watched)});
    }

    /// Both ends of a half-bridge share one.
    int driver_slot(int part, std::string_view pin) {
        if (!network_.drivers.empty()) {
            const NetworkDriver& last = network_.drivers.back();
            if (last.part == part && part_at(part).pins[static_cast<std::size_t>(last.pin)].id == pin)
                return last.slot;
        }
        const int slot = static_cast<int>(network_.conditions.size());
        network_.drivers.push_back({part, model::find_pin_index(part_at(part), pin).value(), slot});
        network_.conditions.push_back(model::kDriverOff);
        network_.forced.push_back(false);
        return slot;
    }

    void add_wires() {
        const auto ambient = network_.quantities.find("ambient");
        const double copper_degc = ambient == network_.quantities.end() ? kRoomDegC : ambient->second;
        network_.felt.emplace("ambient");
        for (int i = 0; i < static_cast<int>(circuit_.wires.size()); ++i) {
            const model::Wire& wire = circuit_.wires[static_cast<std::size_t>(i)];
            const double ohm =
                wire.ohm ? *wire.ohm : model::conductor_ohm(wire.area_mm2, wire.length_m, copper_degc);
            NetworkBranch branch;
            branch.electrical = {terminals_.harness_side(wire.from.part, wire.from.pin),
                                 terminals_.harness_side(wire.to.part, wire.to.pin), model::Resistance{ohm},
                                 true};
            branch.name = wire.id;
            branch.source = BranchSource::wire;
            branch.wire = i;
            network_.branches.push_back(std::move(branch));
        }
    }

    void part_plugs() {
        for (const std::string& name : situation_.unplugged) {
            bool found = false;
            for (int part = 0; part < static_cast<int>(circuit_.parts.size()); ++part) {
                const model::Part& each = part_at(part);
                if (each.id != name && each.plug != name) continue;
                found = true;
                if (!each.plugged && each.kind->pin_policy != model::PinPolicy::counted)
                    complain("'" + name + "' has no plug to part");
                open_contacts(circuit_, part, network_);
            }
            if (!found) complain("no part or plug is called '" + name + "'" + did_you_mean(name, part_ids()));
        }
        for (const std::string& name : situation_.pulled) pull(name);
    }

    void pull(const std::string& name) {
        const model::Part* part = circuit_.find_part(name);
        if (part == nullptr)
            return complain("no fuse or relay is called '" + name + "'" + did_you_mean(name, part_ids()));
        if (!part->plugged || (part->kind->letter != "F" && part->kind->letter != "K"))
            return complain("'" + name + "' is a " + std::string(part->kind->element) +
                            "; only fuses and relays in a socket can be pulled");
        open_contacts(circuit_, static_cast<int>(part - circuit_.parts.data()), network_);
    }

    std::vector<std::string> part_ids() const {
        std::vector<std::string> ids;
        for (const model::Part& part : circuit_.parts) ids.push_back(part.id);
        return ids;
    }

    void insert() {
        for (const Insertion& insertion : situation_.insertions) {
            const std::vector<int> branches = branches_named(network_, insertion.where);
            if (branches.empty()) complain("no wire or plug contact is called '" + insertion.where + "'");
            for (const int branch : branches) {
                if (insertion.open)
                    network_.branches[static_cast<std::size_t>(branch)].electrical.conducts = false;
                add_in_series(network_, terminals_, branch, insertion.ohm, insertion.where);
            }
        }
    }

    void attach() {
        std::map<std::string, int, std::less<>> named;
        for (int terminal = 0; terminal < terminals_.count(); ++terminal)
            named.emplace(terminals_.name(terminal), terminal);
        const auto terminal = [&](const std::string& point) {
            if (const auto found = named.find(point); found != named.end()) return found->second;
            if (point.starts_with('*'))
                return named.emplace(point, terminals_.add_inner(point)).first->second;
            // A part without a plug has one side only: both names mean it.
            if (point.ends_with("@part"))
                if (const auto found = named.find(point.substr(0, point.size() - 5)); found != named.end())
                    return found->second;
            complain("no point is called '" + point + "'" + did_you_mean(point, point_names(named)));
            return Terminals::kBodyTerminal;
        };
        for (const Attachment& attachment : situation_.attachments) {
            NetworkBranch branch;
            branch.electrical = {terminal(attachment.from), terminal(attachment.to), attachment.law, true};
            branch.name = attachment.name;
            branch.source = BranchSource::instrument;
            network_.branches.push_back(std::move(branch));
        }
    }

    static std::vector<std::string> point_names(const std::map<std::string, int, std::less<>>& named) {
        std::vector<std::string> names;
        for (const auto& [name, terminal] : named)
            if (!name.starts_with("inside ")) names.push_back(name);
        return names;
    }

    void merge_ideal_shorts() {
        for (const NetworkBranch& branch : network_.branches)
            if (is_ideal_short(branch)) terminals_.merge(branch.electrical.from, branch.electrical.to);
    }

    void number_nodes() {
        std::vector<int> node_of_root(static_cast<std::size_t>(terminals_.count()), kBody);
        for (int terminal = 1; terminal < terminals_.count(); ++terminal) {
            if (terminals_.root(terminal) != terminal) continue;
            node_of_root[static_cast<std::size_t>(terminal)] = network_.node_count++;
            network_.node_names.push_back(terminals_.name(terminal));
        }
        const auto node = [&](int terminal) {
            return node_of_root[static_cast<std::size_t>(terminals_.root(terminal))];
        };
        for (NetworkBranch& branch : network_.branches) {
            if (is_ideal_short(branch)) branch.electrical.conducts = false;
            branch.electrical.from = node(branch.electrical.from);
            branch.electrical.to = node(branch.electrical.to);
        }
        for (int terminal = 0; terminal < terminals_.count(); ++terminal)
            network_.point_nodes.emplace(terminals_.name(terminal), node(terminal));
        for (int part = 0; part < static_cast<int>(circuit_.parts.size()); ++part)
            if (!part_at(part).plugged)
                for (int pin = 0; pin < static_cast<int>(part_at(part).pins.size()); ++pin)
                    network_.point_nodes.emplace(circuit_.point_name({part, pin}) + "@part",
                                                 node(terminals_.harness_side(part, pin)));
    }

    /// Spare pins nobody wired are left out: they would read as floating in every list.
    void list_points() {
        std::vector<std::vector<bool>> wired;
        for (const model::Part& part : circuit_.parts) wired.emplace_back(part.pins.size(), false);
        for (const model::Wire& wire : circuit_.wires)
            for (const model::PinRef end : {wire.from, wire.to})
                wired[static_cast<std::size_t>(end.part)][static_cast<std::size_t>(end.pin)] = true;
        for (std::size_t part = 0; part < wired.size(); ++part)
            for (std::size_t pin = 0; pin < wired[part].size(); ++pin)
                if (wired[part][pin])
                    network_.points.push_back(
                        circuit_.point_name({static_cast<int>(part), static_cast<int>(pin)}));
    }

    const Circuit& circuit_;
    const Situation& situation_;
    Terminals terminals_;
    std::vector<model::Electrics> electrics_;  // one per part
    Network network_;
    Diagnostics problems_;
};

}  // namespace

bool is_ideal_short(const NetworkBranch& branch) {
    const auto* resistance = std::get_if<model::Resistance>(&branch.electrical.law);
    return resistance != nullptr && resistance->ohm == 0 && branch.electrical.conducts &&
           branch.conducts_in.empty();
}

tl::expected<Draft, Diagnostics> draft_network(const Circuit& circuit, const Situation& situation) {
    return Builder(circuit, situation).draft();
}

tl::expected<Network, Diagnostics> build_network(const Circuit& circuit, const Situation& situation) {
    return Builder(circuit, situation).build();
}

}  // namespace halfsplit::network
