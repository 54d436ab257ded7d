#pragma once

#include <string>
#include <vector>

#include "engine/diagnosis/next_test/consultation.h"

namespace halfsplit::view {

/// A suspect with all that is said about it.
struct SuspectRow {
    int hypothesis = 0;
    std::string fault;  ///< hypothesis_text()
    double probability = 0;
    std::string what;                 ///< what is wrong then: "The conductor is broken."
    std::vector<std::string> places;  ///< titles
    std::vector<std::string> wires;   ///< "W12 RDGN 2.5"
    int explained = 0;                ///< readings
    int readings = 0;
    std::vector<diagnosis::Reason> contradictions;
};

/// The most probable first, down to 99 % of all probability and not more than `most`.
std::vector<SuspectRow> suspect_rows(const diagnosis::Consultation& consultation,
                                     const diagnosis::Advice& advice, int most);

/// Of those rows, which no reading that may be taken tells apart: lists of two and more indices into them.
std::vector<std::vector<int>> rows_not_told_apart(const diagnosis::Consultation& consultation,
                                                  const std::vector<SuspectRow>& rows);

/// "open:W12", "open:W12 and blown:F7" of a pair, "none" of the sound vehicle.
std::string hypothesis_text(const diagnosis::Consultation& consultation, int hypothesis);
/// The same where hypotheses have grown by pairs of their own.
std::string hypothesis_text(const diagnosis::Hypotheses& hypotheses, int hypothesis);

}  // namespace halfsplit::view
