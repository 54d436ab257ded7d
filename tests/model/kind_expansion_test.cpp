#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "tests/model/part_samples.h"

/// Whatever an author may write, whatever a fault makes of it: the laws stay within the ranges that
/// engine/model/law.h states, for the solver relies on them.
namespace halfsplit::model {
namespace {

struct InRange {
    bool operator()(const Resistance& law) const { return std::isfinite(law.ohm) && law.ohm >= 0; }
    bool operator()(const Source& law) const { return std::isfinite(law.emf_v) && law.ohm > 0; }
    bool operator()(const Cell& law) const {
        return std::isfinite(law.emf_v) && law.ohm > 0 && law.charge_ohm >= law.ohm;
    }
    bool operator()(const RegulatedSource& law) const {
        return std::isfinite(law.emf_v) && law.ohm > 0 && law.max_a > 0;
    }
    bool operator()(const WarmingFilament&) const { return false; }
    bool operator()(const Filament& law) const {
        return law.rated_v > 0 && law.rated_w > 0 && law.cold_ratio > 0 && law.cold_ratio < 1;
    }
    bool operator()(const Junction& law) const {
        return law.saturation_a > 0 && std::isfinite(law.saturation_a) && law.slope_v > 0;
    }
    bool operator()(const RunningMotor& law) const {
        return law.ohm > 0 && law.breakaway_a > 0 && law.breakaway_a <= law.load_a &&
               law.load_a <= law.load_v / law.ohm && law.breakaway_a * law.ohm < law.load_v;
    }
};

void check_element(const Element& element, int terminals, int conditions) {
    INFO("element " << element.name);
    CHECK(std::visit(InRange{}, element.law));
    CHECK(element.from >= 0);
    CHECK(element.from < terminals);
    CHECK(element.to >= kBodyTerminal);
    CHECK(element.to < terminals);
    CHECK(element.from != element.to);
    for (const int condition : element.conducts_in) {
        CHECK(condition >= -1);
        CHECK(condition < conditions);
    }
}

void check_trigger(const Electrics& electrics, const Trigger& trigger, int conditions) {
    INFO("trigger on " << trigger.subject);
    CHECK(trigger.rise >= trigger.fall);
    CHECK(trigger.above != trigger.below);
    CHECK(std::max(trigger.above, trigger.below) < conditions);
    CHECK(std::min(trigger.above, trigger.below) >= 0);
    const bool names_element =
        std::any_of(electrics.elements.begin(), electrics.elements.end(),
                    [&](const Element& element) { return element.name == trigger.subject; });
    CHECK(names_element == (trigger.observed != Observed::quantity));
}

bool conduct_together(const Element& a, const Element& b) {
    if (a.conducts_in.empty() || b.conducts_in.empty()) return true;
    return std::any_of(a.conducts_in.begin(), a.conducts_in.end(), [&](int condition) {
        return std::find(b.conducts_in.begin(), b.conducts_in.end(), condition) != b.conducts_in.end();
    });
}

void check_namesakes(const std::vector<Element>& elements) {
    for (std::size_t i = 0; i < elements.size(); ++i)
        for (std::size_t j = i + 1; j < elements.size(); ++j) {
            INFO("two elements " << elements[i].name);
            if (elements[i].name == elements[j].name) CHECK_FALSE(conduct_together(elements[i], elements[j]));
        }
}

void check_electrics(const Part& part, std::span<const double> numbers, const Quantities& quantities) {
    const Electrics electrics = part.kind->electrics(PartView(part, numbers, quantities, 12));
    const int terminals = static_cast<int>(part.pins.size()) + electrics.inner_nodes;
    const int conditions = static_cast<int>(part.positions.size());
    for (const Element& element : electrics.elements) check_element(element, terminals, conditions);
    for (const Trigger& trigger : electrics.triggers) check_trigger(electrics, trigger, conditions);
    check_namesakes(electrics.elements);
}

/// The part's numbers as the fault leaves them, for a value of the fault.
std::vector<double> changed_by(const FaultSpec& fault, const Part& part, double value) {
    std::vector<double> numbers = part.numbers;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const std::string_view name = part.kind->numbers[i].name;
        if (const auto* scale = std::get_if<ScaleNumber>(&fault.effect); scale && scale->number == name)
            numbers[i] *= value;
        if (const auto* set = std::get_if<SetNumber>(&fault.effect); set && set->number == name)
            numbers[i] = value;
    }
    return numbers;
}

/// Every number at its least, at its most, or anywhere between.
std::vector<double> drawn(const PartKind& kind, std::mt19937& generator) {
    std::vector<double> numbers;
    for (const NumberSpec& spec : kind.numbers) {
        const unsigned what = generator() % 4;
        const double usual = std::isnan(spec.fallback) ? test::PartBuilder::allowed(spec) : spec.fallback;
        const double between =
            spec.low + (spec.high - spec.low) * static_cast<double>(generator() % 1000) / 1000;
        numbers.push_back(what == 0 ? spec.low : what == 1 ? spec.high : what == 2 ? between : usual);
        if (!spec.required && std::isnan(spec.fallback) && generator() % 2 == 0)
            numbers.back() = spec.fallback;
    }
    return numbers;
}

}  // namespace

TEST_CASE("Every kind expands into laws within their ranges, in each of its configurations") {
    for (const PartKind* kind : part_kinds())
        for (const Part& part : test::configurations(*kind)) {
            INFO("kind " << kind->element);
            check_electrics(part, part.numbers, {});
        }
}

TEST_CASE("Whatever numbers an author may write, the laws stay within their ranges") {
    std::mt19937 generator(20);
    for (const PartKind* kind : part_kinds()) {
        INFO("kind " << kind->element);
        for (const Part& configuration : test::configurations(*kind))
            for (int draw = 0; draw < 60; ++draw) {
                Part part = configuration;
                part.numbers = drawn(*kind, generator);
                INFO("numbers " << Catch::Detail::stringify(part.numbers));
                check_electrics(part, part.numbers, {});
            }
    }
}

TEST_CASE("Whatever the world does, the laws stay within their ranges") {
    for (const double value : {-1e9, -273.15, -40.0, 0.0, 25.0, 150.0, 1e9})
        for (const PartKind* kind : part_kinds())
            for (const Part& part : test::configurations(*kind)) {
                INFO("kind " << kind->element << " at " << value);
                check_electrics(part, part.numbers, {{"thing", value}, {"ambient", value}});
            }
}

TEST_CASE("Faults that change a number leave the laws within their ranges") {
    for (const PartKind* kind : part_kinds())
        for (const FaultSpec& fault : kind->faults)
            for (const Part& part : test::configurations(*kind))
                for (const double value : {fault.value_low, fault.value, fault.value_high}) {
                    INFO("kind " << kind->element << " fault " << fault.kind << "=" << value);
                    check_electrics(part, changed_by(fault, part, value), {});
                }
}

}  // namespace halfsplit::model
