#include "ui/view/session_json.h"

#include <nlohmann/json.hpp>

namespace halfsplit::view {

using practice::Entry;
using practice::Observed;
using Json = nlohmann::ordered_json;

namespace {

constexpr int kVersion = 1;

Json observed_json(const Observed& observed) {
    Json json{{"about", observed.about}, {"what", observed.what}, {"shown", observed.shown}};
    if (!observed.is_number()) return json;
    json["value"] = observed.value;
    json["doubt"] = observed.doubt;
    return json;
}

Observed observed_in(const Json& json) {
    Observed observed{json.at("about"), json.at("what"), json.at("shown")};
    if (!json.contains("value")) return observed;
    observed.value = json.at("value").get<double>();
    observed.doubt = json.at("doubt").get<double>();
    return observed;
}

tl::expected<Entry, std::string> entry_in(const Json& json) {
    Entry entry;
    entry.number = json.at("n").get<int>();
    const auto action = practice::read_action(json.at("do").get<std::string>());
    if (!action) return tl::unexpected(action.error());
    entry.action = *action;
    entry.minutes = json.at("min").get<double>();
    entry.clock_min = json.at("clock").get<double>();
    for (const Json& each : json.at("saw")) entry.observed.push_back(observed_in(each));
    if (json.contains("slips"))
        for (const Json& each : json.at("slips")) entry.slips.push_back({each.at("what"), each.at("why")});
    if (json.contains("told")) entry.told = json.at("told").get<std::string>();
    return entry;
}

/// Whatever reading leads to, but no exception.
template <class Result, class Read>
tl::expected<Result, std::string> without_throwing(std::string_view line, const Read& read) {
    try {
        return read(Json::parse(line));
    } catch (const Json::exception& what) {
        return tl::unexpected(std::string("is no line of a session: ") + what.what());
    }
}

}  // namespace

std::string head_line(const SessionHead& head) {
    return Json{{"halfsplit-session", kVersion},
                {"id", head.id},
                {"who", head.who},
                {"scenario", head.scenario},
                {"file", head.file},
                {"content", head.content},
                {"begun", head.begun}}
        .dump();
}

std::string entry_line(const Entry& entry) {
    Json json{{"n", entry.number},
              {"do", practice::action_text(entry.action)},
              {"min", entry.minutes},
              {"clock", entry.clock_min},
              {"saw", Json::array()}};
    for (const Observed& each : entry.observed) json["saw"].push_back(observed_json(each));
    for (const practice::Slip& slip : entry.slips)
        json["slips"].push_back({{"what", slip.what}, {"why", slip.why}});
    if (!entry.told.empty()) json["told"] = entry.told;
    return json.dump();
}

tl::expected<SessionHead, std::string> read_head_line(std::string_view line) {
    return without_throwing<SessionHead>(
        line, [](const Json& json) -> tl::expected<SessionHead, std::string> {
            if (json.at("halfsplit-session").get<int>() != kVersion)
                return tl::unexpected(std::string("is a session of another version of the program"));
            return SessionHead{json.at("id"),   json.at("who"),     json.at("scenario"),
                               json.at("file"), json.at("content"), json.at("begun")};
        });
}

tl::expected<Entry, std::string> read_entry_line(std::string_view line) {
    return without_throwing<Entry>(line, entry_in);
}

}  // namespace halfsplit::view
