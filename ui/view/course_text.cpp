#include "ui/view/course_text.h"

#include <nlohmann/json.hpp>

namespace halfsplit::view {

Table event_table(const model::Circuit& circuit, const std::vector<simulation::CourseEvent>& events) {
    Table table{{{"time", Table::Align::right}, {"part"}, {"what"}, {"which is"}}, {}};
    for (const simulation::CourseEvent& event : events) {
        const model::Part* part = circuit.find_part(event.subject);
        const model::Quantity* quantity = circuit.find_quantity(event.subject);
        std::string title;
        if (part != nullptr) title = part->title;
        if (quantity != nullptr) title = quantity->title;
        table.rows.push_back({fixed(event.at_s, 4) + " s", event.subject, event.what, title});
    }
    return table;
}

Table recording_table(const std::vector<instruments::Channel>& channels,
                      const instruments::Recording& recording) {
    Table table{{{"time / s", Table::Align::right}}, {}};
    for (const instruments::Channel& channel : channels)
        table.columns.push_back({channel.name + (channel.is_current ? " / A" : " / V"), Table::Align::right});
    for (std::size_t i = 0; i < recording.rows.size(); ++i) {
        std::vector<std::string>& row = table.rows.emplace_back();
        row.push_back(fixed(recording.time_s[i], 4));
        for (const double value : recording.rows[i]) row.push_back(fixed(value, 4));
    }
    return table;
}

std::string course_json(const model::Circuit& circuit, const std::vector<instruments::Channel>& channels,
                        const instruments::Recording& recording,
                        const std::vector<simulation::CourseEvent>& events) {
    nlohmann::ordered_json json;
    json["circuit"] = circuit.id;
    json["channels"] = nlohmann::ordered_json::array();
    for (std::size_t k = 0; k < channels.size(); ++k)
        json["channels"].push_back({{"name", channels[k].name},
                                    {"unit", channels[k].is_current ? "A" : "V"},
                                    {"least", recording.least[k]},
                                    {"most", recording.most[k]}});
    json["time_s"] = recording.time_s;
    json["rows"] = recording.rows;
    json["events"] = nlohmann::ordered_json::array();
    for (const simulation::CourseEvent& event : events)
        json["events"].push_back({{"at_s", event.at_s}, {"part", event.subject}, {"what", event.what}});
    return json.dump(2);
}

}  // namespace halfsplit::view
