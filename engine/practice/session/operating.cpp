#include <algorithm>
#include <iterator>

#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/practice/session/serviced_vehicle.h"

/// Switches, doors, the world, and time.
namespace halfsplit::practice {

using model::Circuit;
using simulation::Settled;

namespace {

/// Somebody who turns a key or presses a button looks what happens.
constexpr double kOperatingS = 1;
constexpr double kLettingGoS = 0.5;
/// Nobody stands beside a vehicle for longer than this without doing anything.
constexpr double kLongestWaitS = 600;

tl::expected<double, std::string> seconds_in(const std::string& text) {
    const auto seconds = read_number(text);
    if (!seconds || *seconds <= 0 || *seconds > kLongestWaitS)
        return tl::unexpected("'" + text + "' is no time; seconds from 0 to " + number_text(kLongestWaitS) +
                              " are expected");
    return *seconds;
}

/// The positions of switches and doors that a hand can set.
tl::expected<void, std::string> may_be_set(const Circuit& circuit, const std::string& what) {
    if (circuit.find_quantity(what) != nullptr) return {};
    std::vector<std::string> known;
    for (const model::Part& part : circuit.parts)
        if (part.kind->operation == model::Operation::person) known.push_back(part.id);
    for (const model::Quantity& quantity : circuit.quantities) known.push_back(quantity.id);
    if (std::ranges::find(known, what) != known.end()) return {};
    return tl::unexpected("'" + what + "' is nothing a hand can set" + did_you_mean(what, known));
}

/// nullopt where the value is one the thing can have.
std::optional<std::string> wrong_value(const Circuit& circuit, const std::string& what,
                                       const std::string& to) {
    if (const model::Quantity* quantity = circuit.find_quantity(what)) {
        const auto number = read_number(to);
        if (number && *number >= quantity->min && *number <= quantity->max) return std::nullopt;
        return "'" + to + "' is no value for " + what + "; " + number_text(quantity->min) + " to " +
               number_text(quantity->max) + " " + quantity->unit + " is expected";
    }
    const model::Part& part = *circuit.find_part(what);
    std::vector<std::string> known;
    for (const model::Position& position : part.positions) known.push_back(position.id);
    if (std::ranges::find(known, to) != known.end()) return std::nullopt;
    return what + " has no position '" + to + "'; " + listed(known) + " is expected" +
           did_you_mean(to, known);
}

}  // namespace

Done ServicedVehicle::set(const Action& action) {
    const std::string& what = action.arguments[0];
    const std::string& to = action.arguments[1];
    if (const auto may = may_be_set(*circuit_, what); !may) return tl::unexpected(may.error());
    if (const auto wrong = wrong_value(*circuit_, what, to)) return tl::unexpected(*wrong);
    double over_s = 0;
    if (action.arguments.size() > 2) {
        const auto given = seconds_in(action.arguments[2]);
        if (!given) return tl::unexpected(given.error());
        if (circuit_->find_quantity(what) == nullptr)
            return tl::unexpected(what + " does not change gradually; only quantities take 'over'");
        over_s = *given;
    }
    return run(over_s + kOperatingS, {{0, what, to, over_s, {}}});
}

Done ServicedVehicle::press(const Action& action) {
    const std::string& what = action.arguments[0];
    const std::string& to = action.arguments[1];
    const model::Part* part = circuit_->find_part(what);
    if (const auto may = may_be_set(*circuit_, what); !may) return tl::unexpected(may.error());
    if (part == nullptr) return tl::unexpected(what + " cannot be pressed; set it");
    if (const auto wrong = wrong_value(*circuit_, what, to)) return tl::unexpected(*wrong);
    double hold_s = kOperatingS;
    if (action.arguments.size() > 2) {
        const auto given = seconds_in(action.arguments[2]);
        if (!given) return tl::unexpected(given.error());
        hold_s = *given;
    }
    const std::string back = position_after_letting_go(*part, to);
    const Settled before = settled_;
    auto pressed = run(hold_s, {{0, what, to, 0, {}}});
    if (!pressed) return pressed;
    auto released = run(kLettingGoS, {{0, what, back, 0, {}}});
    if (!released) {
        stand(before);
        return released;
    }
    pressed->seconds += released->seconds;
    std::ranges::move(released->observed, std::back_inserter(pressed->observed));
    std::ranges::move(released->mishaps, std::back_inserter(pressed->mishaps));
    return pressed;
}

std::string ServicedVehicle::position_after_letting_go(const model::Part& part,
                                                       const std::string& pressed) const {
    const auto position = std::ranges::find(part.positions, pressed, &model::Position::id);
    const auto set_before = situation().positions.find(part.id);
    const bool springs_back = position->momentary || part.kind->element == "push-button" ||
                              set_before == situation().positions.end();
    return springs_back ? part.positions.front().id : set_before->second;
}

Done ServicedVehicle::wait(const Action& action) {
    const auto seconds = seconds_in(action.arguments.front());
    if (!seconds) return tl::unexpected(seconds.error());
    return run(*seconds, {});
}

}  // namespace halfsplit::practice
