#include "engine/practice/verdict/foresight.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/sheet/sign_words.h"

namespace halfsplit::practice {

using diagnosis::Dictionary;
using diagnosis::Finding;

namespace {

/// Seen otherwise by so many lamps, motors and the like: misread all, that would be less likely than anything
/// that is kept (see likeness.h).
constexpr int kTooMany = 7;

/// Nobody who looks round sees a fuse.
bool is_seen_at_a_glance(const model::Circuit& circuit, const Finding& finding) {
    if (finding.kind != Finding::Kind::sign) return false;
    const model::Part* part = circuit.find_part(finding.at);
    return part == nullptr || !diagnosis::is_fuse(*part);
}

}  // namespace

Foresight::Foresight(const Session& session, const Expertise& expertise)
    : circuit_(&session.circuit()), dictionary_(&expertise.consultation->dictionary()) {
    arrives_in_ = dictionary_->index_of_state(session.circuit().states[at(session.scenario().arrives_in)].id);
    const int count = static_cast<int>(session.entries().size());
    for (int i = 0; i < count; ++i) {
        const Action& action = session.entries()[at(i)].action;
        if (action.verb == Verb::state) {
            entry_ = i;
            state_ = dictionary_->index_of_state(action.arguments.front());
            break;
        }
        if (action.verb == Verb::done) return;
        if (is_done_to_vehicle(action.verb) && action.verb != Verb::look) return;
        was_looked_at_first_ = was_looked_at_first_ || action.verb == Verb::look;
    }
    const bool is_known = state_ >= 0 && (arrives_in_ >= 0 || !was_looked_at_first_);
    if (is_known)
        take(session);
    else
        entry_ = -1;
}

void Foresight::take(const Session& session) {
    const auto sources = diagnosis::sign_sources(session.circuit());
    for (const Observed& each : session.entries()[at(entry_)].observed) {
        const diagnosis::SignSource* source = find_sign_source(sources, each.about);
        const int finding = dictionary_->index_of_finding({Finding::Kind::sign, each.about, {}});
        if (source == nullptr || finding < 0 || dictionary_->does_pulse(state_, finding)) continue;
        if (const auto sign = read_sign(source->shows, each.what))
            seen_.push_back({finding, static_cast<int>(*sign)});
    }
}

bool Foresight::looks_sound_at_first(int row) const {
    if (!was_looked_at_first_) return true;
    for (int finding = 0; finding < static_cast<int>(dictionary_->findings.size()); ++finding) {
        if (!is_seen_at_a_glance(*circuit_, dictionary_->findings[at(finding)])) continue;
        const double value = dictionary_->value(arrives_in_, row, finding);
        if (!std::isnan(value) && value != dictionary_->value(arrives_in_, 0, finding)) return false;
    }
    return true;
}

bool Foresight::rules_out(int fault) const {
    if (entry_ < 0) return false;
    const int row = fault + 1;
    const auto is_otherwise = [&](const Seen& seen) {
        const double value = dictionary_->value(state_, row, seen.finding);
        return !std::isnan(value) && value != seen.sign;
    };
    return std::ranges::count_if(seen_, is_otherwise) >= kTooMany && looks_sound_at_first(row);
}

}  // namespace halfsplit::practice
