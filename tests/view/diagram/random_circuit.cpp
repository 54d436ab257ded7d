#include "tests/view/diagram/random_circuit.h"

#include <array>
#include <random>
#include <string>

#include "tests/support/part_builder.h"

namespace halfsplit::test {

namespace {

/// std::mt19937_64 is the same everywhere, the standard distributions are not.
class Dice {
  public:
    explicit Dice(std::uint64_t start) : generator_(start) {}
    int below(int count) { return static_cast<int>(generator_() % static_cast<std::uint64_t>(count)); }
    bool one_in(int count) { return below(count) == 0; }

  private:
    std::mt19937_64 generator_;
};

constexpr std::array<const char*, 8> kColours{"RD", "BK", "GN", "WH", "YE", "BU", "VT", "BN"};
constexpr std::array<double, 6> kAreas_mm2{0.35, 0.5, 0.75, 1, 2.5, 16};

model::Contact random_contact(Dice& dice, int pins) {
    const int from = dice.below(pins);
    return {from, (from + 1 + dice.below(pins - 1)) % pins};
}

void give_pins(model::Part& part, Dice& dice) {
    const int count = 2 + dice.below(part.kind->element == "switch" ? 5 : 15);
    const std::string prefix = dice.one_in(4) ? "long-" : "";
    for (int pin = 0; pin < count; ++pin)
        part.pins.push_back({prefix + std::to_string(pin + 1), "input", {}, {}});
    if (part.kind->element != "switch") return;
    part.positions = {{"off", "Off", false, {}, {}}};
    for (int position = 0; position <= dice.below(4); ++position)
        part.positions.push_back({"position-" + std::to_string(position),
                                  "",
                                  false,
                                  {random_contact(dice, count), random_contact(dice, count)},
                                  {}});
}

void give_motion(model::Circuit& circuit, Dice& dice) {
    const auto word = [](model::Part& part, std::string_view name, const std::string& value) {
        for (std::size_t i = 0; i < part.kind->words.size(); ++i)
            if (part.kind->words[i].name == name) part.words[i] = value;
    };
    for (model::Part& part : circuit.parts)
        for (const model::Part& other : circuit.parts) {
            if (part.kind->element == "mechanism" && other.kind->element == "motor")
                word(part, "motor", other.id);
            if (part.kind->element == "switch" && other.kind->element == "mechanism" && dice.one_in(2))
                word(part, "operated-by", other.id);
        }
}

}  // namespace

model::Circuit random_circuit(std::uint64_t start) {
    Dice dice(start);
    model::Circuit circuit;
    circuit.id = "random";
    circuit.title = "Random circuit";
    const auto kinds = model::part_kinds();
    const int parts = 1 + dice.below(40);
    for (int number = 0; number < parts; ++number) {
        const auto& kind = *kinds[static_cast<std::size_t>(dice.below(static_cast<int>(kinds.size())))];
        model::Part part = PartBuilder(kind).part();
        part.id = std::string(kind.letter) + std::to_string(number + 1);
        part.title =
            dice.one_in(3) ? "A part with an uncommonly long title to be wrapped somehow" : part.title;
        if (kind.pin_policy == model::PinPolicy::authored) give_pins(part, dice);
        if (dice.one_in(30)) part.at = model::GridPlace{1 + dice.below(8), 1 + dice.below(8)};
        circuit.parts.push_back(std::move(part));
    }
    give_motion(circuit, dice);
    std::vector<model::PinRef> pins;
    for (int part = 0; part < parts; ++part)
        for (int pin = 0; pin < static_cast<int>(circuit.parts[static_cast<std::size_t>(part)].pins.size());
             ++pin)
            pins.push_back({part, pin});
    if (pins.size() < 2) return circuit;
    const int wires = dice.below(2 * parts + 1);
    for (int number = 0; number < wires; ++number) {
        model::Wire wire;
        wire.id = "W" + std::to_string(number + 1);
        const int from = dice.below(static_cast<int>(pins.size()));
        const int to =
            (from + 1 + dice.below(static_cast<int>(pins.size()) - 1)) % static_cast<int>(pins.size());
        wire.from = pins[static_cast<std::size_t>(from)];
        wire.to = pins[static_cast<std::size_t>(to)];
        wire.area_mm2 = kAreas_mm2[static_cast<std::size_t>(dice.below(6))];
        const int colour = dice.below(8);
        wire.base_colour = kColours[static_cast<std::size_t>(colour)];
        if (dice.one_in(2))
            wire.tracer_colour = kColours[static_cast<std::size_t>((colour + 1 + dice.below(7)) % 8)];
        circuit.wires.push_back(std::move(wire));
    }
    return circuit;
}

}  // namespace halfsplit::test
