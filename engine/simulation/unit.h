#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/model/circuit.h"
#include "engine/network/network.h"
#include "engine/simulation/chart/senses.h"
#include "engine/simulation/course_state.h"
#include "engine/simulation/deed.h"
#include "engine/simulation/view_in_time.h"

namespace halfsplit::simulation {

/// An input whose level or pulses the unit's chart follows.
struct UnitInput {
    std::string pin;
    int node = network::kBody;  ///< as in Unit::pin_nodes
    double threshold_v = 0;
};

struct UnitDriver {
    std::string pin;
    int slot = 0;
    double limit_a = kNever;
    std::vector<int> branches;
};

/// A control unit where it sits in a network.
struct Unit {
    int part = 0;
    const model::chart::Chart* chart = nullptr;
    int ground_node = network::kBody;
    int unpowered = -1;  ///< its conditions; -1 where nothing feeds it
    int powered = -1;
    int asleep = -1;
    std::vector<std::string> pins;
    std::vector<int> pin_nodes;  ///< behind the plug; kBody - 1 where it sees nothing
    std::vector<UnitInput> inputs;
    std::vector<UnitDriver> drivers;
};

std::vector<Unit> units_of(const model::Circuit& circuit, const network::Network& network);

/// What one unit perceives in a view.
class UnitSenses final : public Senses {
  public:
    UnitSenses(const Unit& unit, const UnitState& state, const ViewInTime& view)
        : unit_(unit), state_(state), view_(view) {}
    double in_v(std::string_view pin) const override;
    double hz(std::string_view pin) const override;
    double amps(std::string_view driver) const override;

  private:
    const Unit& unit_;
    const UnitState& state_;
    const ViewInTime& view_;
};

/// Appends what has to happen to one unit.
void find_for_unit(const ViewInTime& view, const Unit& unit, int index, std::vector<Deed>& deeds);

/// Levels of the inputs as they are, without anything having turned.
std::vector<InputState> inputs_now(const Unit& unit, const ViewInTime& view);

}  // namespace halfsplit::simulation
