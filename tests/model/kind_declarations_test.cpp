#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "tests/model/part_samples.h"

/// What every declaration must keep, whatever the kind: the reader, the schema, the fault universe and the
/// manual rely on it.
namespace halfsplit::model {
namespace {

std::vector<const PartKind*> kinds_and_wire() {
    std::vector<const PartKind*> all(part_kinds().begin(), part_kinds().end());
    all.push_back(&wire_kind());
    return all;
}

template <class List, class Name>
bool all_distinct(const List& list, Name name) {
    std::set<std::string> seen;
    return std::all_of(list.begin(), list.end(),
                       [&](const auto& each) { return seen.insert(std::string(name(each))).second; });
}

void check_number(const NumberSpec& spec) {
    INFO("number " << spec.name);
    CHECK(spec.low < spec.high);
    CHECK_FALSE(spec.text.empty());
    CHECK(spec.tolerance_percent >= 0);
    CHECK(spec.tolerance_percent < 100);
    if (spec.required) CHECK(std::isnan(spec.fallback));
    if (std::isnan(spec.fallback)) return;
    CHECK(spec.fallback >= spec.low);
    CHECK(spec.fallback <= spec.high);
}

void check_word(const WordSpec& spec) {
    INFO("word " << spec.name);
    CHECK_FALSE(spec.text.empty());
    if (spec.choices.empty()) return;
    CHECK(std::find(spec.choices.begin(), spec.choices.end(), spec.fallback) != spec.choices.end());
}

bool takes_number(const FaultSpec& fault) {
    const auto* link = std::get_if<LinkEffect>(&fault.effect);
    return !fault.value_unit.empty() && (link == nullptr || link->what != LinkEffect::What::chafed);
}

void check_fault(const FaultSpec& fault) {
    INFO("fault " << fault.kind << " " << fault.element);
    CHECK_FALSE(fault.text.empty());
    CHECK(fault.rate > 0);
    if (!takes_number(fault)) return;
    CHECK(fault.value_low < fault.value_high);
    CHECK(fault.value >= fault.value_low);
    CHECK(fault.value <= fault.value_high);
}

struct Produced {
    std::set<std::string, std::less<>> elements;
    bool contacts = false;
};

Produced everything_produced(const PartKind& kind) {
    Produced produced;
    for (const Part& part : test::configurations(kind))
        for (const Element& element : test::expand(part).elements) {
            produced.elements.insert(element.name);
            produced.contacts = produced.contacts || element.contact;
        }
    return produced;
}

const NumberSpec* find_number(const PartKind& kind, std::string_view name) {
    for (const NumberSpec& spec : kind.numbers)
        if (spec.name == name) return &spec;
    return nullptr;
}

/// What a fault changes must be there to be changed.
struct TargetCheck {
    const PartKind& kind;
    const Produced& produced;
    const FaultSpec& fault;

    void element(std::string_view name) const { CHECK(produced.elements.count(name) == 1); }
    void operator()(const OpenElement& effect) const { element(effect.element); }
    void operator()(const ShortElement& effect) const { element(effect.element); }
    void operator()(const SeriesElement& effect) const { element(effect.element); }
    void operator()(const ScaleNumber& effect) const { CHECK(find_number(kind, effect.number) != nullptr); }
    void operator()(const SetNumber& effect) const {
        const NumberSpec* number = find_number(kind, effect.number);
        REQUIRE(number != nullptr);
        CHECK(fault.value_low >= number->low);
        CHECK(fault.value_high <= number->high);
    }
    void operator()(const ForceCondition& effect) const {
        CHECK(std::any_of(kind.conditions.begin(), kind.conditions.end(),
                          [&](const ConditionSpec& spec) { return spec.id == effect.condition; }));
    }
    void operator()(const ContactEffect&) const { CHECK(produced.contacts); }
    void operator()(const LinkEffect&) const { FAIL("a part has no wires of its own"); }
    void operator()(const Ailment&) const { CHECK(fault.element.empty()); }
    void operator()(const DeadInput&) const { CHECK(!kind.pin_kinds.empty()); }
};

}  // namespace

TEST_CASE("Names are unique within a kind and kinds among each other") {
    CHECK(all_distinct(kinds_and_wire(), [](const PartKind* kind) { return kind->element; }));
    for (const PartKind* kind : kinds_and_wire()) {
        INFO("kind " << kind->element);
        const auto name = [](const auto& spec) { return spec.name; };
        const auto id = [](const auto& spec) { return spec.id; };
        CHECK(all_distinct(kind->numbers, name));
        CHECK(all_distinct(kind->words, name));
        CHECK(all_distinct(kind->pin_numbers, name));
        CHECK(all_distinct(kind->pins, id));
        CHECK(all_distinct(kind->conditions, id));
        CHECK(all_distinct(kind->faults, [](const FaultSpec& fault) {
            return std::string(fault.kind) + ":" + std::string(fault.element);
        }));
    }
}

TEST_CASE("A kind takes no attribute that every part takes already") {
    for (const PartKind* kind : part_kinds())
        for (const NumberSpec& common : common_numbers()) {
            INFO("kind " << kind->element << " number " << common.name);
            CHECK(find_number(*kind, common.name) == nullptr);
        }
}

TEST_CASE("Every number has a range with its default inside and every choice of words its default") {
    for (const PartKind* kind : kinds_and_wire()) {
        INFO("kind " << kind->element);
        for (const NumberSpec& spec : kind->numbers) check_number(spec);
        for (const NumberSpec& spec : kind->pin_numbers) check_number(spec);
        for (const WordSpec& spec : kind->words) check_word(spec);
    }
    for (const NumberSpec& spec : common_numbers()) check_number(spec);
    for (const WordSpec& spec : common_words()) check_word(spec);
}

TEST_CASE("Every kind has a title and a text and can be found by its element") {
    for (const PartKind* kind : part_kinds()) {
        INFO("kind " << kind->element);
        CHECK_FALSE(kind->title.empty());
        CHECK_FALSE(kind->text.empty());
        CHECK_FALSE(kind->letter.empty());
        CHECK(kind->electrics != nullptr);
        CHECK(find_part_kind(kind->element) == kind);
        for (const PinSpec& pin : kind->pins) CHECK_FALSE(pin.text.empty());
        for (const ConditionSpec& condition : kind->conditions) CHECK_FALSE(condition.text.empty());
    }
    CHECK(find_part_kind("flux-capacitor") == nullptr);
    CHECK(find_part_kind("wire") == nullptr);
}

TEST_CASE("A part that can be in several conditions says who moves it and others have nobody") {
    for (const PartKind* kind : part_kinds()) {
        INFO("kind " << kind->element);
        const bool several = kind->authored_positions || kind->conditions.size() > 1;
        CHECK(several == (kind->operation != Operation::none));
    }
}

TEST_CASE("Every fault has a text, a rate and a usual value inside its range") {
    for (const PartKind* kind : kinds_and_wire()) {
        INFO("kind " << kind->element);
        for (const FaultSpec& fault : kind->faults) check_fault(fault);
    }
    for (const FaultSpec& fault : contact_faults()) check_fault(fault);
    for (const FaultSpec& fault : plug_faults()) check_fault(fault);
}

TEST_CASE("Every fault changes an element, number, contact or condition that the kind has") {
    for (const PartKind* kind : part_kinds()) {
        const Produced produced = everything_produced(*kind);
        for (const FaultSpec& fault : kind->faults) {
            INFO("kind " << kind->element << " fault " << fault.kind << " " << fault.element);
            std::visit(TargetCheck{*kind, produced, fault}, fault.effect);
        }
    }
}

TEST_CASE("A fault that says where names an element of its kind") {
    for (const PartKind* kind : part_kinds()) {
        const Produced produced = everything_produced(*kind);
        for (const FaultSpec& fault : kind->faults) {
            INFO("kind " << kind->element << " fault " << fault.kind << " " << fault.element);
            if (!fault.element.empty()) CHECK(produced.elements.count(fault.element) == 1);
        }
    }
}

TEST_CASE("Wires and contacts have link faults only") {
    for (const auto& faults :
         {std::span<const FaultSpec>(wire_kind().faults), contact_faults(), plug_faults()})
        for (const FaultSpec& fault : faults) CHECK(std::holds_alternative<LinkEffect>(fault.effect));
}

}  // namespace halfsplit::model
