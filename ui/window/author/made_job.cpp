#include "ui/window/author/made_job.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/instruments/instrument.h"

namespace halfsplit::window {

namespace {

/// Until somebody says otherwise.
constexpr double kMileageKm = 84000;
constexpr double kBudgetMin = 60;
constexpr int kLevel = 2;
const char* const kVehicle = "A vehicle with this circuit, invented";

int index_of_state(const model::Circuit& circuit, const std::string& id) {
    const auto found = std::ranges::find(circuit.states, id, &model::OperatingState::id);
    return found == circuit.states.end() ? -1 : static_cast<int>(found - circuit.states.begin());
}

bool is_there(const model::Circuit& circuit, const diagnosis::Finding& finding) {
    if (finding.kind == diagnosis::Finding::Kind::sign)
        return find_sign_source(diagnosis::sign_sources(circuit), finding.at) != nullptr;
    return circuit.find_pin(finding.at).has_value() || circuit.find_wire(finding.at) != nullptr;
}

}  // namespace

practice::Scenario new_job(const model::Circuit& circuit) {
    practice::Scenario job;
    job.level = kLevel;
    job.budget_min = kBudgetMin;
    job.title = circuit.title;
    job.job_card = {kVehicle, kMileageKm, {}, {}};
    for (const auto& each : instruments::instruments()) job.instruments.emplace_back(each.id);
    return job;
}

practice::Scenario carried_over(const practice::Scenario& job, const model::Circuit& before,
                                const model::Circuit& now) {
    practice::Scenario same = job;
    same.faults.clear();
    for (const network::Fault& fault : job.faults)
        if (auto parsed = network::parse_fault(now, fault.text)) same.faults.push_back(std::move(*parsed));
    same.symptoms.clear();
    for (practice::Symptom symptom : job.symptoms) {
        symptom.state = index_of_state(now, before.states[at(symptom.state)].id);
        if (symptom.state >= 0 && is_there(now, symptom.finding)) same.symptoms.push_back(symptom);
    }
    same.arrives_in = std::max(0, index_of_state(now, before.states[at(job.arrives_in)].id));
    return same;
}

std::string href_to(const std::string& circuit_path, const std::string& job_path) {
    namespace fs = std::filesystem;
    std::error_code unknown;
    const fs::path folder = fs::absolute(job_path, unknown).parent_path();
    const fs::path relative = fs::relative(fs::absolute(circuit_path, unknown), folder, unknown);
    return (unknown || relative.empty() ? fs::path(circuit_path) : relative).generic_string();
}

}  // namespace halfsplit::window
