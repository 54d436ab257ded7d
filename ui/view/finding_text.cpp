#include "ui/view/finding_text.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/sheet/sheet.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/model/structure.h"
#include "ui/view/point_rows.h"
#include "ui/view/table.h"

namespace halfsplit::view {

using diagnosis::Finding;
using model::Circuit;

namespace {

std::string in_brackets(const std::string& text) {
    return text.empty() ? "" : " (" + text + ")";
}

std::string wires_at(const Circuit& circuit, const std::string& point) {
    const auto pin = circuit.find_pin(point);
    if (!pin) return "";
    std::string all;
    for (const model::Wire& wire : circuit.wires)
        if (wire.from == *pin || wire.to == *pin) all += (all.empty() ? "" : ", ") + wire_text(wire);
    return all;
}

}  // namespace

std::string finding_text(const Circuit& circuit, const Finding& finding) {
    if (finding.kind == Finding::Kind::current) {
        const model::Wire* wire = circuit.find_wire(finding.at);
        return "clamp around " + finding.at + in_brackets(wire == nullptr ? "" : wire_text(*wire));
    }
    if (finding.kind == Finding::Kind::sign) {
        const auto sources = diagnosis::sign_sources(circuit);
        const diagnosis::SignSource* source = find_sign_source(sources, finding.at);
        return "look at " + finding.at +
               in_brackets(source == nullptr ? "" : circuit.parts[at(source->part)].title);
    }
    if (finding.against == model::kBodyId)
        return "voltmeter at " + finding.at + in_brackets(wires_at(circuit, finding.at)) + " against body";
    return "voltmeter from " + finding.at + " to " + finding.against;
}

std::string finding_place(const Circuit& circuit, const Finding& finding) {
    return finding.place < 0 ? "" : circuit.places[at(finding.place)].title;
}

std::string reading_text(const Circuit& circuit, const Finding& finding, double value) {
    if (finding.kind == Finding::Kind::current) return amperes_text(value);
    if (finding.kind == Finding::Kind::voltage) return volts_text(value);
    const auto sources = diagnosis::sign_sources(circuit);
    const diagnosis::SignSource* source = find_sign_source(sources, finding.at);
    const auto sign = static_cast<diagnosis::Sign>(std::lround(value));
    return source == nullptr ? "" : std::string(sign_word(source->shows, sign));
}

std::string outcome_text(const Circuit& circuit, const Finding& finding, double low, double high) {
    const std::string first = reading_text(circuit, finding, low);
    const std::string last = reading_text(circuit, finding, high);
    return first == last ? first : first + " to " + last;
}

std::string test_name(const diagnosis::Dictionary& dictionary, const diagnosis::Test& test) {
    const Finding& finding = dictionary.findings[at(test.finding)];
    return dictionary.states[at(test.state)] + ": " + instrument_of(finding) + " " + finding.at +
           (finding.against.empty() ? "" : " " + finding.against);
}

std::string instrument_of(const Finding& finding) {
    switch (finding.kind) {
        case Finding::Kind::voltage:
            return "voltmeter";
        case Finding::Kind::current:
            return "clamp";
        case Finding::Kind::sign:
            return diagnosis::kLookAndListen;
    }
    return "";
}

std::string state_text(const Circuit& circuit, const std::string& id) {
    const model::OperatingState* state = circuit.find_state(id);
    return state == nullptr || state->title.empty() ? id : id + " (" + state->title + ")";
}

}  // namespace halfsplit::view
