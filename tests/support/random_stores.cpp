#include "tests/support/random_stores.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::test {

namespace {

using network::Branch;
using network::kBody;

/// As the parts of this project have them (engine/model/kinds): losses of a coil per ohm of its winding, and
/// how long a filament of 1 W takes to warm up.
constexpr double kCoilLosses = 60;
constexpr double kWarmUpAt1WS = 0.012;

class Furnisher {
  public:
    Furnisher(std::uint64_t start, const RandomNetwork& network, const StoresKind& kind)
        : random_(start), kind_(kind), branch_count_(network.branches.size()) {
        built_.node_count = network.node_count;
        for (const Branch& branch : network.branches) {
            built_.add(branch.from, branch.to, branch.law);
            built_.branches.back().electrical.conducts = branch.conducts;
            if (const auto* resistance = std::get_if<model::Resistance>(&branch.law))
                (resistance->ohm > 0.5 && resistance->ohm < 100 ? loads_ : wires_)
                    .push_back(built_.branches.size() - 1);
        }
    }

    StoringNetwork build() {
        for (std::size_t n = count(kind_.motors); n > 0 && !loads_.empty(); --n) make_motor(taken(loads_));
        for (std::size_t n = count(kind_.coils); n > 0 && !loads_.empty(); --n) make_coil(taken(loads_));
        if (kind_.filaments_warm_up) warm_filaments();
        for (std::size_t n = count(kind_.capacitors); n > 0; --n) add_capacitor();
        add_toggles();
        return std::move(built_);
    }

  private:
    std::size_t count(double share) const {
        return static_cast<std::size_t>(share * static_cast<double>(branch_count_));
    }
    std::size_t taken(std::vector<std::size_t>& among) {
        std::swap(among[static_cast<std::size_t>(random_.below(static_cast<int>(among.size())))],
                  among.back());
        const std::size_t branch = among.back();
        among.pop_back();
        return branch;
    }

    void make_motor(std::size_t branch) {
        const double ohm = random_.log_uniform(0.3, 3);
        built_.branches[branch].electrical.law = model::RunningMotor{ohm, 0.01, 2.4 / ohm, 12};
        built_.branches[branch].store = model::Rotor{random_.uniform(0.05, 0.3) / ohm};
    }
    void make_coil(std::size_t branch) {
        const double ohm = random_.log_uniform(20, 120);
        built_.branches[branch].electrical.law = model::Resistance{ohm};
        built_.branches[branch].store =
            model::Inductance{ohm * random_.uniform(2e-3, 1e-2), kCoilLosses * ohm};
    }
    void warm_filaments() {
        for (std::size_t i = 0; i < built_.branches.size(); ++i)
            if (const auto* law = std::get_if<model::Filament>(&built_.branches[i].electrical.law)) {
                built_.branches[i].store = model::FilamentHeat{kWarmUpAt1WS * std::sqrt(law->rated_w)};
                built_.stored_at_start[i] = law->cold_ratio;
            }
    }
    void add_capacitor() {
        const Branch& beside =
            built_.branches[static_cast<std::size_t>(random_.below(static_cast<int>(branch_count_)))]
                .electrical;
        if (beside.from == kBody) return;
        built_.add(beside.from, kBody, model::Resistance{random_.log_uniform(1e3, 1e5)},
                   model::Capacitance{random_.log_uniform(1e-5, 2e-3), random_.log_uniform(0.02, 0.5)});
    }
    void add_toggles() {
        int opened = -1;
        for (int i = 1; i * kind_.toggles_every_s < kind_.until_s - 1e-9; ++i) {
            const double at_s = i * kind_.toggles_every_s;
            if (opened < 0) {
                opened = conducting_wire();
                add_dirt_across(opened);
                built_.toggles.push_back({at_s, opened, false});
            } else {
                built_.toggles.push_back({at_s, opened, true});
                opened = -1;
            }
        }
    }
    /// What it feeds must not float: ngspice's factorisation finds an island on leakages alone singular.
    void add_dirt_across(int branch) {
        const Branch wire = built_.branches[static_cast<std::size_t>(branch)].electrical;
        built_.add(wire.from, wire.to, model::Resistance{1e6});
    }
    int conducting_wire() {
        for (;;) {
            const std::size_t branch = taken(wires_);
            const Branch& wire = built_.branches[branch].electrical;
            if (wire.conducts && std::get<model::Resistance>(wire.law).ohm < 0.05)
                return static_cast<int>(branch);
        }
    }

    Random random_;
    StoresKind kind_;
    std::size_t branch_count_;
    StoringNetwork built_;
    std::vector<std::size_t> loads_;
    std::vector<std::size_t> wires_;
};

}  // namespace

StoringNetwork with_stores(std::uint64_t start, const RandomNetwork& network, const StoresKind& kind) {
    return Furnisher(start, network, kind).build();
}

}  // namespace halfsplit::test
