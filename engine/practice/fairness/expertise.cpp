#include "engine/practice/fairness/expertise.h"

#include <algorithm>
#include <numeric>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/row_anew.h"

namespace halfsplit::practice {

using diagnosis::Dictionary;
using diagnosis::Finding;
using model::Circuit;

namespace {

bool is_same_but_for_value(const network::Fault& a, const network::Fault& b) {
    return a.spec == b.spec && a.subject == b.subject && a.part == b.part && a.pin == b.pin &&
           a.wire == b.wire && a.other == b.other && a.element == b.element;
}

/// -1 where the circuit cannot have it.
int index_of_fault(const Dictionary& dictionary, const network::Fault& fault) {
    const auto found = std::ranges::find_if(dictionary.faults, [&](const diagnosis::PossibleFault& each) {
        return is_same_but_for_value(each.fault, fault);
    });
    return found == dictionary.faults.end() ? -1 : static_cast<int>(found - dictionary.faults.begin());
}

/// Its rows are worked out anew where its value is not the one assumed.
void take_up(const Circuit& circuit, const network::Fault& fault, Dictionary& dictionary) {
    const int index = index_of_fault(dictionary, fault);
    if (index < 0 || dictionary.faults[at(index)].fault.text == fault.text) return;
    dictionary.faults[at(index)].fault = fault;
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state) {
        const std::size_t start = dictionary.row_start(state, index + 1);
        dictionary.told[at(state) * at(dictionary.rows()) + at(index + 1)] =
            row_anew(circuit, *circuit.find_state(dictionary.states[at(state)]), {fault}, dictionary.findings,
                     dictionary.pulses[at(state)],
                     std::span(dictionary.values).subspan(start, dictionary.findings.size()));
    }
}

diagnosis::Permitted permitted_with(const std::vector<std::string>& instruments,
                                    const diagnosis::Consultation& consultation) {
    const auto has = [&](const char* id) { return std::ranges::find(instruments, id) != instruments.end(); };
    diagnosis::Permitted permitted = consultation.permitted();
    std::erase_if(permitted.findings, [&](int finding) {
        const Finding::Kind kind = consultation.dictionary().findings[at(finding)].kind;
        return (kind == Finding::Kind::voltage && !has("voltmeter")) ||
               (kind == Finding::Kind::current && !has("clamp"));
    });
    return permitted;
}

}  // namespace

tl::expected<Expertise, Diagnostics> expertise_for(const Scenario& scenario, const Circuit& circuit,
                                                   Dictionary dictionary) {
    for (const network::Fault& fault : scenario.faults) take_up(circuit, fault, dictionary);
    auto consultation = diagnosis::Consultation::on(circuit, std::move(dictionary));
    if (!consultation) return tl::unexpected(consultation.error());
    return expertise_with(scenario, circuit, std::move(*consultation));
}

tl::expected<Expertise, Diagnostics> expertise_with(
    const Scenario& scenario, const Circuit& circuit,
    std::shared_ptr<const diagnosis::Consultation> consultation) {
    Expertise expertise;
    expertise.consultation = std::move(consultation);
    const Dictionary& dictionary = expertise.consultation->dictionary();
    Diagnostics problems;
    for (const network::Fault& fault : scenario.faults) {
        expertise.hidden.push_back(index_of_fault(dictionary, fault));
        if (expertise.hidden.back() < 0)
            problems.push_back(
                {scenario.where, "'" + fault.text +
                                     "' is not among the faults the circuit can have; the faults "
                                     "command lists them"});
    }
    expertise.complaint.complaint = !scenario.faults.empty();
    for (const Symptom& symptom : scenario.symptoms) {
        const int state = dictionary.index_of_state(circuit.states[at(symptom.state)].id);
        const int finding = dictionary.index_of_finding(symptom.finding);
        if (state < 0 || finding < 0)
            problems.push_back({symptom.where, "nothing is predicted of '" + symptom.finding.at +
                                                   "' in state " + circuit.states[at(symptom.state)].id});
        else
            expertise.complaint.readings.push_back({state, finding, symptom.value, true});
    }
    if (!problems.empty()) return tl::unexpected(problems);
    expertise.permitted = permitted_with(scenario.instruments, *expertise.consultation);
    return expertise;
}

std::vector<float> findings_with(const Expertise& expertise, const std::vector<int>& faults, int state) {
    const Dictionary& dictionary = expertise.consultation->dictionary();
    const Circuit& circuit = expertise.consultation->circuit();
    std::vector<network::Fault> present;
    present.reserve(faults.size());
    for (const int fault : faults) present.push_back(dictionary.faults[at(fault)].fault);
    std::vector<float> row(dictionary.findings.size());
    row_anew(circuit, *circuit.find_state(dictionary.states[at(state)]), present, dictionary.findings,
             dictionary.pulses[at(state)], row);
    return row;
}

}  // namespace halfsplit::practice
