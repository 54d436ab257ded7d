#include "tests/support/ngspice_deck.h"

#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <stdexcept>
#include <string_view>

#include "engine/network/nodal/constants.h"
#include "tests/support/ngspice.h"

namespace halfsplit::test {

namespace {

using network::Branch;

/// Thermal voltage of ngspice 39 at 27 degC, from the constants in its const.h (boltz, echarge).
constexpr double kNgspiceThermalV = 1.38064852e-23 * (27 + 273.15) / 1.6021766208e-19;

std::string number(double value) {
    char digits[40];
    std::snprintf(digits, sizeof digits, "%.17g", value);
    return digits;
}

std::string text(std::initializer_list<std::string_view> pieces) {
    std::string all;
    for (const std::string_view piece : pieces) all += piece;
    return all;
}

std::string joined(std::initializer_list<std::string> words) {
    std::string line;
    for (const std::string& word : words) line += line.empty() ? word : " " + word;
    return line;
}

/// Writes the lines of one branch.
class Writer {
  public:
    Writer(std::vector<std::string>& deck, int index, const Branch& branch, DeckFor purpose)
        : deck_(deck),
          purpose_(purpose),
          id_(std::to_string(index)),
          from_(ngspice_node(branch.from)),
          to_(ngspice_node(branch.to)),
          voltage_(text({"V(", from_, ",", to_, ")"})) {}

    void operator()(const model::Resistance& law) const {
        deck_.push_back(joined({text({"R", id_}), from_, to_, number(law.ohm)}));
    }
    void operator()(const model::Source& law) const {
        const std::string inner = text({"m", id_});
        deck_.push_back(joined({text({"V", id_}), inner, to_, "DC", number(law.emf_v)}));
        deck_.push_back(joined({text({"R", id_}), from_, inner, number(law.ohm)}));
    }
    void operator()(const model::Cell& law) const {
        const std::string excess = text({"(", voltage_, "-", number(law.emf_v), ")"});
        current(text(
            {"max(", excess, "/", number(law.charge_ohm), ",0)+min(", excess, "/", number(law.ohm), ",0)"}));
    }
    void operator()(const model::RegulatedSource& law) const {
        current(text({"-min(max((", number(law.emf_v), "-", voltage_, ")/", number(law.ohm), ",0),",
                      number(law.max_a), ")"}));
    }
    void operator()(const model::Filament& law) const {
        const double d = 1 / (std::pow(law.cold_ratio, -1 / 0.225) - 1);
        const double rated_ohm = law.rated_v * law.rated_v / law.rated_w;
        const std::string share = text({"(", voltage_, "/", number(law.rated_v), ")"});
        current(text({voltage_, "/", number(rated_ohm), "*(((", number(d), "+", share, "*", share, ")/",
                      number(d + 1), ")^(-0.225))"}));
    }
    void operator()(const model::WarmingFilament&) const {
        throw std::logic_error("a single step of time has no deck");
    }
    void operator()(const model::Junction& law) const {
        if (purpose_ == DeckFor::values_by_shockley) {
            const std::string top =
                number(law.slope_v * std::log(1e4 / law.saturation_a));  // below what overflows
            return current(text({number(law.saturation_a), "*(exp(min(", voltage_, ",", top, ")/",
                                 number(law.slope_v), ")-1)"}));
        }
        deck_.push_back(joined({text({"D", id_}), from_, to_, text({"J", id_})}));
        deck_.push_back(text({".model J", id_, " D(IS=", number(law.saturation_a),
                              " N=", number(law.slope_v / kNgspiceThermalV), ")"}));
    }
    /// The law is the middle one of three straight lines at every voltage.
    void operator()(const model::RunningMotor& law) const {
        const double breakaway_v = law.breakaway_a * law.ohm;
        const double slope = (law.load_a - law.breakaway_a) / (law.load_v - breakaway_v);
        const std::string beyond = number(law.breakaway_a - slope * breakaway_v);
        const std::string rising = text({number(slope), "*", voltage_});
        current(text({"max(min(", voltage_, "/", number(law.ohm), ",", beyond, "+", rising, "),-", beyond,
                      "+", rising, ")"}));
    }

  private:
    void current(const std::string& expression) const {
        deck_.push_back(joined({text({"B", id_}), from_, to_, text({"I=", expression})}));
    }

    std::vector<std::string>& deck_;
    DeckFor purpose_;
    std::string id_;
    std::string from_;
    std::string to_;
    std::string voltage_;
};

}  // namespace

std::string ngspice_node(int node) {
    return node == network::kBody ? "0" : text({"n", std::to_string(node)});
}

std::vector<std::string> ngspice_deck(int node_count, std::span<const Branch> branches, DeckFor purpose) {
    std::vector<std::string> deck{"a network of the solver's tests"};
    const std::string leakage = number(1 / network::kLeakageSiemens);
    if (purpose == DeckFor::times) {
        deck.push_back(text({".options temp=27 tnom=27 rshunt=", leakage}));
    } else {
        deck.emplace_back(
            ".options temp=27 tnom=27 reltol=1e-6 vntol=1e-9 abstol=1e-14 gmin=1e-18 itl1=1000 itl6=200");
        for (int node = 0; node < node_count; ++node)
            deck.push_back(joined({text({"Rleak", std::to_string(node)}), ngspice_node(node), "0", leakage}));
    }
    int index = 0;
    for (const Branch& branch : branches) {
        if (branch.conducts && branch.from != branch.to)
            std::visit(Writer(deck, index, branch, purpose), branch.law);
        ++index;
    }
    return deck;
}

using Potentials = tl::expected<std::vector<double>, std::string>;

Potentials ngspice_run(int node_count, const std::vector<std::string>& deck) {
    Ngspice ngspice;
    if (const auto done = ngspice.load(deck); !done) return tl::make_unexpected(done.error());
    if (const auto done = ngspice.operating_point(); !done) return tl::make_unexpected(done.error());
    std::vector<double> potential_v;
    for (int node = 0; node < node_count; ++node) {
        const auto value = ngspice.value(ngspice_node(node));
        if (!value) return tl::make_unexpected(value.error());
        potential_v.push_back(*value);
    }
    return potential_v;
}

Potentials ngspice_potentials(int node_count, std::span<const Branch> branches,
                              std::span<const double> guess_v) {
    std::vector<std::string> deck = ngspice_deck(node_count, branches);
    Potentials found = ngspice_run(node_count, deck);
    if (found || guess_v.empty()) return found;
    for (int node = 0; node < node_count; ++node)
        deck.push_back(
            text({".nodeset V(", ngspice_node(node), ")=", number(guess_v[static_cast<std::size_t>(node)])}));
    return ngspice_run(node_count, deck);
}

}  // namespace halfsplit::test
