#include "engine/diagnosis/dictionary/sign.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/index.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::diagnosis {

using model::Circuit;
using model::Part;
using network::NetworkBranch;

namespace {

/// Which element of which kind of part shows itself, and how. `rating` names the kind's number for it.
struct Shown {
    std::string_view kind;
    std::string_view element;
    Shows shows;
    std::string_view rating;
};

constexpr std::array kShown{Shown{"lamp", "filament", Shows::filament, "rated-w"},
                            Shown{"twin-lamp", "filament-a", Shows::filament, "a-w"},
                            Shown{"twin-lamp", "filament-b", Shows::filament, "b-w"},
                            Shown{"led-lamp", "string", Shows::string, "rated-a"},
                            Shown{"heater", "grid", Shows::heat, "rated-w"},
                            Shown{"horn", "coil", Shows::sound, "rated-w"},
                            Shown{"buzzer", "coil", Shows::sound, "rated-w"},
                            Shown{"motor", "armature", Shows::rotor, ""},
                            Shown{"lock-actuator", "armature", Shows::rotor, ""},
                            Shown{"solenoid", "", Shows::plunger, ""}};

/// Shares of the rating from which on it is weak, and from which on it works.
struct Classes {
    double weak;
    double works;
};

constexpr Classes kLight{0.01, 0.5};
constexpr double kLightOverPower = 3.4 / 1.55;
constexpr Classes kLedCurrent{0.02, 0.5};
constexpr Classes kSpeed{0.01, 0.75};
constexpr Classes kHeat{0.05, 0.75};
constexpr Classes kSound{0.25, 0.6};
/// Nearer than this to an end nobody sees that it is not there: from memory.
constexpr double kAtAnEnd = 0.025;

Sign class_of(double share, const Classes& classes) {
    if (share >= classes.works) return Sign::works;
    return share >= classes.weak ? Sign::weak : Sign::none;
}

double number_of(const Part& part, std::string_view name) {
    const auto found = std::ranges::find(part.kind->numbers, name, &model::NumberSpec::name);
    return found == part.kind->numbers.end()
               ? 0
               : part.numbers[at(static_cast<int>(found - part.kind->numbers.begin()))];
}

double speed_v(const model::RunningMotor& law, double voltage_v, double current_a) {
    const bool turns = std::abs(current_a) > law.breakaway_a;
    return turns ? std::abs(voltage_v - current_a * law.ohm) : 0;
}

/// Back-EMF in ordinary work at nominal voltage.
double rated_speed_v(const Circuit& circuit, const Part& part) {
    for (const model::Element& element :
         network::electrics_of(circuit, part, part.numbers, network::complete_quantities(circuit, {}))
             .elements)
        if (const auto* law = std::get_if<model::RunningMotor>(&element.law))
            return law->load_v - law->ohm * law->load_a;
    return 0;
}

/// A branch with what stands across it and flows in it.
struct Working {
    const NetworkBranch& branch;
    double voltage_v = 0;
    double current_a = 0;
    double power_w() const { return std::abs(voltage_v * current_a); }
};

/// A lock says by itself which end is which; of anything else the author's title has to.
void add_position(const Circuit& circuit, int index, std::vector<SignSource>& sources) {
    const Part& part = circuit.parts[at(index)];
    const bool is_lock = part.kind->element == "lock-actuator";
    const bool travels = part.kind->element == "mechanism" ||
                         (part.kind->element == "motor" && !std::isnan(number_of(part, "travel-s")));
    if (!is_lock && !travels) return;
    sources.push_back({part.id + ".position", index, is_lock ? Shows::lock : Shows::travel, "", 0});
}

Sign sign_of_travel(int part, const network::Network& network) {
    const auto travel = std::ranges::find(network.travels, part, &network::NetworkTravel::part);
    if (travel == network.travels.end()) return Sign::none;
    return sign_at(network.travel_shares[static_cast<std::size_t>(travel - network.travels.begin())]);
}

/// The share of its rating, 0 where the branch is no longer what it should be (bridged, blocked).
double share_of(const SignSource& source, const Working& working) {
    const model::Law& law = working.branch.electrical.law;
    switch (source.shows) {
        case Shows::filament:
            if (!std::holds_alternative<model::Filament>(law)) return 0;
            return std::pow(working.power_w() / source.rated, kLightOverPower);
        case Shows::string:
            return std::holds_alternative<model::Junction>(law) ? working.current_a / source.rated : 0;
        case Shows::rotor: {
            const auto* motor = std::get_if<model::RunningMotor>(&law);
            return motor == nullptr ? 0
                                    : speed_v(*motor, working.voltage_v, working.current_a) / source.rated;
        }
        default:
            return working.branch.always ? 0 : working.power_w() / source.rated;
    }
}

Classes classes_of(Shows shows) {
    switch (shows) {
        case Shows::filament:
            return kLight;
        case Shows::string:
            return kLedCurrent;
        case Shows::rotor:
            return kSpeed;
        case Shows::heat:
            return kHeat;
        default:
            return kSound;
    }
}

}  // namespace

bool is_position(Shows shows) {
    return shows == Shows::lock || shows == Shows::travel;
}

bool is_fuse(const Part& part) {
    return part.kind->letter == "F";
}

std::vector<SignSource> sign_sources(const Circuit& circuit) {
    std::vector<SignSource> sources;
    for (int index = 0; index < static_cast<int>(circuit.parts.size()); ++index) {
        const Part& part = circuit.parts[at(index)];
        if (is_fuse(part)) sources.push_back({part.id, index, Shows::fuse, "", 0});
        const auto is_of_kind = [&](const Shown& shown) { return shown.kind == part.kind->element; };
        const bool shows_several = std::ranges::count_if(kShown, is_of_kind) > 1;
        for (const Shown& shown : kShown) {
            if (!is_of_kind(shown)) continue;
            const std::string branch = part.id + "." + std::string(shown.element);
            SignSource source{shows_several ? branch : part.id, index, shown.shows,
                              shown.element.empty() ? "" : branch, number_of(part, shown.rating)};
            if (shown.shows == Shows::rotor) source.rated = rated_speed_v(circuit, part);
            sources.push_back(std::move(source));
        }
        add_position(circuit, index, sources);
    }
    return sources;
}

const SignSource* find_sign_source(const std::vector<SignSource>& sources, std::string_view name) {
    const auto found = std::ranges::find(sources, name, &SignSource::name);
    return found == sources.end() ? nullptr : &*found;
}

double shown_share(const SignSource& source, std::span<const int> branches, const network::Network& network,
                   const std::vector<int>& conditions, const network::Solution& solution) {
    double share = 0;
    for (const int index : branches) {
        const NetworkBranch& branch = network.branches[at(index)];
        if (!network.conducts(branch, conditions)) continue;
        const double voltage_v = solution.voltage_across(branch.electrical);
        share = std::max(share, share_of(source, {branch, voltage_v, solution.current_a[at(index)]}));
    }
    return share;
}

Sign sign_at(double travel_share) {
    if (travel_share < kAtAnEnd) return Sign::none;
    return travel_share > 1 - kAtAnEnd ? Sign::works : Sign::weak;
}

Sign sign_of(const SignSource& source, std::span<const int> branches, const network::Network& network,
             const std::vector<int>& conditions, const network::Solution& solution) {
    const int condition = conditions[at(source.part)];
    if (source.shows == Shows::fuse) return condition == 0 ? Sign::none : Sign::blown;
    if (source.shows == Shows::plunger) return condition == 0 ? Sign::none : Sign::works;
    if (is_position(source.shows)) return sign_of_travel(source.part, network);
    return class_of(shown_share(source, branches, network, conditions, solution), classes_of(source.shows));
}

}  // namespace halfsplit::diagnosis
