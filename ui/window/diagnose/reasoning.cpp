#include "ui/window/diagnose/reasoning.h"

#include <algorithm>
#include <thread>
#include <utility>

#include "engine/base/index.h"
#include "engine/diagnosis/next_test/think_ahead.h"
#include "engine/diagnosis/suspects/from_filled.h"
#include "engine/model/own_states.h"
#include "ui/files/dictionary_cache.h"
#include "ui/view/readings_table.h"
#include "ui/window/frame/cancelled.h"

namespace halfsplit::window {

using diagnosis::Consultation;
using diagnosis::FilledRow;

namespace {

/// The states to test in, and those that something was read in.
std::vector<std::string> states_needed(const model::Circuit& circuit, const std::string& path,
                                       const std::vector<FilledRow>& readings) {
    std::vector<std::string> ids = model::own_state_ids(circuit, path);
    for (const FilledRow& row : readings) {
        const std::string& id = circuit.states[at(row.state)].id;
        if (std::ranges::find(ids, id) == ids.end()) ids.push_back(id);
    }
    return ids;
}

}  // namespace

void Reasoning::begin(std::shared_ptr<const files::CircuitOnDisk> circuit, const std::string& path) {
    predicting_.cancel();
    concluding_.cancel();
    thinking_ahead_.cancel();
    consultation_.reset();
    conclusion_.reset();
    trouble_.clear();
    is_wanted_ = false;
    is_to_conclude_ = false;
    circuit_ = std::move(circuit);
    path_ = path;
    own_states_ = static_cast<int>(model::own_states(circuit_->circuit, path_).size());
}

void Reasoning::consider(Known known) {
    known_ = std::move(known);
    is_to_conclude_ = true;
    thinking_ahead_.ask_to_stop();
}

void Reasoning::predict() {
    is_wanted_ = true;
    trouble_.clear();
}

void Reasoning::stop_predicting() {
    is_wanted_ = false;
    predicting_.cancel();
}

/// Whether the dictionary holds all that was read.
bool Reasoning::is_enough() const {
    if (!consultation_) return false;
    const diagnosis::Dictionary& dictionary = consultation_->dictionary();
    return std::ranges::all_of(known_.readings, [&](const FilledRow& row) {
        return dictionary.index_of_state(circuit_->circuit.states[at(row.state)].id) >= 0 &&
               dictionary.index_of_finding(row.finding) >= 0;
    });
}

void Reasoning::start_predicting() {
    const model::Circuit& circuit = circuit_->circuit;
    diagnosis::DictionaryOptions options;
    options.states = states_needed(circuit, path_, known_.readings);
    options.further_findings = diagnosis::further_findings(circuit, known_.readings);
    // One is left for whoever looks at the window meanwhile.
    options.threads = std::max(1, static_cast<int>(std::thread::hardware_concurrency()) - 1);
    predicting_.start(
        "predicting faults", [circuit = circuit_, path = path_, options](Progress& progress) -> Predicted {
            try {
                auto dictionary = files::kept_dictionary(
                    *circuit, path, options, [&progress](const diagnosis::DictionaryProgress& now) {
                        tell_progress(progress, now.done, now.of);
                    });
                if (!dictionary) return tl::unexpected(dictionary.error());
                auto consultation = Consultation::on(circuit->circuit, std::move(*dictionary));
                if (!consultation) return tl::unexpected(consultation.error());
                return std::shared_ptr<Consultation>(std::move(*consultation));
            } catch (const Cancelled&) {
                return tl::unexpected(Diagnostics{});
            }
        });
}

std::vector<int> Reasoning::indices_of_cleared() const {
    std::vector<int> indices;
    const auto& faults = consultation_->dictionary().faults;
    for (int fault = 0; fault < static_cast<int>(faults.size()); ++fault)
        if (std::ranges::find(known_.cleared, faults[at(fault)].fault.text) != known_.cleared.end())
            indices.push_back(fault);
    return indices;
}

void Reasoning::start_concluding() {
    is_to_conclude_ = false;
    diagnosis::Evidence evidence{readings_of(circuit_->circuit, consultation_->dictionary(), known_.readings),
                                 indices_of_cleared(), known_.complaint};
    concluding_.start("weighing the readings",
                      [consultation = consultation_, evidence = std::move(evidence),
                       own = own_states_](Progress&) { return conclude(*consultation, evidence, own); });
}

void Reasoning::start_thinking_ahead() {
    if (!conclusion_->advice) return;
    thinking_ahead_.start("thinking ahead", [consultation = consultation_,
                                             advice = *conclusion_->advice](const Progress& progress) {
        int portion = 0;
        while (portion < diagnosis::kPortionsAhead && !progress.is_cancelled &&
               consultation->think_ahead(advice))
            ++portion;
        return portion > 0;
    });
}

void Reasoning::advance() {
    if (!circuit_) return;
    if (auto predicted = predicting_.take()) {
        if (*predicted) {
            concluding_.cancel();
            thinking_ahead_.cancel();
            consultation_ = std::move(**predicted);
            is_to_conclude_ = true;
        } else if (!predicted->error().empty()) {
            trouble_ = to_text(predicted->error().front());
            is_wanted_ = false;
        }
    }
    if (const auto is_ahead = thinking_ahead_.take(); is_ahead && *is_ahead)
        is_to_conclude_ = is_to_conclude_ || conclusion_->advice->choice.is_meanwhile;
    if (auto concluded = concluding_.take()) {
        conclusion_ = std::move(*concluded);
        if (!is_to_conclude_) start_thinking_ahead();
    }
    if (is_wanted_ && !predicting_.is_running() && !is_enough()) start_predicting();
    const bool is_busy = concluding_.is_running() || thinking_ahead_.is_running();
    if (is_to_conclude_ && !is_busy && is_enough()) start_concluding();
}

}  // namespace halfsplit::window
