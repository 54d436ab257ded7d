#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

/// What the flasher's own electronics take (from memory: about 10 mA).
constexpr double kElectronicsOhm = 1200;

Electrics electrics(const PartView& flasher) {
    return {{{"49-49a",
              flasher.pin("49"),
              flasher.pin("49a"),
              Resistance{flasher.number("switch-ohm")},
              {flasher.condition("closed")}},
             {"electronics", flasher.pin("49"), flasher.pin("31"), Resistance{kElectronicsOhm}}},
            {},
            0};
}

}  // namespace

const PartKind& flasher_kind() {
    static const PartKind kind{
        .element = "flasher",
        .letter = "K",
        .title = "Flasher unit",
        .text =
            "Makes and breaks the turn-signal feed 49a. At rest, and at each beat's bright half, its contact "
            "is closed.",
        .pins = {{"49", "feed"}, {"49a", "pulsed output"}, {"31", "ground"}},
        .numbers =
            {
                {"rate-per-min", "1/min", 85, 30, 240, 15, "Flashes a minute (60 to 120 are allowed)."},
                {"bulb-out-w", "W", 30, 0, 500, 20,
                 "Below this load it flashes at double rate, to tell of a dead bulb."},
                {"switch-ohm", "ohm", 0.01, 1e-4, 10, 50, "Resistance of its closed contact."},
            },
        .conditions = {{"closed", "49a fed"}, {"open", "49a not fed"}},
        .operation = Operation::stated,
        .faults =
            {
                stuck_fault("stuck-open", "open", 1, "No turn signal lights."),
                stuck_fault("stuck-closed", "closed", 0.5, "Turn signals light steadily."),
                {"sluggish", "", TimeOnly{}, "times", 2, 1.01, 20, 0.3, "Flashes too slowly."},
            },
        .electrics = &electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
