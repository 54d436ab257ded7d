#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "engine/practice/scenario/scenario.h"
#include "engine/practice/session/session.h"

namespace halfsplit::view {

/// Lines of what is told in a session are no longer than this.
inline constexpr std::size_t kTextWidth = 100;

/// What is handed over with the vehicle: the complaint, what is at hand, what to mind.
std::string job_card_text(const practice::Scenario& scenario, const model::Circuit& circuit);

/// "84 000 km"
std::string mileage_text(const practice::JobCard& card);

/// What to mind at this job: the scenario's own cautions and those that follow from the circuit.
std::vector<std::string> cautions_of(const practice::Scenario& scenario, const model::Circuit& circuit);

/// What came of an action, in pieces to lay out.
struct EntryWords {
    struct Line {
        std::string about;  ///< "P3 Horn, low note", "and", "nothing but"
        std::string shown;
        std::string
            sentence;  ///< both: "P3 Horn, low note: silent", "nothing but 2 things that stand still …"
    };
    std::vector<Line> observed;
    std::string told;                   ///< a hint, or that nothing was seen to change; "" where neither
    std::vector<std::string> cautions;  ///< that were not heeded
    std::string clock;                  ///< "1.5 min, in all 7.5 min"
};
EntryWords entry_words(const model::Circuit& circuit, const practice::Entry& entry);

/// What was seen in one sentence, with the name of what it was seen of.
std::string observed_sentence(const practice::Entry& entry, const practice::Observed& observed,
                              const std::string& name);

/// What came of an action, with the clock: several lines.
std::string entry_text(const model::Circuit& circuit, const practice::Entry& entry);

/// All that can be done.
std::string verbs_text();

/// One subject the diagram would show: "parts", "wires", "places", "states", "switches", "instruments"; ""
/// where it is none of them.
std::string circuit_list_text(const practice::Scenario& scenario, const model::Circuit& circuit,
                              std::string_view subject);

/// Lines broken between words so that none is longer, where a word allows it; every line begins with the
/// indent.
std::string wrapped(std::string_view text, std::size_t width, const std::string& indent = "");

/// "7.5 min"
std::string clock_text(double minutes);

}  // namespace halfsplit::view
