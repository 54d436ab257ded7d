#pragma once

#include "engine/model/part_kind.h"

namespace halfsplit::model {

// Faults that several kinds share. Rates are relative to each other: 1 is a part that fails now and then;
// contacts, bulbs and grounds are above, windings and resistors below (from memory of workshop practice;
// authors may say otherwise in the circuit).

inline FaultSpec open_fault(std::string_view element, double rate, std::string_view text) {
    return {"open", "", OpenElement{element}, "", 0, 0, 0, rate, text};
}

inline FaultSpec short_fault(std::string_view element, double rate, std::string_view text) {
    return {"short", "", ShortElement{element}, "ohm", 0.05, 0.001, 1000, rate, text};
}

inline FaultSpec drift_fault(std::string_view number, double factor, double rate, std::string_view text) {
    return {"drift", "", ScaleNumber{number}, "times", factor, 0.01, 100, rate, text};
}

inline FaultSpec stuck_fault(std::string_view kind, std::string_view condition, double rate,
                             std::string_view text) {
    return {kind, "", ForceCondition{condition}, "", 0, 0, 0, rate, text};
}

/// For kinds whose elements are switching contacts.
inline std::vector<FaultSpec> switching_faults() {
    return {
        {"stuck-open", "", ContactEffect{ContactEffect::What::stuck_open}, "", 0, 0, 0, 1,
         "The contact never closes."},
        {"stuck-closed", "", ContactEffect{ContactEffect::What::stuck_closed}, "", 0, 0, 0, 0.3,
         "The contact is welded and never opens."},
        {"contact-resistance", "", ContactEffect{ContactEffect::What::resistance}, "ohm", 0.5, 0.001, 1e6, 1,
         "The contact is burnt: it closes, but drops voltage under load."},
    };
}

}  // namespace halfsplit::model
