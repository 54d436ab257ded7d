#include "ui/window/author/job_work.h"

#include <algorithm>
#include <sstream>
#include <thread>
#include <utility>

#include "engine/base/index.h"
#include "engine/model/own_states.h"
#include "engine/practice/draft/complaint.h"
#include "ui/files/dictionary_cache.h"
#include "ui/view/fairness_text.h"
#include "ui/view/table.h"
#include "ui/window/frame/cancelled.h"

namespace halfsplit::window {

std::function<Predicted(Progress&)> prediction_work(std::shared_ptr<const files::CircuitOnDisk> on_disk,
                                                    const std::string& path) {
    return [on_disk = std::move(on_disk), path](Progress& progress) -> Predicted {
        diagnosis::DictionaryOptions wanted;
        wanted.states = model::own_state_ids(on_disk->circuit, path);
        if (wanted.states.empty())
            return tl::unexpected(one_problem("the circuit has no operating states to find anything in"));
        wanted.threads = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
        try {
            auto dictionary = files::kept_dictionary(*on_disk, path, wanted,
                                                     [&progress](const diagnosis::DictionaryProgress& now) {
                                                         tell_progress(progress, now.done, now.of);
                                                     });
            if (!dictionary) return tl::unexpected(dictionary.error());
            return std::make_shared<const KnownFaults>(KnownFaults{on_disk, std::move(*dictionary)});
        } catch (const Cancelled&) {
            return tl::unexpected(Diagnostics{});
        }
    };
}

std::vector<Noticed> noticed_of(const KnownFaults& known, const std::string& fault) {
    const model::Circuit& circuit = known.on_disk->circuit;
    const diagnosis::Dictionary& dictionary = known.dictionary;
    const auto row =
        std::ranges::find(dictionary.faults, fault, [](const auto& possible) { return possible.fault.text; });
    std::vector<Noticed> all;
    if (row == dictionary.faults.end()) return all;
    for (const practice::Presentation& seen :
         practice::presentations_of(circuit, dictionary, static_cast<int>(row - dictionary.faults.begin()))) {
        const auto state =
            std::ranges::find(circuit.states, dictionary.states[at(seen.state)], &model::OperatingState::id);
        Noticed noticed;
        noticed.state = static_cast<int>(state - circuit.states.begin());
        for (const diagnosis::Reading& reading : seen.readings)
            if (static_cast<int>(noticed.symptoms.size()) < practice::kMostSymptoms)
                noticed.symptoms.push_back(
                    {noticed.state, dictionary.findings[at(reading.finding)], reading.value, {}});
        noticed.words = state->title + ": " + practice::title_for(circuit, noticed.symptoms);
        all.push_back(std::move(noticed));
    }
    return all;
}

std::function<Proved(Progress&)> proof_work(std::shared_ptr<const KnownFaults> known,
                                            practice::Scenario scenario) {
    return [known = std::move(known), scenario = std::move(scenario)](Progress&) {
        Proved proved;
        const auto expertise = practice::expertise_for(scenario, known->on_disk->circuit, known->dictionary);
        if (!expertise) {
            proved.problems = expertise.error();
            return proved;
        }
        const practice::Fairness fairness = practice::fairness_of(scenario, *expertise);
        proved.problems = fairness.problems;
        proved.summary = "best strategy " + view::fixed(fairness.way.minutes(), 1) + " min and " +
                         std::to_string(fairness.way.diagnosis.tests) + " tests, " +
                         std::to_string(fairness.suspects_at_first) + " suspects at first";
        for (const auto& step : fairness.way.diagnosis.steps)
            proved.way.push_back(view::step_text(*expertise, fairness.way, step));
        return proved;
    };
}

}  // namespace halfsplit::window
