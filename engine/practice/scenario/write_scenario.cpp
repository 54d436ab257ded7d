#include "engine/practice/scenario/write_scenario.h"

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/instruments/instrument.h"
#include "engine/practice/scenario/structure.h"
#include "engine/xml/writer.h"

namespace halfsplit::practice {

namespace {

using diagnosis::Finding;
using xml::WrittenElement;

WrittenElement symptom_element(const Symptom& symptom, const model::Circuit& circuit) {
    WrittenElement element{"symptom",
                           {{"state", circuit.states[at(symptom.state)].id}, {"at", symptom.finding.at}}};
    if (symptom.finding.kind == Finding::Kind::voltage)
        element.attributes.emplace_back("reads-v", number_text(symptom.value));
    if (symptom.finding.kind == Finding::Kind::current)
        element.attributes.emplace_back("reads-a", number_text(symptom.value));
    if (symptom.finding.kind != Finding::Kind::sign) return element;
    const auto sources = diagnosis::sign_sources(circuit);
    const diagnosis::SignSource* source = find_sign_source(sources, symptom.finding.at);
    const auto sign = static_cast<diagnosis::Sign>(static_cast<int>(symptom.value));
    if (source != nullptr) element.attributes.emplace_back("shows", sign_word(source->shows, sign));
    return element;
}

void add_texts(WrittenElement& root, const char* list, const char* item,
               const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    WrittenElement& element = root.add({list});
    for (const std::string& text : texts) element.add({item, {}, text});
}

void add_instruments(WrittenElement& root, const Scenario& scenario) {
    if (scenario.instruments.size() == instruments::instruments().size()) return;
    WrittenElement& element = root.add({"instruments"});
    for (const std::string& id : scenario.instruments) element.add({"instrument", {{"id", id}}});
}

}  // namespace

std::string written_scenario(const Scenario& scenario, const model::Circuit& circuit,
                             const std::string& circuit_href) {
    WrittenElement root{"scenario",
                        {{"xmlns", std::string(kScenarioNamespace)},
                         {"version", "1"},
                         {"id", scenario.id},
                         {"title", scenario.title},
                         {"level", std::to_string(scenario.level)},
                         {"circuit", circuit_href},
                         {"arrives", circuit.states[at(scenario.arrives_in)].id},
                         {"budget-min", number_text(scenario.budget_min)}}};
    WrittenElement& card = root.add({"job-card",
                                     {{"vehicle", scenario.job_card.vehicle},
                                      {"mileage-km", number_text(scenario.job_card.mileage_km)}}});
    card.add({"complaint", {}, scenario.job_card.complaint});
    for (const std::string& line : scenario.job_card.history) card.add({"history", {}, line});
    if (!scenario.symptoms.empty()) {
        WrittenElement& symptoms = root.add({"symptoms"});
        for (const Symptom& symptom : scenario.symptoms) symptoms.add(symptom_element(symptom, circuit));
    }
    add_instruments(root, scenario);
    add_texts(root, "hints", "hint", scenario.hints);
    add_texts(root, "cautions", "caution", scenario.cautions);
    WrittenElement& hidden = root.add({"hidden"});
    for (const network::Fault& fault : scenario.faults) hidden.add({"fault", {{"spec", fault.text}}});
    if (!scenario.lesson.empty()) hidden.add({"lesson", {}, scenario.lesson});
    return xml::written(root);
}

}  // namespace halfsplit::practice
