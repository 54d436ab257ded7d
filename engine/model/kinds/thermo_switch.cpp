#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/specs_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

/// Closes on rising temperature where closes-at is the higher of the two, else on falling temperature.
Trigger trigger(const PartView& part) {
    const double closes = part.number("closes-at-degc");
    const double opens = part.number("opens-at-degc");
    const int open = part.condition("open");
    const int closed = part.condition("closed");
    const bool on_rising = closes >= opens;
    return {.observed = Observed::quantity,
            .subject = std::string(part.word("quantity")),
            .rise = on_rising ? closes : opens,
            .fall = on_rising ? opens : closes,
            .above = on_rising ? closed : open,
            .below = on_rising ? open : closed};
}

Electrics electrics(const PartView& part) {
    const Resistance contact{part.number("switch-ohm")};
    return {.elements = {{"1-2", part.pin("1"), part.pin("2"), contact, {part.condition("closed")}, true}},
            .triggers = {trigger(part)}};
}

}  // namespace

const PartKind& thermo_switch() {
    static const PartKind kind{
        .element = "thermo-switch",
        .letter = "S",
        .title = "Thermo-switch",
        .text =
            "A bimetal contact that closes at one temperature and opens at another, such as a radiator "
            "fan's. With "
            "opens-at above closes-at it closes when it gets cold.",
        .pins = {{"1", "one side"}, {"2", "the other side"}},
        .numbers = {{.name = "closes-at-degc",
                     .unit = "degC",
                     .fallback = 92,
                     .low = -60,
                     .high = 400,
                     .text = "temperature at which the contact closes"},
                    {.name = "opens-at-degc",
                     .unit = "degC",
                     .fallback = 87,
                     .low = -60,
                     .high = 400,
                     .text = "temperature at which it opens; must differ from closes-at"},
                    switch_ohm(0.01, "of the closed contact")},
        .words = {felt_temperature()},
        .conditions = {{"open", "does not conduct"}, {"closed", "conducts"}},
        .operation = Operation::triggered,
        .faults = switch_faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
