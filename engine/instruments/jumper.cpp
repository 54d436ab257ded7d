#include <array>
#include <cmath>

#include "engine/instruments/display.h"
#include "engine/instruments/kinds.h"
#include "engine/instruments/probing.h"

namespace halfsplit::instruments {

namespace {

/// Two clips, a metre of cable and a 10 A fuse (from memory).
constexpr double kLeadOhm = 0.03;
constexpr double kFuseA = 10;
constexpr std::array kRanges{Range{99.99, 1e-2, "A", 1, 2}};

Measured bridge(const Bench& bench, const Leads& leads) {
    if (const auto checked = check_points(bench, leads); !checked) return tl::unexpected(checked.error());
    const auto connected = bench.with({{"jumper", leads.at, leads.against, model::Resistance{kLeadOhm}}});
    if (!connected) return tl::unexpected(connected.error());
    const double current_a = current_through(*connected, "jumper");
    Reading reading;
    if (std::abs(current_a) > kFuseA) {
        reading.valid = false;
        reading.unit = "A";
        reading.shown = "its fuse has blown";
        reading.cautions.emplace_back("the jumper's 10 A fuse has blown: it bridged more than a load");
    } else {
        show(current_a, kRanges, {}, "A", reading);
        reading.shown = "carries " + reading.shown;
    }
    if (is_electronic(bench.circuit, leads.at) || is_electronic(bench.circuit, leads.against))
        reading.cautions.emplace_back(
            "a jumper on a sender or control unit can destroy it: follow the maker's instructions");
    return reading;
}

}  // namespace

Instrument jumper() {
    return {"jumper", "Jumper lead, fused",
            "Joins two points through a 10 A fuse: feeds a part or grounds it, past what is suspected.",
            Connection::two_points, &bridge};
}

}  // namespace halfsplit::instruments
