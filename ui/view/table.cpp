#include "ui/view/table.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace halfsplit::view {

namespace {

std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string padded(const std::string& text, std::size_t width, Table::Align align) {
    const std::string spaces(width - std::min(width, width_of(text)), ' ');
    return align == Table::Align::left ? text + spaces : spaces + text;
}

}  // namespace

std::string aligned_text(const Table& table, const std::string& indent) {
    std::vector<std::size_t> widths;
    std::vector<std::string> headings;
    for (std::size_t column = 0; column < table.columns.size(); ++column) {
        widths.push_back(width_of(table.columns[column].heading));
        headings.push_back(table.columns[column].heading);
        for (const auto& row : table.rows) widths[column] = std::max(widths[column], width_of(row[column]));
    }
    std::string text;
    const auto add_line = [&](const std::vector<std::string>& cells) {
        std::string line = indent;
        for (std::size_t column = 0; column < cells.size(); ++column)
            line +=
                (column > 0 ? "  " : "") + padded(cells[column], widths[column], table.columns[column].align);
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + "\n";
    };
    add_line(headings);
    for (const auto& row : table.rows) add_line(row);
    return text;
}

std::string csv_cell(const std::string& text) {
    if (text.find_first_of(",\"\n\r") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + "\"";
}

std::string csv_text(const Table& table) {
    std::string text;
    for (std::size_t column = 0; column < table.columns.size(); ++column)
        text += (column > 0 ? "," : "") + csv_cell(table.columns[column].heading);
    text += "\n";
    for (const auto& row : table.rows) {
        for (std::size_t column = 0; column < row.size(); ++column)
            text += (column > 0 ? "," : "") + csv_cell(row[column]);
        text += "\n";
    }
    return text;
}

std::string fixed(double value, int decimals) {
    const double half_step = 0.5 * std::pow(10.0, -decimals);
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%.*f", decimals, std::abs(value) < half_step ? 0.0 : value);
    return text.data();
}

std::string volts_text(double volts) {
    return std::abs(volts) < 0.0995 ? fixed(1000 * volts, 0) + " mV" : fixed(volts, 2) + " V";
}

std::string amperes_text(double amperes) {
    if (std::abs(amperes) < 5e-7) return "0";
    if (std::abs(amperes) < 0.9995e-3) return fixed(1e6 * amperes, 0) + " uA";
    return std::abs(amperes) < 0.9995 ? fixed(1000 * amperes, std::abs(amperes) < 0.01 ? 1 : 0) + " mA"
                                      : fixed(amperes, 2) + " A";
}

}  // namespace halfsplit::view
