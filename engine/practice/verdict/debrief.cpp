#include "engine/practice/verdict/debrief.h"

namespace halfsplit::practice {

Debrief debrief_of(const Session& session, const Expertise& expertise, int threads,
                   const TellHindsight& tell) {
    Debrief debrief;
    debrief.best = best_way(expertise);
    debrief.verdict = verdict_of(session, debrief.best);
    debrief.hindsight = hindsight_of(session, expertise, threads, tell);
    debrief.physics = physics_of(session, debrief.hindsight);
    return debrief;
}

}  // namespace halfsplit::practice
