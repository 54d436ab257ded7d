#include "tests/support/ngspice_course.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <initializer_list>

#include "tests/support/ngspice_deck.h"

namespace halfsplit::test {

namespace {

using model::Law;

/// Before its moment a toggle takes this long, and somewhere within the switch changes over.
constexpr double kToggleS = 1e-8;

std::string number(double value) {
    char digits[40];
    std::snprintf(digits, sizeof digits, "%.17g", value);
    return digits;
}

std::string text(std::initializer_list<std::string> pieces) {
    std::string all;
    for (const std::string& piece : pieces) all += piece;
    return all;
}

std::string words(std::initializer_list<std::string> pieces) {
    std::string line;
    for (const std::string& piece : pieces) line += line.empty() ? piece : " " + piece;
    return line;
}

/// Writes the lines of one branch with a store.
class StoreWriter {
  public:
    StoreWriter(std::vector<std::string>& deck, std::size_t index, const network::Branch& branch,
                double stored)
        : deck_(deck),
          law_(branch.law),
          id_(std::to_string(index)),
          from_(ngspice_node(branch.from)),
          to_(ngspice_node(branch.to)),
          inner_("m" + id_),
          stored_(number(stored)) {}

    void operator()(const std::monostate&) const {}
    void operator()(const model::Inductance& store) const {
        resistor("R", from_, inner_, ohm());
        resistor("RL", inner_, to_, store.losses_ohm);
        deck_.push_back(words({"L" + id_, inner_, to_, number(store.henry), "ic=" + stored_}));
    }
    void operator()(const model::Capacitance& store) const {
        resistor("R", from_, to_, ohm());
        resistor("RC", from_, inner_, store.series_ohm);
        deck_.push_back(words({"C" + id_, inner_, to_, number(store.farad), "ic=" + stored_}));
    }
    void operator()(const model::Rotor& store) const {
        const auto& motor = std::get<model::RunningMotor>(law_);
        const double slope_s = (motor.load_a - motor.breakaway_a) / (motor.load_v - motor.ohm * motor.load_a);
        resistor("R", from_, inner_, motor.ohm);
        deck_.push_back(words({"C" + id_, inner_, to_, number(store.farad), "ic=" + stored_}));
        deck_.push_back(words({"I" + id_, inner_, to_, "DC", number(motor.breakaway_a)}));
        if (slope_s > 0) resistor("RS", inner_, to_, 1 / slope_s);
    }
    void operator()(const model::FilamentHeat& store) const {
        const auto& lamp = std::get<model::Filament>(law_);
        const double d = 1 / (std::pow(lamp.cold_ratio, -1 / 0.225) - 1);
        const std::string heat = "h" + id_;
        const std::string r = text({"V(", heat, ")"});
        const std::string voltage = text({"V(", from_, ",", to_, ")"});
        const std::string share = text({"(", voltage, "/", number(lamp.rated_v), ")"});
        deck_.push_back(words(
            {"B" + id_, from_, to_,
             text({"I=", voltage, "/(", number(lamp.rated_v * lamp.rated_v / lamp.rated_w), "*", r, ")"})}));
        deck_.push_back(words({"C" + id_, heat, "0", "1", "ic=" + stored_}));
        deck_.push_back(
            words({"BH" + id_, "0", heat,
                   text({"I=(", share, "*", share, "-", number(d + 1), "*", r, "^", number(1 / 0.225), "+",
                         number(d), ")/(", number(store.tau_s), "*", r, ")"})}));
        deck_.push_back(words({".ic", text({r, "=", stored_})}));
    }

  private:
    double ohm() const { return std::get<model::Resistance>(law_).ohm; }
    void resistor(const std::string& kind, const std::string& from, const std::string& to,
                  double of_ohm) const {
        deck_.push_back(words({kind + id_, from, to, number(of_ohm)}));
    }

    std::vector<std::string>& deck_;
    const Law& law_;
    std::string id_;
    std::string from_;
    std::string to_;
    std::string inner_;
    std::string stored_;
};

void add_switch(std::vector<std::string>& deck, int index, const network::Branch& branch,
                std::span<const Toggle> toggles) {
    const std::string id = std::to_string(index);
    const auto level = [](bool conducts) { return std::string(conducts ? "1" : "0"); };
    std::string points = "0 " + level(branch.conducts);
    bool now = branch.conducts;
    for (const Toggle& toggle : toggles) {
        if (toggle.branch != index) continue;
        points += " " + number(toggle.at_s - kToggleS) + " " + level(now);
        points += " " + number(toggle.at_s) + " " + level(now = toggle.conducts);
    }
    const double ohm = std::get<model::Resistance>(branch.law).ohm;
    deck.push_back(
        words({"S" + id, ngspice_node(branch.from), ngspice_node(branch.to), "c" + id, "0", "SW" + id}));
    deck.push_back(words({".model", "SW" + id, "SW(VT=0.5 VH=0 ROFF=1e15", "RON=" + number(ohm) + ")"}));
    deck.push_back(words({"VC" + id, "c" + id, "0", "PWL(" + points + ")"}));
}

}  // namespace

std::vector<std::string> ngspice_course_deck(const StoringNetwork& network, const std::string& options) {
    std::vector<network::Branch> at_rest;
    at_rest.reserve(network.branches.size());
    for (const auto& each : network.branches) {
        at_rest.push_back(each.electrical);
        if (!std::holds_alternative<std::monostate>(each.store)) at_rest.back().conducts = false;
    }
    for (const Toggle& toggle : network.toggles)
        at_rest[static_cast<std::size_t>(toggle.branch)].conducts = false;
    std::vector<std::string> deck = ngspice_deck(network.node_count, at_rest, DeckFor::times);
    if (!options.empty()) deck.push_back(".options " + options);
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const network::Branch& branch = network.branches[i].electrical;
        if (branch.conducts)
            std::visit(StoreWriter(deck, i, branch, network.stored_at_start[i]), network.branches[i].store);
        const int index = static_cast<int>(i);
        if (std::ranges::any_of(network.toggles, [&](const Toggle& each) { return each.branch == index; }))
            add_switch(deck, index, branch, network.toggles);
    }
    return deck;
}

double Waveforms::at(std::size_t vector, double time_s) const {
    const std::vector<double>& y = values_[vector];
    const auto after = std::ranges::lower_bound(time_s_, time_s);
    const auto last = static_cast<std::ptrdiff_t>(time_s_.size()) - 1;
    const auto right = std::clamp<std::ptrdiff_t>(after - time_s_.begin(), 2, last);
    double sum = 0;
    for (auto i = right - 2; i <= right; ++i) {
        double weight = 1;
        for (auto j = right - 2; j <= right; ++j)
            if (j != i)
                weight *= (time_s - time_s_[static_cast<std::size_t>(j)]) /
                          (time_s_[static_cast<std::size_t>(i)] - time_s_[static_cast<std::size_t>(j)]);
        sum += weight * y[static_cast<std::size_t>(i)];
    }
    return sum;
}

Ngspice::Done ngspice_transient(Ngspice& ngspice, const NgspiceSteps& steps) {
    static_cast<void>(ngspice.command("destroy all"));
    return ngspice.command(
        words({"tran", number(steps.longest_s), number(steps.until_s), "0", number(steps.longest_s), "uic"}));
}

tl::expected<Waveforms, std::string> ngspice_waveforms(const Ngspice& ngspice, const NgspiceSteps& steps,
                                                       std::span<const std::string> vectors) {
    auto time_s = ngspice.values("time");
    if (!time_s) return tl::make_unexpected(time_s.error());
    if (time_s->size() < 3 || time_s->back() < steps.until_s * (1 - 1e-9))
        return tl::make_unexpected("ngspice gave up at " + number(time_s->back()) + " s");
    std::vector<std::vector<double>> values;
    values.reserve(vectors.size());
    for (const std::string& vector : vectors) {
        auto read = ngspice.values(vector);
        if (!read) return tl::make_unexpected(read.error());
        values.push_back(std::move(*read));
    }
    return Waveforms(std::move(*time_s), std::move(values));
}

tl::expected<Waveforms, std::string> ngspice_course(const StoringNetwork& network,
                                                    const NgspiceSteps& steps) {
    Ngspice ngspice;
    if (auto done = ngspice.load(ngspice_course_deck(network, steps.options)); !done)
        return tl::make_unexpected(done.error());
    if (auto done = ngspice_transient(ngspice, steps); !done) return tl::make_unexpected(done.error());
    std::vector<std::string> nodes;
    nodes.reserve(static_cast<std::size_t>(network.node_count));
    for (int node = 0; node < network.node_count; ++node) nodes.push_back(ngspice_node(node));
    return ngspice_waveforms(ngspice, steps, nodes);
}

}  // namespace halfsplit::test
