#include "engine/tracing/role.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace halfsplit::tracing {

using model::PinPolicy;
using network::BranchSource;
using network::NetworkBranch;

namespace {

/// An instrument of less than this carries current on (a jumper lead, an ammeter's shunt); one of more is a
/// load. Shunts and leads are some hundredths of an ohm, the smallest test lamp some ohms (common practice).
constexpr double kLeadBelowOhm = 1.0;

/// What the plain elements of a part are, by the letter of its kind; letters not listed are loads. A diode's
/// bulk resistance only joins.
constexpr std::array<std::pair<std::string_view, Role>, 5> kRoleOfLetter{{{"F", Role::protection},
                                                                          {"R", Role::resistor},
                                                                          {"V", Role::conductor},
                                                                          {"W", Role::conductor},
                                                                          {"X", Role::conductor}}};

/// What a junction is there for: in these kinds to let current pass one way, elsewhere to give light.
constexpr std::array<std::string_view, 2> kLettersOfDiodes{"R", "V"};

bool is_lead(const model::Law& law) {
    const auto* resistance = std::get_if<model::Resistance>(&law);
    return resistance != nullptr && resistance->ohm < kLeadBelowOhm;
}

bool is_source(const model::Law& law) {
    return std::holds_alternative<model::Source>(law) || std::holds_alternative<model::Cell>(law) ||
           std::holds_alternative<model::RegulatedSource>(law);
}

bool only_joins(const model::PartKind& kind) {
    return kind.pin_policy == PinPolicy::single || kind.pin_policy == PinPolicy::counted;
}

/// Its author says that the current is there for it.
bool is_said_to_be_load(const model::Part& part) {
    const std::vector<model::WordSpec>& specs = part.kind->words;
    for (std::size_t i = 0; i < std::min(specs.size(), part.words.size()); ++i)
        if (specs[i].name == "purpose") return part.words[i] == "load";
    return false;
}

Role role_of_element(const model::Part& part, const NetworkBranch& branch) {
    const model::PartKind& kind = *part.kind;
    if (is_source(branch.electrical.law)) return Role::source;
    if (branch.switching) return kind.letter == "F" ? Role::protection : Role::contact;
    if (only_joins(kind)) return Role::conductor;
    if (std::holds_alternative<model::Junction>(branch.electrical.law))
        return std::ranges::find(kLettersOfDiodes, kind.letter) != kLettersOfDiodes.end() ? Role::valve
                                                                                          : Role::load;
    if (!std::holds_alternative<model::Resistance>(branch.electrical.law)) return Role::load;
    // Two pins of a control unit may meet on its circuit board.
    if (kind.letter == "A" && is_lead(branch.electrical.law)) return Role::conductor;
    if (is_said_to_be_load(part)) return Role::load;
    const auto* found =
        std::ranges::find(kRoleOfLetter, kind.letter, &std::pair<std::string_view, Role>::first);
    return found == kRoleOfLetter.end() ? Role::load : found->second;
}

}  // namespace

Role role_of(const model::Circuit& circuit, const NetworkBranch& branch) {
    switch (branch.source) {
        case BranchSource::wire:
            return Role::conductor;
        case BranchSource::contact:
            return Role::connection;
        case BranchSource::fault:
            return Role::fault;
        case BranchSource::instrument:
            if (is_source(branch.electrical.law)) return Role::source;
            return is_lead(branch.electrical.law) ? Role::conductor : Role::load;
        case BranchSource::element:
            break;
    }
    if (branch.part < 0) return Role::load;
    return role_of_element(circuit.parts[static_cast<std::size_t>(branch.part)], branch);
}

std::string_view role_name(Role role) {
    constexpr std::array<std::string_view, 9> kNames{
        "conductor", "connection", "contact", "protection", "resistor", "valve", "fault", "load", "source"};
    return kNames[static_cast<std::size_t>(role)];
}

}  // namespace halfsplit::tracing
