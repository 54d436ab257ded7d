#include "engine/practice/draft/complaint.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/sheet/sign_words.h"

namespace halfsplit::practice {

using diagnosis::Shows;
using diagnosis::Sign;

namespace {

/// "stays dark", "is only dim", "lights up though it should not".
std::string_view deed_of(Shows shows, Sign sign) {
    const bool works = sign == Sign::works;
    const bool weak = sign == Sign::weak;
    switch (shows) {
        case Shows::filament:
        case Shows::string:
            return works ? "is lit, and should not be" : weak ? "is only dim" : "stays dark";
        case Shows::rotor:
            return works ? "runs, and should not" : weak ? "is far too slow" : "does not move";
        case Shows::sound:
            return works ? "sounds, and should not" : weak ? "is only faint" : "stays silent";
        case Shows::heat:
            return works ? "gets warm, and should not" : weak ? "gets only lukewarm" : "stays cold";
        case Shows::plunger:
            return works ? "pulls, and should not" : weak ? "pulls only weakly" : "does not pull";
        case Shows::fuse:
            return sign == Sign::blown ? "has blown" : "is whole";
        case Shows::lock:
            return works ? "locks, and should not" : weak ? "stops half way" : "does not lock";
        case Shows::travel:
            return works ? "stands at 100 %, and should not" : weak ? "stops part way" : "stays at 0 %";
    }
    return "";
}

/// "Entry step, 0 % in, 100 % out": which end is which stands in brackets.
std::string title_with_ends(const std::string& title) {
    const std::size_t comma = title.find(", 0 %");
    return comma == std::string::npos ? title : title.substr(0, comma) + " (" + title.substr(comma + 2) + ")";
}

std::string title_of(const model::Circuit& circuit, const diagnosis::SignSource& source) {
    const model::Part& part = circuit.parts[at(source.part)];
    if (diagnosis::is_position(source.shows)) return title_with_ends(part.title);
    const bool is_one_of_several = source.name != part.id;
    return part.title + (is_one_of_several ? " (" + source.name.substr(part.id.size() + 1) + ")" : "");
}

}  // namespace

std::string complaint_for(const model::Circuit& circuit, const std::vector<Symptom>& symptoms, int days) {
    if (symptoms.empty()) return "Something is not as it should be.";
    const auto sources = diagnosis::sign_sources(circuit);
    std::string text = circuit.states[at(symptoms.front().state)].title + " - ";
    bool is_first = true;
    for (const Symptom& symptom : symptoms) {
        const diagnosis::SignSource* source = find_sign_source(sources, symptom.finding.at);
        if (source == nullptr) continue;
        const Sign sign = static_cast<Sign>(static_cast<int>(symptom.value));
        text += (is_first ? "" : ", and ") + title_of(circuit, *source) + " " +
                std::string(deed_of(source->shows, sign));
        is_first = false;
    }
    return text + ". It has been like this for " + std::to_string(days) + " days.";
}

std::string title_for(const model::Circuit& circuit, const std::vector<Symptom>& symptoms) {
    if (symptoms.empty()) return circuit.title;
    const auto sources = diagnosis::sign_sources(circuit);
    const diagnosis::SignSource* source = find_sign_source(sources, symptoms.front().finding.at);
    if (source == nullptr) return circuit.title;
    const Sign sign = static_cast<Sign>(static_cast<int>(symptoms.front().value));
    return title_of(circuit, *source) + ": " + std::string(diagnosis::sign_word(source->shows, sign));
}

}  // namespace halfsplit::practice
