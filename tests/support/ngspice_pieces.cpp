#include "tests/support/ngspice_pieces.h"

#include <cmath>

#include "engine/base/number.h"
#include "tests/support/law_current.h"
#include "tests/support/ngspice_deck.h"

namespace halfsplit::test {

namespace {

bool is_piecewise(const model::Law& law) {
    return std::holds_alternative<model::Cell>(law) || std::holds_alternative<model::RegulatedSource>(law) ||
           std::holds_alternative<model::RunningMotor>(law);
}

double across(const network::Branch& branch, std::span<const double> volts) {
    const auto at = [&](int node) {
        return node == network::kBody ? 0.0 : volts[static_cast<std::size_t>(node)];
    };
    return at(branch.from) - at(branch.to);
}

double law_current(const model::Law& law, double volts) {
    return std::visit([&](const auto& each) { return current_a(each, volts); }, law);
}

/// A piece as i = offset_a + slope_s v, from the law's own formula on both sides of a voltage.
struct Piece {
    double offset_a;
    double slope_s;
};

Piece piece_at(const model::Law& law, double volts) {
    constexpr double kAside = 1e-7;
    const double low_a = law_current(law, volts - kAside);
    const double slope_s = (law_current(law, volts + kAside) - low_a) / (2 * kAside);
    return {law_current(law, volts) - slope_s * volts, std::abs(slope_s) < 1e-6 ? 0 : slope_s};
}

/// The same network with its piecewise branches taken out, and what stands for them.
std::vector<std::string> deck_with_pieces(int node_count, std::span<const network::Branch> branches,
                                          std::span<const double> expected) {
    std::vector<network::Branch> smooth(branches.begin(), branches.end());
    std::vector<std::string> pieces;
    for (std::size_t i = 0; i < smooth.size(); ++i) {
        if (!smooth[i].conducts || !is_piecewise(smooth[i].law)) continue;
        const Piece piece = piece_at(smooth[i].law, across(smooth[i], expected));
        const std::string ends = " " + ngspice_node(smooth[i].from) + " " + ngspice_node(smooth[i].to) + " ";
        pieces.push_back("ipiece" + std::to_string(i) + ends + "dc " + number_text(piece.offset_a));
        if (piece.slope_s > 0)
            pieces.push_back("rpiece" + std::to_string(i) + ends + number_text(1 / piece.slope_s));
        smooth[i].conducts = false;
    }
    std::vector<std::string> deck = ngspice_deck(node_count, smooth, DeckFor::values_by_shockley);
    deck.insert(deck.end(), pieces.begin(), pieces.end());
    for (int node = 0; node < node_count; ++node)
        deck.push_back(".nodeset v(" + ngspice_node(node) +
                       ")=" + number_text(expected[static_cast<std::size_t>(node)]));
    return deck;
}

}  // namespace

tl::expected<std::vector<double>, std::string> ngspice_potentials_by_pieces(
    int node_count, std::span<const network::Branch> branches, std::span<const double> expected) {
    auto volts = ngspice_run(node_count, deck_with_pieces(node_count, branches, expected));
    if (!volts) return volts;
    for (const network::Branch& branch : branches) {
        if (!branch.conducts || !is_piecewise(branch.law)) continue;
        const Piece piece = piece_at(branch.law, across(branch, expected));
        const double there_v = across(branch, *volts);
        const double gap_a =
            std::abs(law_current(branch.law, there_v) - piece.offset_a - piece.slope_s * there_v);
        if (gap_a > 1e-3) return tl::make_unexpected(std::string("ngspice lands on another piece of a law"));
    }
    return volts;
}

}  // namespace halfsplit::test
