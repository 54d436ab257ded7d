#include "engine/model/kinds/faults_of.h"

#include "engine/base/constants.h"

namespace halfsplit::model::kinds {
namespace {

FaultSpec fault(std::string_view kind, FaultEffect effect, const AilmentValue& value, const FaultNote& note) {
    return {.kind = kind,
            .element = note.where,
            .effect = effect,
            .value_unit = value.unit,
            .value = value.value,
            .value_low = value.low,
            .value_high = value.high,
            .rate = note.rate,
            .text = note.text};
}

constexpr AilmentValue kNoValue{.unit = ""};

}  // namespace

FaultSpec open_fault(std::string_view element, const FaultNote& note) {
    return fault("open", OpenElement{element}, kNoValue, note);
}

FaultSpec short_fault(std::string_view element, const FaultNote& note) {
    return fault("short", ShortElement{element}, {"ohm", kDeadShortOhm, 0.001, 1e6}, note);
}

FaultSpec series_fault(std::string_view kind, std::string_view element, double ohm, const FaultNote& note) {
    return fault(kind, SeriesElement{element}, {"ohm", ohm, 0.001, 1e6}, note);
}

FaultSpec scale_fault(std::string_view kind, std::string_view number, double factor, const FaultNote& note) {
    return fault(kind, ScaleNumber{number}, {"factor", factor, 0.01, 100}, note);
}

FaultSpec drift_fault(std::string_view number, double factor, const FaultNote& note) {
    return scale_fault("drift", number, factor, note);
}

FaultSpec force_fault(std::string_view kind, std::string_view condition, const FaultNote& note) {
    return fault(kind, ForceCondition{condition}, kNoValue, note);
}

FaultSpec ailment_fault(std::string_view kind, const FaultNote& note) {
    return fault(kind, Ailment{}, kNoValue, note);
}

FaultSpec ailment_fault(std::string_view kind, const AilmentValue& value, const FaultNote& note) {
    return fault(kind, Ailment{}, value, note);
}

FaultSpec wrong_rating_fault(double rating_a, const FaultNote& note) {
    return fault("wrong-rating", SetNumber{"rating-a"}, {"A", rating_a, 0.5, 500}, note);
}

std::vector<FaultSpec> switch_faults() {
    using What = ContactEffect::What;
    return {fault("stuck-open", ContactEffect{What::stuck_open}, kNoValue,
                  {0.5,
                   "The contact never closes: burnt, broken or jammed. Supply on one side, nothing on the "
                   "other, whatever the position."}),
            fault("stuck-closed", ContactEffect{What::stuck_closed}, kNoValue,
                  {0.15, "The contact never opens: welded or jammed. The load stays on."}),
            fault("contact-resistance", ContactEffect{What::resistance}, {"ohm", 0.5, 0.001, 1e6},
                  {0.7,
                   "The contact is burnt or dirty: full voltage behind it without load, too little with it. "
                   "Measure the drop across the switch with the load on."})};
}

}  // namespace halfsplit::model::kinds
