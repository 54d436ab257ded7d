#include "engine/diagnosis/dictionary/state_rows.h"

#include <algorithm>
#include <limits>
#include <map>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/blank.h"
#include "engine/diagnosis/dictionary/row_anew.h"
#include "engine/diagnosis/dictionary/row_as_it_stands.h"

namespace halfsplit::diagnosis {

using network::FaultChange;

namespace {

constexpr int kNoHub = network::kBody - 1;
/// Contacts of the largest plugs leak to each other; a supply is leaked to from everywhere.
constexpr int kManyLeaks = 8;

/// The node that most others may leak to, if there are many of them.
int hub_of(const std::vector<StagedChange>& changes, std::size_t stage) {
    std::map<int, std::set<int>> neighbours;
    for (const StagedChange& change : changes)
        if (change)
            for (const FaultChange::Leak& leak : (*change)[stage].leaks) {
                neighbours[leak.from].insert(leak.to);
                neighbours[leak.to].insert(leak.from);
            }
    neighbours.erase(network::kBody);
    const auto most =
        std::ranges::max_element(neighbours, {}, [](const auto& of) { return of.second.size(); });
    return most == neighbours.end() || most->second.size() < kManyLeaks ? kNoHub : most->first;
}

}  // namespace

StateRows::StateRows(const model::Circuit& circuit, const StateBase& base, int threads, bool settle_anew,
                     Dictionary& dictionary, int state)
    : circuit_(circuit),
      base_(base),
      settle_anew_(settle_anew),
      dictionary_(dictionary),
      state_(state),
      what_moves_(circuit, dictionary, state),
      changes_(changes_of(circuit, base, dictionary.faults, threads)) {
    for (std::size_t stage = 0; stage < base.stages.size(); ++stage) hub_.push_back(hub_of(changes_, stage));
    list_leaks();
    for (auto& trials : trials_) trials.resize(at(std::max(1, threads)));
}

StateRows::Group StateRows::group_of(const std::vector<FaultChange>& change) const {
    for (std::size_t stage = 0; stage < change.size(); ++stage)
        for (const FaultChange::Leak& leak : change[stage].leaks)
            if ((leak.from == hub_[stage] && leak.to != network::kBody) ||
                (leak.to == hub_[stage] && leak.from != network::kBody))
                return to_hub;
    return ordinary;
}

void StateRows::list_leaks() {
    for (auto& leaks : leaks_) leaks.resize(base_.stages.size());
    for (const StagedChange& change : changes_)
        if (change) add_leaks(*change, leaks_[group_of(*change)]);
}

Trial& StateRows::trial(int thread, Group group) {
    std::unique_ptr<Trial>& trial = trials_[group][at(thread)];
    if (trial == nullptr) trial = std::make_unique<Trial>(circuit_, base_, leaks_[group]);
    return *trial;
}

Told StateRows::told_quickly(int row, int thread, std::span<float> values) {
    using Result = Trial::Result;
    if (row == 0) {
        const Result result = trial(thread, ordinary).read(nullptr, values);
        return result == Result::read ? Told::exactly : Told::not_at_all;
    }
    if (const StagedChange& change = changes_[at(row - 1)]) {
        const Result result = trial(thread, group_of(*change)).read(&*change, values);
        if (result == Result::read) return base_.lives ? Told::as_it_stands : Told::exactly;
        if (result == Result::no_rest) return Told::not_at_all;
    }
    const network::Fault& fault = dictionary_.faults[at(row - 1)].fault;
    if (base_.lives)
        return row_as_it_stands(circuit_, base_, {fault}, Start::asleep, dictionary_.findings, values);
    return anew(row, values);
}

int StateRows::connected() const {
    int sum = 0;
    for (const auto& trials : trials_)
        for (const auto& trial : trials)
            if (trial != nullptr) sum += trial->connected();
    return sum;
}

Told StateRows::anew(int row, std::span<float> values) const {
    std::vector<network::Fault> faults;
    if (row > 0) faults.push_back(dictionary_.faults[at(row - 1)].fault);
    return row_anew(circuit_, *circuit_.find_state(dictionary_.states[at(state_)]), faults,
                    dictionary_.findings, dictionary_.pulses[at(state_)], values);
}

void StateRows::fill(int row, int thread) {
    const std::span<float> values = row_of(dictionary_, state_, row);
    const bool is_watched = base_.lives && (row == 0 || settle_anew_);
    const Told told = is_watched ? anew(row, values) : told_quickly(row, thread, values);
    if (told == Told::as_it_stands) what_moves_.forget_in(values);
    if (told == Told::not_at_all) std::ranges::fill(values, std::numeric_limits<float>::quiet_NaN());
    dictionary_.told[at(state_) * at(dictionary_.rows()) + at(row)] = told;
}

}  // namespace halfsplit::diagnosis
