#pragma once

#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/model/circuit.h"
#include "engine/model/part_view.h"

namespace halfsplit::test {

/// A part as the reader would hand it over, made by hand: the kind's defaults, something allowed for what is
/// required, and what the test sets.
class PartBuilder {
  public:
    explicit PartBuilder(const model::PartKind& kind) {
        part_.id = "P1";
        part_.kind = &kind;
        part_.title = kind.title;
        part_.plugged = kind.plugged;
        part_.contact_ohm = kind.contact_ohm;
        fill_values();
        fill_pins();
        fill_positions();
    }

    PartBuilder& number(std::string_view name, double value) {
        part_.numbers.at(index_of(part_.kind->numbers, name)) = value;
        return *this;
    }
    PartBuilder& word(std::string_view name, std::string value) {
        part_.words.at(index_of(part_.kind->words, name)) = std::move(value);
        return *this;
    }
    PartBuilder& pins(std::vector<model::Pin> pins) {
        part_.pins = std::move(pins);
        return *this;
    }
    PartBuilder& positions(std::vector<model::Position> positions) {
        part_.positions = std::move(positions);
        return *this;
    }
    const model::Part& part() const { return part_; }

    /// Something an author may write for it.
    static double allowed(const model::NumberSpec& spec) {
        return spec.low > 0 ? std::sqrt(spec.low * spec.high) : (spec.low + spec.high) / 2;
    }

  private:
    template <class List>
    static std::size_t index_of(const List& list, std::string_view name) {
        std::size_t index = 0;
        while (list.at(index).name != name) ++index;
        return index;
    }

    void fill_values() {
        for (const model::NumberSpec& spec : part_.kind->numbers) {
            part_.numbers.push_back(spec.required ? allowed(spec) : spec.fallback);
            part_.tolerance_percent.push_back(spec.tolerance_percent);
        }
        for (const model::WordSpec& spec : part_.kind->words)
            part_.words.push_back(spec.required ? "thing" : std::string(spec.fallback));
    }

    void fill_pins() {
        using model::PinPolicy;
        if (part_.kind->pin_policy == PinPolicy::single) part_.pins.push_back({"", "", {}, {}});
        if (part_.kind->pin_policy == PinPolicy::counted)
            for (const char* id : {"1a", "1b", "2a", "2b", "3a", "3b"})
                part_.pins.push_back({id, "", {}, {}});
        for (const model::PinSpec& spec : part_.kind->pins)
            part_.pins.push_back({std::string(spec.id), "", {}, {}});
    }

    void fill_positions() {
        for (const model::ConditionSpec& spec : part_.kind->conditions)
            part_.positions.push_back({std::string(spec.id), std::string(spec.text), false, {}, {}});
    }

    model::Part part_;
};

/// The part's electrics with its own numbers.
inline model::Electrics expand(const model::Part& part, const model::Quantities& quantities = {},
                               double nominal_v = 12) {
    return part.kind->electrics(model::PartView(part, part.numbers, quantities, nominal_v));
}

/// The first element of that name; a test that asks for one that is not there fails.
inline const model::Element& element_named(const model::Electrics& electrics, std::string_view name) {
    std::size_t index = 0;
    while (electrics.elements.at(index).name != name) ++index;
    return electrics.elements.at(index);
}

/// The law of the first element of that name, which must be of that sort.
template <class Law>
Law law_of(const model::Electrics& electrics, std::string_view name) {
    return std::get<Law>(element_named(electrics, name).law);
}

}  // namespace halfsplit::test
