#include "engine/simulation/stage.h"

#include <cmath>

#include "engine/network/nodal/characteristic.h"

namespace halfsplit::simulation {

using model::Law;

namespace {

double ohm_of(const Law& law) {
    return std::get<model::Resistance>(law).ohm;
}

/// A motor's load current over its back-EMF: a straight line from where it breaks loose.
struct Load {
    double friction_a = 0;
    double slope_s = 0;
};

Load load_of(const model::RunningMotor& law) {
    const double load_emf_v = law.load_v - law.ohm * law.load_a;
    const double rise_a = law.load_a - law.breakaway_a;
    return {law.breakaway_a, load_emf_v > 0 ? rise_a / load_emf_v : 0};
}

/// Of inductance and losses side by side, at the stage's end.
double coil_ohm(const model::Inductance& store, const Stage& stage) {
    return 1 / (stage.beta_s / store.henry + 1 / store.losses_ohm);
}

/// L dx/dt = u over the inductance, i = x + u / losses, v = R i + u.
Law law_in(const model::Inductance& store, const Law& law, const Stage& stage, Turning) {
    const double ohm = coil_ohm(store, stage);
    return model::Source{-ohm * stage.known, ohm_of(law) + ohm};
}

/// C dx/dt = i with v = x + R i, and the leakage beside it.
Law law_in(const model::Capacitance& store, const Law& law, const Stage& stage, Turning) {
    const double charge_s = 1 / (store.series_ohm + stage.beta_s / store.farad);
    const double both_s = charge_s + 1 / ohm_of(law);
    return model::Source{stage.known * charge_s / both_s, 1 / both_s};
}

/// C de/dt = i - i_load(e) with v = R i + e.
Law law_in(const model::Rotor& store, const Law& law, const Stage& stage, Turning turning) {
    const auto& motor = std::get<model::RunningMotor>(law);
    if (turning == Turning::standing) return model::Resistance{motor.ohm};
    const Load load = load_of(motor);
    const double a = stage.beta_s / store.farad;
    const double damping = 1 + a * load.slope_s;
    const double friction_a = static_cast<int>(turning) * load.friction_a;
    return model::Source{(stage.known - a * friction_a) / damping, motor.ohm + a / damping};
}

Law law_in(const model::FilamentHeat& store, const Law& law, const Stage& stage, Turning) {
    return model::WarmingFilament{std::get<model::Filament>(law), stage.beta_s / store.tau_s, stage.known,
                                  store.cold_share};
}

Law law_in(const std::monostate&, const Law& law, const Stage&, Turning) {
    return law;
}

double rate(const model::Inductance& store, const Law&, const Stage& stage, Turning, double, double i) {
    return coil_ohm(store, stage) * (i - stage.known) / store.henry;
}

double rate(const model::Capacitance& store, const Law&, const Stage& stage, Turning, double v, double) {
    const double charge_a = (v - stage.known) / (store.series_ohm + stage.beta_s / store.farad);
    return charge_a / store.farad;
}

double rate(const model::Rotor& store, const Law& law, const Stage& stage, Turning turning, double,
            double i) {
    if (turning == Turning::standing) return 0;
    const Load load = load_of(std::get<model::RunningMotor>(law));
    const double a = stage.beta_s / store.farad;
    const double driving_a = i - static_cast<int>(turning) * load.friction_a;
    const double emf_v = (stage.known + a * driving_a) / (1 + a * load.slope_s);
    return (driving_a - load.slope_s * emf_v) / store.farad;
}

double rate(const model::FilamentHeat& store, const Law& law, const Stage& stage, Turning, double v, double) {
    const auto& filament = std::get<model::Filament>(law);
    const model::WarmingFilament warming{filament, stage.beta_s / store.tau_s, stage.known, store.cold_share};
    const double share = network::resistance_share_after(warming, v);
    const double voltage_share = v / filament.rated_v;
    const double excess =
        voltage_share * voltage_share - network::filament_balance(store.cold_share, share).square;
    return excess / (share * store.tau_s);
}

double rate(const std::monostate&, const Law&, const Stage&, Turning, double, double) {
    return 0;
}

double at_rest(const model::Inductance&, const Law&, double, double i) {
    return i;
}
double at_rest(const model::Capacitance&, const Law&, double v, double) {
    return v;
}
double at_rest(const model::Rotor&, const Law& law, double v, double i) {
    const auto& motor = std::get<model::RunningMotor>(law);
    return std::abs(i) > motor.breakaway_a ? v - motor.ohm * i : 0;
}
double at_rest(const model::FilamentHeat&, const Law& law, double v, double) {
    const auto& filament = std::get<model::Filament>(law);
    const double rated_ohm = filament.rated_v * filament.rated_v / filament.rated_w;
    return v == 0 ? filament.cold_ratio : v / (network::characteristic(law, v).current_a * rated_ohm);
}
double at_rest(const std::monostate&, const Law&, double, double) {
    return 0;
}

}  // namespace

Law stage_law(const Law& law, const model::Store& store, const Stage& stage, Turning turning) {
    return std::visit([&](const auto& of) { return law_in(of, law, stage, turning); }, store);
}

double rate_after_stage(const Law& law, const model::Store& store, const Stage& stage, Turning turning,
                        double voltage_v, double current_a) {
    return std::visit([&](const auto& of) { return rate(of, law, stage, turning, voltage_v, current_a); },
                      store);
}

double state_at_rest(const Law& law, const model::Store& store, double voltage_v, double current_a) {
    return std::visit([&](const auto& of) { return at_rest(of, law, voltage_v, current_a); }, store);
}

}  // namespace halfsplit::simulation
