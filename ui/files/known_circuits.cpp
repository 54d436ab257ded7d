#include "ui/files/known_circuits.h"

#include <algorithm>
#include <thread>

#include "engine/model/own_states.h"
#include "ui/files/dictionary_cache.h"

namespace halfsplit::files {

tl::expected<practice::Expertise, Diagnostics> KnownCircuits::expertise_on(
    const practice::ScenarioWithCircuit& scenario) {
    const auto circuit = known(scenario.circuit_path);
    if (!circuit) return tl::unexpected(circuit.error());
    return practice::expertise_for(scenario.scenario, (*circuit)->on_disk.circuit, (*circuit)->dictionary);
}

tl::expected<const KnownCircuits::Known*, Diagnostics> KnownCircuits::known(const std::string& path) {
    if (const auto found = known_.find(path); found != known_.end()) return found->second.get();
    auto on_disk = read_circuit_on_disk(path);
    if (!on_disk) return tl::unexpected(on_disk.error());
    diagnosis::DictionaryOptions wanted;
    wanted.states = model::own_state_ids(on_disk->circuit, path);
    if (wanted.states.empty())
        return tl::unexpected(one_problem("the circuit has no operating states to test it in"));
    wanted.threads = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
    auto dictionary = keeps_ ? kept_dictionary(*on_disk, path, wanted, tell_)
                             : diagnosis::make_dictionary(on_disk->circuit, wanted, tell_);
    if (!dictionary) return tl::unexpected(dictionary.error());
    auto circuit = std::make_unique<const Known>(Known{std::move(*on_disk), std::move(*dictionary)});
    return known_.emplace(path, std::move(circuit)).first->second.get();
}

}  // namespace halfsplit::files
