#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <map>
#include <set>

#include "engine/tracing/flood.h"
#include "tests/support/circuit_text.h"
#include "tests/support/sanitized.h"

using namespace halfsplit;

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

double rating_a(const model::Part& part) {
    for (std::size_t i = 0; i < part.kind->numbers.size(); ++i)
        if (part.kind->numbers[i].name == "rating-a") return part.numbers[i];
    return kNever;
}

bool protects(const model::Circuit& circuit, const network::NetworkBranch& branch) {
    return branch.part >= 0 && branch.source == network::BranchSource::element &&
           circuit.parts[static_cast<std::size_t>(branch.part)].kind->letter == "F";
}

simulation::Settled settled_in(const model::Circuit& circuit, const std::string& state) {
    auto settled = simulation::settle(circuit, {}, circuit.find_state(state)->steps);
    REQUIRE(settled);
    return std::move(*settled);
}

bool is_unit(const model::Circuit& circuit, const network::NetworkBranch& branch) {
    return branch.part >= 0 &&
           circuit.parts[static_cast<std::size_t>(branch.part)].kind->element == "control-unit" &&
           branch.source == network::BranchSource::element;
}

/// Per wire that is fed otherwise than through a control unit's drivers, all switches taken as closed: the
/// rating of the fuse that gives way first if the wire takes too much, on the way to it where that is
/// largest; infinite where a way has none.
std::map<int, double> protected_with_a(const model::Circuit& circuit, const simulation::Settled& settled) {
    const tracing::Wiring wiring(circuit, settled.network, settled.point);
    std::map<double, std::set<int>> fuses{{0, {}}};
    for (int branch = 0; branch < wiring.branch_count(); ++branch)
        if (protects(circuit, wiring.branch(branch)))
            fuses[rating_a(circuit.parts[static_cast<std::size_t>(wiring.branch(branch).part)])].insert(
                branch);
    std::map<int, double> found;
    // A contact to ground and one to a feed may meet at a pin, and are never closed together.
    const std::vector<bool> grounded = tracing::flood(
        wiring, wiring.grounds(),
        {.extent = tracing::Extent::as_wired, .sense = tracing::Sense::either, .only_conductors = true});
    const auto is_ground = [&](int branch) {
        return grounded[static_cast<std::size_t>(wiring.from(branch))] ||
               grounded[static_cast<std::size_t>(wiring.to(branch))];
    };
    std::set<int> barred;
    for (int branch = 0; branch < wiring.branch_count(); ++branch)
        if (is_unit(circuit, wiring.branch(branch)) || is_ground(branch)) barred.insert(branch);
    for (auto rating = fuses.rbegin(); rating != fuses.rend(); ++rating)
        barred.merge(std::set(rating->second));
    // From all fuses drawn to none: what is fed for the first time when those of a rating are in needs them.
    for (auto rating = fuses.rbegin(); rating != fuses.rend(); ++rating) {
        const std::vector<bool> fed = tracing::flood(wiring, wiring.supplies(),
                                                     {.extent = tracing::Extent::as_wired,
                                                      .sense = tracing::Sense::with_current,
                                                      .barred_branches = barred});
        for (int branch = 0; branch < wiring.branch_count(); ++branch) {
            const network::NetworkBranch& each = wiring.branch(branch);
            if (each.source != network::BranchSource::wire) continue;
            const bool is_fed = fed[static_cast<std::size_t>(wiring.from(branch))] ||
                                fed[static_cast<std::size_t>(wiring.to(branch))];
            if (is_fed && !is_ground(branch))
                found.emplace(each.wire, rating == fuses.rbegin() ? kNever : std::prev(rating)->first);
        }
        for (const int branch : rating->second) barred.erase(branch);
    }
    return found;
}

/// Continuous current of a single copper conductor in free air at 30 degC, by its area in mm2: DIN VDE 0100
/// part 523, group 3, from memory; 0.35 and 0.5 mm2 are not in it and follow the others' current over area to
/// the power of 0.63. The table is for insulation of 70 degC, vehicle wires of ISO 6722 class B stand 100
/// degC (from memory), and what warms a wire goes with the square of its current.
double carries_for_good_a(double area_mm2) {
    const std::map<double, double> table{{0.75, 15}, {1, 19},  {1.5, 24}, {2.5, 32}, {4, 42},   {6, 54},
                                         {10, 73},   {16, 98}, {25, 129}, {35, 158}, {50, 198}, {70, 245}};
    const double hotter = std::sqrt((100.0 - 30) / (70 - 30));
    if (const auto found = table.find(area_mm2); found != table.end()) return hotter * found->second;
    return hotter * 19 * std::pow(area_mm2, 0.63);
}

/// What a PVC-insulated copper wire stands for a moment, in A^2 s: (115 area)^2, IEC 60364-4-43 table 43A,
/// from memory.
double withstands_a2s(double area_mm2) {
    return std::pow(115 * area_mm2, 2);
}

/// When a fuse opens at a current that stays, by its own trigger.
double opens_after_s(const network::Network& network, int part, double current_a) {
    for (const network::NetworkTrigger& each : network.triggers)
        if (each.part == part && each.trigger.heat_s > 0) {
            const double share = each.trigger.rise / current_a;
            return share >= 1 ? kNever : -each.trigger.heat_s * std::log(1 - share * share);
        }
    return kNever;
}

/// When the first of all fuses opens.
double first_opens_s(const model::Circuit& circuit, const network::Network& network,
                     const simulation::OperatingPoint& point) {
    double first_s = kNever;
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        if (protects(circuit, network.branches[i]))
            first_s = std::min(
                first_s, opens_after_s(network, network.branches[i].part, std::abs(point.current_a[i])));
    return first_s;
}

double current_of_a(const network::Network& network, const simulation::OperatingPoint& point,
                    const std::string& name) {
    double current_a = 0;
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        if (network.branches[i].name == name) current_a = std::max(current_a, std::abs(point.current_a[i]));
    return current_a;
}

}  // namespace

// A fuse carries 110 % of its rating for ever (ISO 8820-3, see reference values), so its wires have to as
// well. Without a fuse are only the battery, starter and generator cables (common practice).
TEST_CASE("No fuse of the van lets more flow for good than its wires carry") {
    const model::Circuit van = test::circuit_file("circuits/van-body.circuit.xml");
    std::map<double, int> wires_of_rating;
    for (const auto& [wire, rating] : protected_with_a(van, settled_in(van, "parked"))) {
        const model::Wire& each = van.wires[static_cast<std::size_t>(wire)];
        ++wires_of_rating[rating];
        INFO(rating << " A before wire " << each.id << " of " << each.area_mm2 << " mm2");
        const bool is_at_post =
            van.parts[static_cast<std::size_t>(each.from.part)].kind->element == "battery" &&
            each.length_m < 0.3;
        if (rating == kNever)
            CHECK((each.area_mm2 >= 10 || is_at_post));
        else
            CHECK(1.1 * rating <= carries_for_good_a(each.area_mm2));
    }
    for (const model::Part& part : van.parts)
        if (part.kind->letter == "F") {
            INFO(part.id << " of " << rating_a(part) << " A protects nothing");
            CHECK(wires_of_rating[rating_a(part)] > 0);
        }
}

// A short to the body at the end of any live wire: a fuse opens before the wire is too hot, or what flows is
// no more than the wire carries for good (a driver's own resistance sees to that).
TEST_CASE("A short at any live wire of the van blows a fuse before the wire melts") {
    const model::Circuit van = test::circuit_file("circuits/van-body.circuit.xml");
    constexpr int kEvery = test::kSanitized ? 31 : 1;
    int live_wires = 0;
    int blown = 0;
    for (const char* state : {"driving-at-night", "winter-morning", "camping", "parked"}) {
        const simulation::Settled settled = settled_in(van, state);
        const std::map<int, double> ratings = protected_with_a(van, settled);
        for (int wire = 0; wire < static_cast<int>(van.wires.size()); wire += kEvery) {
            const model::Wire& each = van.wires[static_cast<std::size_t>(wire)];
            const auto rating = ratings.find(wire);
            const bool has_fuse = rating == ratings.end() || rating->second < kNever;
            if (!has_fuse || test::volts_at(settled, van.point_name(each.from)) < 9) continue;
            network::Situation shorted = settled.situation;
            const std::string fault = "short-to-ground:" + each.id + "=0.002";
            shorted.faults = test::faults_of(van, {fault});
            const auto network = network::build_network(van, shorted);
            REQUIRE(network);
            const auto point = simulation::solve_in_conditions(*network, settled.point.conditions);
            REQUIRE(point);
            const double short_a = current_of_a(*network, *point, fault);
            const double opens_s = first_opens_s(van, *network, *point);
            ++live_wires;
            INFO(state << ": " << each.id << " of " << each.area_mm2 << " mm2: " << short_a
                       << " A, opens after " << opens_s << " s");
            const bool is_carried = short_a <= carries_for_good_a(each.area_mm2);
            CHECK((is_carried || short_a * short_a * opens_s <= withstands_a2s(each.area_mm2)));
            if (opens_s < 5) ++blown;
        }
    }
    WARN(live_wires << " shorts, " << blown << " blow a fuse within 5 s");
    CHECK(live_wires > 500 / kEvery);
    CHECK(blown > live_wires / 2);  // the others are behind drivers, senders and bulbs of some ohms
}
