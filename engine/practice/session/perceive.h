#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/diagnosis/dictionary/sign.h"
#include "engine/model/circuit.h"
#include "engine/practice/session/observed.h"
#include "engine/practice/session/rhythm.h"
#include "engine/simulation/course_state.h"
#include "engine/simulation/settle.h"

namespace halfsplit::practice {

/// Where something that travels is.
struct Way {
    int percent = 0;  ///< of its travel
    bool moves = false;
};

/// What parts are seen, heard or felt to do.
struct Appearance {
    std::vector<diagnosis::Sign> signs;            ///< one per source
    std::vector<Rhythm> rhythms;                   ///< one per source
    std::map<std::string, Way> ways;               ///< of what travels, by the part's id
    std::map<std::string, int> relays;             ///< the condition each is in, by its id
    std::map<std::string, double> clicks_per_min;  ///< of relays that click again and again, by their ids
    bool is_awaited = false;                       ///< see Glance
};

/// Follows what a circuit shows to somebody who stands beside the vehicle. Borrows the circuit.
class Onlooker {
  public:
    explicit Onlooker(const model::Circuit& circuit);

    /// With the patience of glance_at().
    Appearance look_at(const simulation::Settled& settled, double patience_s = kGlanceS) const;

    /// All that is seen without opening anything.
    std::vector<Observed> describe(const Appearance& now) const;
    /// What does something, or is not as it was when somebody last looked; the rest is counted.
    std::vector<Observed> noteworthy(const std::optional<Appearance>& before, const Appearance& now) const;
    /// Of one source: its name. Empty where nothing has this name.
    std::vector<Observed> describe(const Appearance& now, const std::string& name) const;
    /// What is not as it was before.
    std::vector<Observed> changes(const Appearance& before, const Appearance& now) const;
    /// Where relays were heard that are not as they were before, or click again and again now and did not,
    /// for who brought the vehicle from one to the other.
    std::vector<Observed> clicks(const Appearance& before, const Appearance& now) const;
    /// Ids of those relays, and of those that clicked meanwhile.
    std::vector<std::string> relays_changed(const Appearance& before, const Appearance& now) const;
    std::vector<std::string> relays_in(const std::vector<simulation::CourseEvent>& events) const;
    /// What was heard and seen to move meanwhile. A relay is heard to click somewhere, not which it is.
    std::vector<Observed> happenings(const std::vector<simulation::CourseEvent>& events) const;

    const std::vector<diagnosis::SignSource>& sources() const { return sources_; }

  private:
    Observed of_source(const Appearance& now, std::size_t source) const;
    std::vector<Observed> clicking(const Appearance& now) const;

    const model::Circuit* circuit_;
    std::vector<diagnosis::SignSource> sources_;
};

}  // namespace halfsplit::practice
