#include "ui/view/results_text.h"

#include <nlohmann/json.hpp>

#include "ui/view/html_page.h"
#include "ui/view/plot.h"

namespace halfsplit::view {

using practice::ClassResults;
using practice::Job;
using practice::Result;
using practice::Standing;
using Align = Table::Align;
using Json = nlohmann::ordered_json;

namespace {

std::string slowness_text(double slowness) {
    return slowness == 0 ? "" : fixed(slowness, 1) + "x";
}

std::string outcome_of(const Result& result) {
    return !result.is_over ? "not over" : result.is_right ? "right" : "not in order";
}

Json session_json(const ClassResults& results, const Result& result) {
    const Job* job = results.find_job(result.content);
    Json json{{"session", result.session}, {"who", result.who}, {"begun", result.begun}};
    if (job != nullptr) {
        json["scenario"] = job->id;
        json["circuit"] = job->circuit;
        json["skill"] = job->skill;
        json["level"] = job->level;
        json["best_min"] = job->best_min;
    }
    json["over"] = result.is_over;
    json["right"] = result.is_right;
    json["minutes"] = result.minutes;
    json["questions"] = result.questions;
    json["hints"] = result.hints;
    json["slips"] = result.slips;
    json["replaced_for_nothing"] = result.for_nothing;
    return json;
}

Json standing_json(const Standing& standing) {
    Json json{{"who", standing.who}};
    if (!standing.skill.empty()) json["skill"] = standing.skill;
    json["sessions"] = standing.sessions;
    json["right"] = standing.right;
    json["times_best_minutes"] = standing.slowness;
    json["slips"] = standing.slips;
    json["hints"] = standing.hints;
    json["replaced_for_nothing"] = standing.for_nothing;
    return json;
}

xml::WrittenElement table_element(const Table& table) {
    std::vector<std::string> headings;
    std::vector<bool> is_number;
    for (const Table::Column& column : table.columns) {
        headings.push_back(column.heading);
        is_number.push_back(column.align == Align::right);
    }
    return html_table("", headings, table.rows, is_number);
}

Plot minutes_plot(const ClassResults& results) {
    Plot plot{
        "Minutes of each session against those of the best strategy; the line is as fast as the best. Rings "
        "are "
        "sessions after which the vehicle was not in order.",
        "minutes of the best strategy",
        "minutes of the session",
        {},
        false,
        true};
    for (const Result& result : results.results)
        if (const Job* job = results.find_job(result.content); job != nullptr && result.is_over)
            plot.points.push_back({job->best_min, result.minutes, !result.is_right});
    return plot;
}

std::vector<Bar> bars_by_person(const std::vector<Standing>& standings) {
    std::vector<Bar> bars;
    bars.reserve(standings.size());
    for (const Standing& each : standings)
        bars.push_back({each.skill.empty() ? each.who : each.who + ", " + each.skill, each.right_share(),
                        std::to_string(each.right) + " of " + std::to_string(each.sessions)});
    return bars;
}

}  // namespace

Table standing_table(const std::vector<Standing>& standings) {
    const bool by_skill = !standings.empty() && !standings.front().skill.empty();
    Table table;
    table.columns = {{"who"}};
    if (by_skill) table.columns.push_back({"skill"});
    for (const char* heading : {"sessions", "right", "times the best minutes", "cautions not heeded", "hints",
                                "good parts replaced"})
        table.columns.push_back({heading, Align::right});
    for (const Standing& each : standings) {
        std::vector<std::string> row{each.who};
        if (by_skill) row.push_back(each.skill);
        row.insert(row.end(),
                   {std::to_string(each.sessions), std::to_string(each.right), slowness_text(each.slowness),
                    fixed(each.slips, 1), fixed(each.hints, 1), fixed(each.for_nothing, 1)});
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table session_table(const ClassResults& results) {
    Table table{{{"begun"},
                 {"who"},
                 {"scenario"},
                 {"skill"},
                 {"level", Align::right},
                 {"outcome"},
                 {"minutes", Align::right},
                 {"best", Align::right},
                 {"questions", Align::right},
                 {"hints", Align::right},
                 {"slips", Align::right},
                 {"for nothing", Align::right}},
                {}};
    for (const Result& result : results.results) {
        const Job* job = results.find_job(result.content);
        if (job == nullptr) continue;
        table.rows.push_back({result.begun, result.who, job->id, job->skill, std::to_string(job->level),
                              outcome_of(result), fixed(result.minutes, 1), fixed(job->best_min, 1),
                              std::to_string(result.questions), std::to_string(result.hints),
                              std::to_string(result.slips), std::to_string(result.for_nothing)});
    }
    return table;
}

std::string recommendation_text(const std::string& who, const practice::Recommendation& next) {
    std::string text = who + " should practise " + next.skill + " at level " + std::to_string(next.level) +
                       ": " + next.why + ".\n";
    if (next.jobs.empty()) return text + "No known job fits; draft some, or import their scenarios.\n";
    text += "Jobs:";
    for (const std::string& job : next.jobs) text += " " + job;
    return text + "\n";
}

std::string sessions_json_lines(const ClassResults& results) {
    std::string lines;
    for (const Result& result : results.results) lines += session_json(results, result).dump() + "\n";
    return lines;
}

std::string results_json(const ClassResults& results) {
    Json json{{"people", Json::array()}, {"skills", Json::array()}, {"sessions", Json::array()}};
    for (const Standing& each : practice::class_table(results)) json["people"].push_back(standing_json(each));
    for (const Standing& each : practice::skill_table(results)) json["skills"].push_back(standing_json(each));
    for (const Result& result : results.results) json["sessions"].push_back(session_json(results, result));
    return json.dump(2) + "\n";
}

std::string results_html(const ClassResults& results) {
    const auto people = practice::class_table(results);
    const auto skills = practice::skill_table(results);
    xml::WrittenElement body = holder("body");
    body.add(element("h1", "", "Results of practice"));
    body.add(element(
        "p", "sub",
        std::to_string(results.results.size()) + " sessions, " + std::to_string(people.size()) + " people"));
    body.add(element("h2", "", "The class"));
    body.add(bars_of("Vehicles that were in order in the end.", bars_by_person(people)));
    body.add(table_element(standing_table(people)));
    body.add(element("h2", "", "By skill"));
    body.add(bars_of("Vehicles that were in order in the end, by what was wrong with them.",
                     bars_by_person(skills)));
    body.add(table_element(standing_table(skills)));
    body.add(element("h2", "", "What to practise next"));
    for (const Standing& each : people)
        if (const auto next = practice::practise_next(results, each.who))
            body.add(element("p", "", recommendation_text(each.who, *next)));
    body.add(element("h2", "", "Minutes"));
    body.add(figure_of(minutes_plot(results)));
    body.add(element("h2", "", "Sessions"));
    body.add(table_element(session_table(results)));
    return html_page("Results of practice", kReportStyle, std::move(body));
}

}  // namespace halfsplit::view
