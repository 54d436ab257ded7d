#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/model/circuit.h"
#include "engine/practice/session/action.h"
#include "engine/practice/session/observed.h"
#include "engine/practice/session/perceive.h"
#include "engine/simulation/settle.h"

namespace halfsplit::practice {

/// What happens to the jumper lead where it bridges more than a load.
inline constexpr const char* kJumperBlew = "the jumper's 10 A fuse has blown: it bridged more than a load";

/// What came of an action.
struct Effect {
    std::vector<Observed> observed;
    std::vector<std::string> mishaps;  ///< what it did that nobody wanted: "the jumper's fuse has blown"
    double seconds = 0;                ///< that went by in the vehicle
};

using Done = tl::expected<Effect, std::string>;

/// A vehicle in somebody's hands: operated, probed, taken apart and repaired. What is wrong with it is inside
/// and does not show but by what it does. Deterministic: the same actions lead to the same to the last bit.
/// Borrows the circuit.
class ServicedVehicle {
  public:
    /// Arrives in a state of the circuit. An error: the circuit does not come to rest in it.
    static tl::expected<ServicedVehicle, std::string> arrive(const model::Circuit& circuit,
                                                             std::vector<network::Fault> faults, int state);

    /// An error says why it cannot be done; then nothing has changed. Not for those verbs that do nothing to
    /// the vehicle (suspect, hint, done).
    Done carry_out(const Action& action);

    const model::Circuit& circuit() const { return *circuit_; }
    const simulation::Settled& settled() const { return settled_; }
    const network::Situation& situation() const { return settled_.situation; }
    /// What is still wrong with it, whoever it was that did it.
    const std::vector<network::Fault>& faults() const { return settled_.situation.faults; }
    /// Ids of fuses and links that have melted.
    std::vector<std::string> blown_fuses() const;
    /// Everything is plugged, in its socket, and no lead is left on it.
    bool is_put_together() const;

  private:
    ServicedVehicle(const model::Circuit& circuit, simulation::Settled settled);

    Done carry_out_now(const Action& action);
    Done bring_to_state(const std::string& id);
    Done set(const Action& action);
    Done press(const Action& action);
    Done wait(const Action& action);
    Done look(const Action& action);
    Done look_at_place(int place);
    Observed felt_of_relay(const std::string& id);
    Done measure(const Action& action);
    Done record(const Action& action);
    Done take_apart(const Action& action);
    Done bridge(const Action& action);
    Done join(const network::Attachment& lead);
    Done swap(const Action& action);
    Done fit(const Action& action);
    Done inspect(const Action& action);
    Done repair(const Action& action);

    Done run(double seconds, std::vector<simulation::TimedSet> sets);
    std::string position_after_letting_go(const model::Part& part, const std::string& pressed) const;
    Done change_to(const network::Situation& situation);
    void remember_clicks(const std::vector<std::string>& relays);
    void stand(simulation::Settled settled);
    const Appearance& appearance();
    const Appearance& watched();
    Done make_new(int part, const network::Situation& situation);
    std::string_view condition_of(int part) const;
    void watch_jumper(Effect& effect);
    /// What has melted stays so, whatever state the vehicle is brought to next.
    network::Situation as_it_is() const;

    const model::Circuit* circuit_;
    Onlooker onlooker_;
    simulation::Settled settled_;
    std::optional<Appearance> appearance_;          ///< of the vehicle as it stands, once somebody looked
    std::optional<Appearance> watched_;             ///< the same with patience, where that shows more
    std::optional<Appearance> looked_round_;        ///< what somebody saw who last looked all round
    std::optional<std::set<std::string>> clicked_;  ///< relays, since something was last operated
};

}  // namespace halfsplit::practice
