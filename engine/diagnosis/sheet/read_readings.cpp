#include "engine/diagnosis/sheet/read_readings.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "engine/base/csv.h"
#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/diagnosis/sheet/measured.h"
#include "engine/diagnosis/sheet/sheet.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/diagnosis/sheet/test_points.h"
#include "engine/instruments/instrument.h"
#include "engine/model/structure.h"
#include "engine/xml/limits.h"

namespace halfsplit::diagnosis {

namespace {

/// A reading beyond so many times the system's voltage has lost its decimal point on the way.
constexpr double kMostOfNominal = 5;
/// No starter draws more.
constexpr double kMostA = 2000;

constexpr std::string_view kPartSide = "@part";

enum Column { kState, kAt, kMeasured, kAgainst, kInstrument, kUnit, kComplaint, kColumns };
constexpr std::array<std::string_view, kColumns> kColumnNames{"state",      "at",   "measured", "against",
                                                              "instrument", "unit", "complaint"};
constexpr int kNeeded = 3;

std::string in_small_letters(std::string text) {
    for (char& letter : text)
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    return text;
}

class ReadingsReader {
  public:
    ReadingsReader(const model::Circuit& circuit, std::string_view text, const std::string& file)
        : circuit_(circuit), csv_(text, file), file_(file) {
        for (SignSource& source : sign_sources(circuit)) {
            std::string name = source.name;
            signs_.emplace(std::move(name), std::move(source));
        }
    }

    tl::expected<std::vector<FilledRow>, Diagnostics> read() {
        if (!next_row())
            problems_.push_back({{file_, 1, 1}, "the file is empty; a sheet's header is expected"});
        else
            read_header();
        int rows = 0;
        while (problems_.size() < xml::kMaxErrors && has_columns() && next_row()) {
            if (++rows > kMaxFilledRows) {
                add(row_.cells.front(), "the sheet has too many rows; at most " +
                                            std::to_string(kMaxFilledRows) + " are expected");
                break;
            }
            read_row();
        }
        Diagnostics all = csv_.problems();
        all.insert(all.end(), problems_.begin(), problems_.end());
        std::ranges::stable_sort(
            all, {}, [](const Diagnostic& each) { return std::pair(each.where.line, each.where.column); });
        if (all.size() > xml::kMaxErrors) all.resize(xml::kMaxErrors);
        if (!all.empty()) return tl::unexpected(all);
        return std::move(filled_);
    }

  private:
    bool next_row() {
        while (csv_.next(row_))
            if (!row_.is_empty()) return true;
        return false;
    }

    bool has_columns() const {
        return std::all_of(columns_.begin(), columns_.begin() + kNeeded,
                           [](const std::optional<std::size_t>& column) { return column.has_value(); });
    }

    void add(const CsvCell& cell, std::string message) {
        problems_.push_back({{file_, cell.line, cell.column}, std::move(message)});
    }

    void read_header() {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < row_.cells.size(); ++i) {
            names.push_back(in_small_letters(row_.cells[i].text));
            const auto name = std::ranges::find(kColumnNames, names.back());
            if (name == kColumnNames.end()) continue;
            auto& column = columns_[static_cast<std::size_t>(name - kColumnNames.begin())];
            if (column)
                add(row_.cells[i], "a second column is called '" + names.back() + "'; one is expected");
            column = i;
        }
        for (int needed = 0; needed < kNeeded; ++needed)
            if (!columns_[at(needed)])
                add(row_.cells.front(), "the header has no column '" + std::string(kColumnNames[at(needed)]) +
                                            "'" + did_you_mean(kColumnNames[at(needed)], names) +
                                            "; state, at and measured are expected");
    }

    /// Spreadsheets leave out empty cells at the end of a row.
    CsvCell cell(Column column) const {
        const auto index = columns_[column];
        if (index && *index < row_.cells.size()) return row_.cells[*index];
        return {"", row_.line, row_.end_column};
    }

    void read_row() {
        const CsvCell measured = cell(kMeasured);
        if (is_left_out(measured.text)) return;
        const auto state = find_state(cell(kState));
        auto filled = what_was_looked_at();
        if (!filled) return;
        const auto value = value_of(*filled, measured);
        const auto complaint = is_complaint(cell(kComplaint));
        if (!state || !value || !complaint) return;
        filled->state = *state;
        filled->value = *value;
        filled->is_complaint = *complaint;
        filled->line = row_.line;
        filled_.push_back(std::move(*filled));
    }

    std::optional<bool> is_complaint(const CsvCell& cell) {
        const std::string text = in_small_letters(cell.text);
        if (text == "yes" || text == "x") return true;
        if (is_left_out(text) || text == "no") return false;
        add(cell, "'" + cell.text + "' does not say whether it was complained of; yes or no is expected");
        return std::nullopt;
    }

    std::optional<int> find_state(const CsvCell& cell) {
        const auto state = std::ranges::find(circuit_.states, cell.text, &model::OperatingState::id);
        if (state != circuit_.states.end()) return static_cast<int>(state - circuit_.states.begin());
        std::vector<std::string> known;
        for (const model::OperatingState& each : circuit_.states) known.push_back(each.id);
        add(cell, "the circuit has no state '" + cell.text + "'" + did_you_mean(cell.text, known) +
                      "; one of " + listed(known) + " is expected");
        return std::nullopt;
    }

    /// State and value are still to come.
    std::optional<FilledRow> what_was_looked_at() {
        const CsvCell instrument = cell(kInstrument);
        const CsvCell where = cell(kAt);
        const bool is_part = !is_point(where.text) && signs_.contains(where.text);
        std::string id = in_small_letters(instrument.text);
        if (id.empty()) id = is_part ? kLookAndListen : "voltmeter";
        std::optional<Finding> finding;
        if (id == kLookAndListen) {
            finding = sign_at(where);
        } else if (id == "voltmeter") {
            finding = voltage_at(where, cell(kAgainst));
        } else if (id == "fuse-millivolts") {
            finding = fuse_drop_at(where);
        } else if (id == "clamp" || id == "ammeter" || id == "milliammeter") {
            finding = current_in(where);
        } else {
            const std::vector<std::string> known{"voltmeter", "fuse-millivolts", "clamp",
                                                 "ammeter",   "milliammeter",    kLookAndListen};
            add(instrument, "'" + instrument.text + "' is no instrument whose readings count here" +
                                did_you_mean(id, known) + "; " + listed(known) + " is expected");
        }
        if (!finding) return std::nullopt;
        return FilledRow{0, std::move(*finding), id, 0, 0};
    }

    bool is_point(std::string_view name) const {
        if (name.ends_with(kPartSide)) name.remove_suffix(kPartSide.size());
        return name == model::kBodyId || circuit_.find_pin(name).has_value();
    }

    bool check_point(const CsvCell& cell) {
        if (is_point(cell.text)) return true;
        std::vector<std::string> known{std::string(model::kBodyId)};
        for (int part = 0; part < static_cast<int>(circuit_.parts.size()); ++part)
            for (int pin = 0; pin < static_cast<int>(circuit_.parts[at(part)].pins.size()); ++pin)
                known.push_back(circuit_.point_name({part, pin}));
        add(cell, "the circuit has no point '" + cell.text + "'" + did_you_mean(cell.text, known) +
                      "; a pin such as '" + known.back() + "' is expected");
        return false;
    }

    std::optional<Finding> voltage_at(const CsvCell& where, CsvCell against) {
        if (against.text.empty()) against.text = model::kBodyId;
        const bool is_known = check_point(where);
        if (!check_point(against) || !is_known) return std::nullopt;
        if (where.text == against.text) {
            add(against, "both leads are on '" + where.text + "'; two different points are expected");
            return std::nullopt;
        }
        return Finding{Finding::Kind::voltage, where.text, against.text, place_of_point(where.text)};
    }

    std::optional<Finding> fuse_drop_at(const CsvCell& where) {
        const model::Part* fuse = circuit_.find_part(where.text);
        if (fuse == nullptr || !is_fuse(*fuse) || fuse->pins.size() != 2) {
            std::vector<std::string> known;
            for (const model::Part& part : circuit_.parts)
                if (is_fuse(part)) known.push_back(part.id);
            add(where, "'" + where.text + "' is no fuse" + did_you_mean(where.text, known) +
                           "; a fuse's id is expected");
            return std::nullopt;
        }
        const int part = static_cast<int>(fuse - circuit_.parts.data());
        const auto test_tip = [&](int pin) {
            return circuit_.point_name({part, pin}) + std::string(kPartSide);
        };
        return Finding{Finding::Kind::voltage, test_tip(0), test_tip(1), place_of(circuit_, part)};
    }

    std::optional<Finding> current_in(const CsvCell& where) {
        if (const model::Wire* wire = circuit_.find_wire(where.text)) {
            const int place = place_of(circuit_, wire->from.part);
            return Finding{Finding::Kind::current, wire->id, "",
                           place >= 0 ? place : place_of(circuit_, wire->to.part)};
        }
        std::vector<std::string> known;
        for (const model::Wire& wire : circuit_.wires) known.push_back(wire.id);
        add(where, "no wire is called '" + where.text + "'" + did_you_mean(where.text, known) +
                       "; a wire's id is expected");
        return std::nullopt;
    }

    std::optional<Finding> sign_at(const CsvCell& where) {
        if (const auto source = signs_.find(where.text); source != signs_.end())
            return Finding{Finding::Kind::sign, where.text, "", place_of(circuit_, source->second.part)};
        std::vector<std::string> known;
        for (const auto& each : signs_) known.push_back(each.first);
        add(where, "'" + where.text + "' shows nothing one could see or hear" +
                       did_you_mean(where.text, known) + "; a lamp, motor, horn or the like is expected");
        return std::nullopt;
    }

    int place_of_point(std::string_view point) const {
        const auto pin = circuit_.find_pin(point.substr(0, point.find('@')));
        return pin ? place_of(circuit_, pin->part) : -1;
    }

    std::optional<double> value_of(const FilledRow& row, const CsvCell& measured) {
        if (row.finding.kind == Finding::Kind::sign) {
            const Shows shows = signs_.find(row.finding.at)->second.shows;
            if (const auto sign = read_sign(shows, measured.text)) return static_cast<int>(*sign);
            add(measured, "'" + measured.text + "' is not what " + row.finding.at + " can be found to do; " +
                              expected_words(shows) + " is expected");
            return std::nullopt;
        }
        const bool is_voltage = row.finding.kind == Finding::Kind::voltage;
        const auto value =
            read_measured(is_voltage ? Measure::voltage : Measure::current, measured.text, cell(kUnit).text);
        if (!value) {
            add(measured, value.error());
            return std::nullopt;
        }
        const double most = is_voltage ? kMostOfNominal * circuit_.nominal_v : kMostA;
        if (std::abs(*value) <= most) return *value;
        add(measured, "'" + measured.text + "' is more than there can be; at most " + number_text(most) +
                          (is_voltage ? " V" : " A") + " is expected");
        return std::nullopt;
    }

    const model::Circuit& circuit_;
    CsvReader csv_;
    std::string file_;
    CsvRow row_;
    std::array<std::optional<std::size_t>, kColumns> columns_;
    std::map<std::string, SignSource, std::less<>> signs_;  ///< by name
    std::vector<FilledRow> filled_;
    Diagnostics problems_;
};

}  // namespace

tl::expected<std::vector<FilledRow>, Diagnostics> read_readings(const model::Circuit& circuit,
                                                                std::string_view text,
                                                                const std::string& file) {
    return ReadingsReader(circuit, text, file).read();
}

}  // namespace halfsplit::diagnosis
