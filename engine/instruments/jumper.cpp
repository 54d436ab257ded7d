#include <array>
#include <cmath>

#include "engine/instruments/display.h"
#include "engine/instruments/jumper_lead.h"
#include "engine/instruments/kinds.h"
#include "engine/instruments/probing.h"

namespace halfsplit::instruments {

namespace {

constexpr std::array kRanges{Range{99.99, 1e-2, "A", 1, 2}};

Measured bridge(const Bench& bench, const Leads& leads) {
    if (const auto checked = check_points(bench, leads); !checked) return tl::unexpected(checked.error());
    const network::Attachment lead = jumper_between(leads.at, leads.against);
    const auto first_a = first_current_a(bench, lead);
    if (!first_a) return tl::unexpected(first_a.error());
    Reading reading;
    if (std::abs(*first_a) > kJumperFuseA) {
        reading.valid = false;
        reading.unit = "A";
        reading.shown = "its fuse has blown";
        reading.cautions.emplace_back("the jumper's 10 A fuse has blown: it bridged more than a load");
    } else {
        const auto connected = bench.with({lead});
        if (!connected) return tl::unexpected(connected.error());
        show(current_through(*connected, kJumperName), kRanges, {}, "A", reading);
        reading.shown = "carries " + reading.shown;
    }
    if (is_electronic(bench.circuit, leads.at) || is_electronic(bench.circuit, leads.against))
        reading.cautions.emplace_back(
            "a jumper on a sender or control unit can destroy it: follow the maker's instructions");
    return reading;
}

}  // namespace

network::Attachment jumper_between(const std::string& from, const std::string& to) {
    return {kJumperName, from, to, model::Resistance{kJumperOhm}};
}

tl::expected<double, Diagnostics> first_current_a(const Bench& bench, const network::Attachment& jumper) {
    network::Situation situation = bench.settled.situation;
    situation.attachments.push_back(jumper);
    auto network = network::build_network(bench.circuit, situation);
    if (!network) return tl::unexpected(network.error());
    auto point = simulation::solve_in_conditions(*network, bench.settled.point.conditions);
    if (!point) return tl::unexpected(one_problem(point.error().message));
    return current_through({situation, std::move(*network), std::move(*point)}, jumper.name);
}

Instrument jumper() {
    return {"jumper", "Jumper lead, fused",
            "Joins two points through a 10 A fuse: feeds a part or grounds it, past what is suspected.",
            Connection::two_points, &bridge};
}

}  // namespace halfsplit::instruments
