#include "engine/practice/session/action.h"

#include <algorithm>
#include <array>

#include "engine/base/nearest.h"

namespace halfsplit::practice {

namespace {

/// What somebody writes down may be long; all else is names and numbers.
constexpr int kAny = 1000;

constexpr std::array kVerbs{
    VerbSpec{Verb::state, "state", "STATE", 1, 1,
             "bring the vehicle to an operating state: everything else off, then step by step"},
    VerbSpec{Verb::set, "set", "WHAT=VALUE [over SECONDS]", 2, 3,
             "a switch, a door, a speed or temperature; stays so"},
    VerbSpec{Verb::press, "press", "WHAT=POSITION [SECONDS]", 2, 3, "set it, hold it (1 s) and let go"},
    VerbSpec{Verb::wait, "wait", "SECONDS", 1, 1, "let time pass"},
    VerbSpec{Verb::look, "look", "[PART|PLACE|all]", 0, 1,
             "what is seen and heard: what does something or has changed, one part, a place, or all"},
    VerbSpec{Verb::measure, "measure", "INSTRUMENT AT [AGAINST]", 2, 3,
             "bring an instrument to it; against the body where nobody says"},
    VerbSpec{Verb::record, "record", "POINT[,WIRE…] SECONDS", 2, 2, "watch up to four channels for a while"},
    VerbSpec{Verb::pull, "pull", "FUSE|RELAY", 1, 1, "out of its socket"},
    VerbSpec{Verb::push, "push", "FUSE|RELAY", 1, 1, "the same one back into its socket"},
    VerbSpec{Verb::unplug, "unplug", "PART|PLUG", 1, 1, "part a plug"},
    VerbSpec{Verb::plug, "plug", "PART|PLUG", 1, 1, "put it on"},
    VerbSpec{Verb::bridge, "bridge", "POINT POINT", 2, 2, "join two points with a fused jumper lead"},
    VerbSpec{Verb::unbridge, "unbridge", "", 0, 0, "take the jumper lead off"},
    VerbSpec{Verb::swap, "swap", "RELAY RELAY", 2, 2, "exchange two relays of one kind"},
    VerbSpec{Verb::fit, "fit", "FUSE AMPERES", 2, 2, "a new fuse of that rating"},
    VerbSpec{Verb::inspect, "inspect", "WHAT", 1, 1,
             "take a part, wire, plug contact or plug in hand and look closely"},
    VerbSpec{Verb::replace, "replace", "PART", 1, 1, "by a new one"},
    VerbSpec{Verb::mend, "mend", "WIRE|CONTACT|PLUG", 1, 1, "a new piece of wire, a new terminal"},
    VerbSpec{Verb::suspect, "suspect", "WHAT …", 1, kAny,
             "write down what you suspect and why; costs nothing"},
    VerbSpec{Verb::strike, "strike", "NUMBER", 1, 1,
             "strike out what you suspected in that step; costs nothing"},
    VerbSpec{Verb::hint, "hint", "", 0, 0, "ask for the next hint; the debrief counts them"},
    VerbSpec{Verb::done, "done", "", 0, 0, "hand the vehicle back: repaired, or nothing was wrong with it"}};

std::vector<std::string> words_in(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : text) {
        const bool is_space = c == ' ' || c == '\t' || c == '\r' || c == '\n';
        if (!is_space)
            word += c;
        else if (!word.empty())
            words.push_back(std::move(word)), word.clear();
    }
    if (!word.empty()) words.push_back(std::move(word));
    return words;
}

bool takes_setting(Verb verb) {
    return verb == Verb::set || verb == Verb::press;
}

/// "S1=run" and "S1 run" are the same; "over" is for the eye.
void take_apart_setting(std::vector<std::string>& arguments) {
    if (arguments.empty()) return;
    const std::size_t equals = arguments.front().find('=');
    if (equals != std::string::npos) {
        const std::string whole = arguments.front();
        arguments.front() = whole.substr(0, equals);
        arguments.insert(arguments.begin() + 1, whole.substr(equals + 1));
    }
    if (arguments.size() > 2 && arguments[2] == "over") arguments.erase(arguments.begin() + 2);
}

std::string usage(const VerbSpec& spec) {
    return std::string(spec.word) + (spec.arguments.empty() ? "" : " ") + std::string(spec.arguments);
}

}  // namespace

std::span<const VerbSpec> verbs() {
    return kVerbs;
}

const VerbSpec& spec_of(Verb verb) {
    return *std::ranges::find(kVerbs, verb, &VerbSpec::verb);
}

bool is_done_to_vehicle(Verb verb) {
    switch (verb) {
        case Verb::suspect:
        case Verb::strike:
        case Verb::hint:
        case Verb::done:
            return false;
        default:
            return true;
    }
}

tl::expected<Action, std::string> read_action(std::string_view text) {
    std::vector<std::string> words = words_in(text);
    if (words.empty()) return tl::unexpected(std::string("nothing was said; help tells what can be done"));
    const auto spec = std::ranges::find(kVerbs, words.front(), &VerbSpec::word);
    if (spec == kVerbs.end()) {
        std::vector<std::string_view> known;
        known.reserve(kVerbs.size());
        for (const VerbSpec& each : kVerbs) known.push_back(each.word);
        std::string hint = did_you_mean(words.front(), known);
        if (words.front() == "repair" || words.front() == "fix")
            hint = "; mend a wire, contact or plug, or replace a part";
        return tl::unexpected("'" + words.front() + "' is nothing one can do here" +
                              (hint.empty() ? "; help tells what is" : hint));
    }
    words.erase(words.begin());
    if (takes_setting(spec->verb)) take_apart_setting(words);
    const int count = static_cast<int>(words.size());
    const bool has_empty = std::ranges::any_of(words, &std::string::empty);
    if (count < spec->least || count > spec->most || has_empty)
        return tl::unexpected("expected is: " + usage(*spec));
    return Action{spec->verb, std::move(words)};
}

std::string action_text(const Action& action) {
    std::string text(spec_of(action.verb).word);
    for (std::size_t i = 0; i < action.arguments.size(); ++i) {
        const bool is_value = takes_setting(action.verb) && i == 1;
        const bool is_ramp = action.verb == Verb::set && i == 2;
        text += (is_value ? "=" : is_ramp ? " over " : " ") + action.arguments[i];
    }
    return text;
}

}  // namespace halfsplit::practice
