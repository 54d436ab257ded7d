#include "ui/cli/expertise_on_disk.h"

#include "ui/cli/dictionary_options.h"

namespace halfsplit::cli {

tl::expected<practice::Expertise, Diagnostics> KnownCircuits::expertise_on(
    const practice::ScenarioWithCircuit& scenario) {
    const auto circuit = known(scenario.circuit_path);
    if (!circuit) return tl::unexpected(circuit.error());
    return practice::expertise_for(scenario.scenario, (*circuit)->on_disk.circuit, (*circuit)->dictionary);
}

tl::expected<const KnownCircuits::Known*, Diagnostics> KnownCircuits::known(const std::string& path) {
    if (const auto found = known_.find(path); found != known_.end()) return found->second.get();
    auto on_disk = files::read_circuit_on_disk(path);
    if (!on_disk) return tl::unexpected(on_disk.error());
    const DictionaryCommandOptions options{path, {}, no_cache_};
    const auto states = states_asked_for(on_disk->circuit, options);
    if (!states) return tl::unexpected(states.error());
    auto dictionary = dictionary_of(*on_disk, options, *states, {});
    if (!dictionary) return tl::unexpected(dictionary.error());
    auto circuit = std::make_unique<const Known>(Known{std::move(*on_disk), std::move(*dictionary)});
    return known_.emplace(path, std::move(circuit)).first->second.get();
}

}  // namespace halfsplit::cli
