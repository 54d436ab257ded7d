#include "ui/window/practise/seen.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/instruments/instrument.h"

namespace halfsplit::window {

using practice::Entry;
using practice::Observed;
using practice::Verb;

namespace {

/// What something looks like that shows little, 0 to 1.
constexpr double kWeakGlow = 0.4;
const char* const kInHand = "in hand";

/// "E4" of "E4.filament-a", "X3" of "X3.1"; "" where no part is named.
std::string part_named(const model::Circuit& circuit, const std::string& name) {
    if (circuit.find_part(name) != nullptr) return name;
    const std::string part = name.substr(0, name.find_last_of('.'));
    return circuit.find_part(part) == nullptr ? "" : part;
}

/// How far something that travels has come.
bool is_of_way(const Observed& observed) {
    return observed.what == "moves" || observed.shown == "stands at " + observed.what;
}

/// What goes on being so, and not what was heard once.
bool is_lasting(const Observed& observed) {
    return observed.shown == observed.what || is_of_way(observed) ||
           observed.shown.starts_with(observed.what + ", ");
}

class Witness {
  public:
    /// `standing`: numbers of the entries whose suspicion has not been struck out.
    Witness(const model::Circuit& circuit, std::vector<int> standing)
        : circuit_(circuit), standing_(std::move(standing)) {}

    void see(const Entry& entry) {
        if (changes_vehicle(entry.action.verb)) seen_.readings.clear();
        do_by_hand(entry.action);
        if (std::ranges::find(standing_, entry.number) != standing_.end()) suspect(entry.action.arguments);
        for (const practice::Slip& slip : entry.slips)
            if (slip.what == practice::kJumperBlew) seen_.jumper.reset();
        if (entry.action.verb == Verb::measure) return read(entry);
        if (entry.action.verb == Verb::record) return;
        for (const Observed& observed : entry.observed) look(observed, entry.action.verb);
    }

    Seen take() { return std::move(seen_); }

  private:
    void do_by_hand(const practice::Action& action) {
        const std::string& what = action.arguments.empty() ? nothing_ : action.arguments.front();
        switch (action.verb) {
            case Verb::pull:
                seen_.away[what] = "pulled";
                break;
            case Verb::unplug:
                seen_.away[what] = "unplugged";
                break;
            case Verb::push:
            case Verb::plug:
                seen_.away.erase(what);
                break;
            case Verb::fit:
            case Verb::replace:
                seen_.away.erase(what);
                renew(what);
                break;
            case Verb::mend:
                renew(part_named(circuit_, what));
                break;
            case Verb::swap:
                for (const std::string& relay : action.arguments) renew(relay);
                break;
            case Verb::bridge:
                seen_.jumper = {what, action.arguments.back()};
                break;
            case Verb::unbridge:
                seen_.jumper.reset();
                break;
            default:
                break;
        }
    }

    /// What was seen of the old one does not count for the new one.
    void renew(const std::string& part) {
        const auto found = seen_.parts.find(part);
        if (found == seen_.parts.end()) return;
        found->second.erase(kInHand);
        const model::Part* it = circuit_.find_part(part);
        if (it != nullptr && diagnosis::is_fuse(*it)) found->second.erase(part);
    }

    void suspect(const std::vector<std::string>& words) {
        for (const std::string& word : words) {
            const std::size_t colon = word.find(':');
            std::string name = colon == std::string::npos ? word : word.substr(colon + 1);
            while (!name.empty() && std::string_view(".,;:!?").find(name.back()) != std::string_view::npos)
                name.pop_back();
            const std::string on = circuit_.find_wire(name) != nullptr ? name : part_named(circuit_, name);
            if (!on.empty())
                seen_.suspects[on] = colon == std::string::npos ? "my suspect" : "my suspect: " + word;
        }
    }

    void read(const Entry& entry) {
        const instruments::Instrument* instrument =
            instruments::find_instrument(entry.action.arguments.front());
        if (entry.observed.empty() || instrument == nullptr ||
            instrument->connection != instruments::Connection::two_points)
            return;
        const std::vector<std::string>& arguments = entry.action.arguments;
        const bool has_other = arguments.size() > 2 && arguments[2] != "body";
        seen_.readings[arguments[1]] =
            entry.observed.front().shown + (has_other ? " to " + arguments[2] : "");
    }

    void look(const Observed& observed, Verb verb) {
        const std::string part = part_named(circuit_, observed.about);
        if (part.empty()) return;
        if (verb == Verb::inspect) {
            seen_.parts[part][kInHand] =
                (observed.about == part ? "" : observed.about + " ") +
                (observed.what == "in order" ? "inspected: in order" : "inspected: not in order");
        } else if (is_lasting(observed)) {
            seen_.parts[part][is_of_way(observed) ? observed.about + " way" : observed.about] =
                observed.shown;
        }
    }

    const model::Circuit& circuit_;
    std::vector<int> standing_;
    const std::string nothing_;
    Seen seen_;
};

double glow_of(const std::vector<diagnosis::SignSource>& sources, const std::string& source,
               const std::string& word) {
    const diagnosis::SignSource* found = diagnosis::find_sign_source(sources, source);
    if (found == nullptr || found->shows == diagnosis::Shows::fuse) return 0;
    const auto sign = diagnosis::read_sign(found->shows, word);
    if (sign == diagnosis::Sign::none) return 0;
    // What comes and goes has words of its own.
    return sign == diagnosis::Sign::weak ? kWeakGlow : 1;
}

}  // namespace

bool changes_vehicle(Verb verb) {
    const bool only_asks = verb == Verb::look || verb == Verb::measure || verb == Verb::inspect;
    return practice::is_done_to_vehicle(verb) && !only_asks;
}

Seen seen_in(const model::Circuit& circuit, std::span<const Entry> entries) {
    Witness witness(circuit, practice::standing_suspicions(entries));
    for (const Entry& entry : entries) witness.see(entry);
    return witness.take();
}

Marks marks_of(const model::Circuit& circuit, const std::vector<diagnosis::SignSource>& sources,
               const Seen& seen) {
    Marks marks;
    for (const auto& [part, looks] : seen.parts) {
        PartLook& look = marks.parts[part];
        for (const auto& [source, word] : looks) {
            look.words += (look.words.empty() ? "" : ", ") + word;
            look.glow = std::max(look.glow, glow_of(sources, source, word));
        }
    }
    for (const auto& [name, how] : seen.away)
        for (const model::Part& part : circuit.parts)
            if (part.id == name || part.plug == name) marks.away[part.id] = how;
    if (seen.jumper)
        for (const std::string& end : {seen.jumper->first, seen.jumper->second})
            if (end != "body") marks.leads.push_back({LeadMark::Pole::other, end, "J"});
    marks.notes = seen.readings;
    marks.doubts = seen.suspects;
    return marks;
}

}  // namespace halfsplit::window
