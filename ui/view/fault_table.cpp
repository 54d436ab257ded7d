#include "ui/view/fault_table.h"

#include <nlohmann/json.hpp>
#include <numeric>

#include "engine/base/number.h"

namespace halfsplit::view {

namespace {

double total_rate(const std::vector<diagnosis::PossibleFault>& universe) {
    return std::accumulate(universe.begin(), universe.end(), 0.0,
                           [](double sum, const diagnosis::PossibleFault& each) { return sum + each.rate; });
}

std::string meaning(const network::Fault& fault) {
    std::string text(fault.spec->text);
    if (!fault.spec->value_unit.empty() && !fault.chafing)
        text += " (" + number_text(fault.value) + " " + std::string(fault.spec->value_unit) + " unless said)";
    return text;
}

}  // namespace

Table fault_table(const std::vector<diagnosis::PossibleFault>& universe) {
    Table table;
    table.columns = {{"fault"}, {"share", Table::Align::right}, {"meaning"}};
    const double total = total_rate(universe);
    for (const diagnosis::PossibleFault& each : universe)
        table.rows.push_back(
            {each.fault.text, fixed(100 * each.rate / total, 2) + " %", meaning(each.fault)});
    return table;
}

std::string fault_json(const model::Circuit& circuit, const std::vector<diagnosis::PossibleFault>& universe) {
    nlohmann::ordered_json json;
    json["circuit"] = circuit.id;
    json["faults"] = nlohmann::ordered_json::array();
    const double total = total_rate(universe);
    for (const diagnosis::PossibleFault& each : universe)
        json["faults"].push_back({{"fault", each.fault.text},
                                  {"rate", each.rate},
                                  {"share", each.rate / total},
                                  {"value", each.fault.value},
                                  {"unit", each.fault.spec->value_unit},
                                  {"text", each.fault.spec->text}});
    return json.dump(2);
}

}  // namespace halfsplit::view
