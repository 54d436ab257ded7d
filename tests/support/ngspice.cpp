#include "tests/support/ngspice.h"

#include <ngspice/sharedspice.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <stdexcept>

#include "engine/base/number.h"
#include "engine/network/constants.h"
#include "tests/support/law_current.h"

namespace halfsplit::test {

namespace {

std::string node_name(int node) {
    return node == network::kBody ? "0" : "n" + std::to_string(node);
}

class DeckWriter {
  public:
    explicit DeckWriter(std::vector<std::string>& deck) : deck_(deck) {}

    void write(int index, const network::Branch& branch) {
        index_ = std::to_string(index);
        from_ = node_name(branch.from);
        to_ = node_name(branch.to);
        std::visit([&](const auto& law) { device(law); }, branch.law);
    }

  private:
    std::string across() const { return "(v(" + from_ + ")-v(" + to_ + "))"; }
    void behavioural(const std::string& current) {
        deck_.push_back("b" + index_ + " " + from_ + " " + to_ + " i = " + current);
    }

    void device(const model::Resistance& law) {
        deck_.push_back("r" + index_ + " " + from_ + " " + to_ + " " + number_text(law.ohm));
    }

    void device(const model::Source& law) {
        deck_.push_back("v" + index_ + " m" + index_ + " " + to_ + " dc " + number_text(law.emf_v));
        deck_.push_back("r" + index_ + " " + from_ + " m" + index_ + " " + number_text(law.ohm));
    }

    void device(const model::Cell& law) {
        const std::string excess = "(" + across() + "-" + number_text(law.emf_v) + ")";
        behavioural(excess + "<0 ? " + excess + "/" + number_text(law.ohm) + " : " + excess + "/" +
                    number_text(law.charge_ohm));
    }

    void device(const model::RegulatedSource& law) {
        behavioural("-min(max((" + number_text(law.emf_v) + "-" + across() + ")/" + number_text(law.ohm) +
                    ",0)," + number_text(law.max_a) + ")");
    }

    void device(const model::Filament& law) {
        const double dark = std::pow(law.cold_ratio, 1 / 0.225);
        behavioural(across() + "*" + number_text(law.rated_w / (law.rated_v * law.rated_v)) + "*pow(" +
                    number_text(1 + dark) + "/(" + number_text(dark) + "+" + across() + "*" + across() + "/" +
                    number_text(law.rated_v * law.rated_v) + "),0.225)");
    }

    /// ngspice's own diode bends Shockley's law in reverse (its current near the knee is a tenth larger),
    /// which shows where nothing but reverse current holds a node; so the law itself, kept below what
    /// overflows.
    void device(const model::Junction& law) {
        const double top_v = law.slope_v * std::log(1e4 / law.saturation_a);
        behavioural(number_text(law.saturation_a) + "*(exp(min(" + across() + "," + number_text(top_v) +
                    ")/" + number_text(law.slope_v) + ")-1)");
    }

    void device(const model::RunningMotor& law) {
        const double breakaway_v = law.breakaway_a * law.ohm;
        const double slope_s = (law.load_a - law.breakaway_a) / (law.load_v - breakaway_v);
        const std::string beyond = number_text(law.breakaway_a) + "+(abs(" + across() + ")-" +
                                   number_text(breakaway_v) + ")*" + number_text(slope_s);
        behavioural("abs(" + across() + ")<" + number_text(breakaway_v) + " ? " + across() + "/" +
                    number_text(law.ohm) + " : sgn(" + across() + ")*(" + beyond + ")");
    }

    std::vector<std::string>& deck_;
    std::string index_;
    std::string from_;
    std::string to_;
};

std::vector<char> writable(const std::string& text) {
    std::vector<char> copy(text.begin(), text.end());
    copy.push_back('\0');
    return copy;
}

}  // namespace

std::vector<std::string> ngspice_deck(int node_count, std::span<const network::Branch> branches) {
    std::vector<std::string> deck{"network"};
    DeckWriter writer(deck);
    for (std::size_t i = 0; i < branches.size(); ++i)
        if (branches[i].conducts && branches[i].from != branches[i].to)
            writer.write(static_cast<int>(i), branches[i]);
    for (int node = 0; node < node_count; ++node)
        deck.push_back("rleak" + std::to_string(node) + " " + node_name(node) + " 0 " +
                       number_text(1 / network::kLeakageSiemens));
    deck.emplace_back(".options reltol=1e-6 abstol=1e-14 vntol=1e-9 gmin=1e-15 itl1=2000 noacct");
    deck.emplace_back(".end");
    return deck;
}

Ngspice::Ngspice() {
    ngSpice_Init(&Ngspice::on_text, nullptr, &Ngspice::on_exit, nullptr, nullptr, nullptr, this);
}

Ngspice::~Ngspice() {
    if (is_loaded_) static_cast<void>(command("remcirc"));
}

int Ngspice::on_text(char* text, int, void* self) {
    const std::string line(text);
    const bool is_complaint =
        line.find("rror") != std::string::npos || line.find("failed") != std::string::npos ||
        line.find("singular") != std::string::npos || line.find("no such") != std::string::npos;
    if (is_complaint && line.find("Trying") == std::string::npos &&
        line.find("stepping") == std::string::npos)
        static_cast<Ngspice*>(self)->complaints_ += line + "\n";
    return 0;
}

int Ngspice::on_exit(int status, bool, bool, int, void* self) {
    static_cast<Ngspice*>(self)->complaints_ +=
        "ngspice wanted to exit with status " + std::to_string(status) + "\n";
    return 0;
}

tl::expected<void, std::string> Ngspice::load(const std::vector<std::string>& deck) {
    if (is_loaded_) static_cast<void>(command("remcirc"));
    complaints_.clear();
    std::vector<std::vector<char>> lines;
    std::vector<char*> pointers;
    for (const std::string& line : deck) lines.push_back(writable(line));
    for (std::vector<char>& line : lines) pointers.push_back(line.data());
    pointers.push_back(nullptr);
    is_loaded_ = ngSpice_Circ(pointers.data()) == 0;
    if (!is_loaded_ || !complaints_.empty())
        return tl::unexpected("ngspice refused the deck: " + complaints_);
    return {};
}

tl::expected<void, std::string> Ngspice::command(const std::string& text) {
    complaints_.clear();
    std::vector<char> line = writable(text);
    const int status = ngSpice_Command(line.data());
    if (status != 0 || !complaints_.empty()) return tl::unexpected("ngspice, '" + text + "': " + complaints_);
    return {};
}

tl::expected<std::vector<double>, std::string> Ngspice::potentials(int node_count) {
    std::vector<double> volts;
    volts.reserve(static_cast<std::size_t>(node_count));
    for (int node = 0; node < node_count; ++node) {
        std::vector<char> name = writable(node_name(node));
        const pvector_info info = ngGet_Vec_Info(name.data());
        if (info == nullptr || info->v_length < 1 || info->v_realdata == nullptr)
            return tl::unexpected("ngspice has no voltage for node " + node_name(node));
        volts.push_back(info->v_realdata[0]);
    }
    return volts;
}

tl::expected<std::vector<double>, std::string> Ngspice::operating_point(
    int node_count, std::span<const network::Branch> branches) {
    if (const auto loaded = load(ngspice_deck(node_count, branches)); !loaded)
        return tl::unexpected(loaded.error());
    if (const auto solved = command("op"); !solved) return tl::unexpected(solved.error());
    auto volts = potentials(node_count);
    static_cast<void>(command("destroy all"));
    return volts;
}

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

}  // namespace

tl::expected<std::vector<double>, std::string> Ngspice::operating_point_by_pieces(
    int node_count, std::span<const network::Branch> branches, std::span<const double> expected) {
    std::vector<network::Branch> smooth(branches.begin(), branches.end());
    std::vector<std::string> pieces;
    for (std::size_t i = 0; i < smooth.size(); ++i) {
        if (!smooth[i].conducts || !is_piecewise(smooth[i].law)) continue;
        const Piece piece = piece_at(smooth[i].law, across(smooth[i], expected));
        const std::string ends = " " + node_name(smooth[i].from) + " " + node_name(smooth[i].to) + " ";
        pieces.push_back("ipiece" + std::to_string(i) + ends + "dc " + number_text(piece.offset_a));
        if (piece.slope_s > 0)
            pieces.push_back("rpiece" + std::to_string(i) + ends + number_text(1 / piece.slope_s));
        smooth[i].conducts = false;
    }
    std::vector<std::string> deck = ngspice_deck(node_count, smooth);
    deck.insert(deck.begin() + 1, pieces.begin(), pieces.end());
    for (int node = 0; node < node_count; ++node)
        deck.insert(deck.end() - 1, ".nodeset v(" + node_name(node) +
                                        ")=" + number_text(expected[static_cast<std::size_t>(node)]));
    if (const auto loaded = load(deck); !loaded) return tl::unexpected(loaded.error());
    if (const auto solved = command("op"); !solved) return tl::unexpected(solved.error());
    auto volts = potentials(node_count);
    static_cast<void>(command("destroy all"));
    if (!volts) return volts;
    for (const network::Branch& branch : branches) {
        if (!branch.conducts || !is_piecewise(branch.law)) continue;
        const Piece piece = piece_at(branch.law, across(branch, expected));
        const double there_v = across(branch, *volts);
        const double gap_a =
            std::abs(law_current(branch.law, there_v) - piece.offset_a - piece.slope_s * there_v);
        if (gap_a > 1e-3) return tl::unexpected(std::string("ngspice lands on another piece of a law"));
    }
    return volts;
}

}  // namespace halfsplit::test
