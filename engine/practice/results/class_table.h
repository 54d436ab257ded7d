#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/practice/results/result.h"

namespace halfsplit::practice {

/// All results of a class with the jobs they are about.
struct ClassResults {
    std::vector<Job> jobs;
    std::vector<Result> results;

    const Job* find_job(const std::string& content) const;
};

/// How somebody did, over all their sessions or those of one skill. Only what was handed back counts.
struct Standing {
    std::string who;
    std::string skill;  ///< "" over all
    int sessions = 0;
    int right = 0;
    /// Minutes against those of the best strategy, the median of what was right; 0 where nothing was.
    double slowness = 0;
    double slips = 0;        ///< cautions not heeded, per session
    double hints = 0;        ///< per session
    double for_nothing = 0;  ///< good parts replaced, per session

    double right_share() const { return sessions == 0 ? 0 : static_cast<double>(right) / sessions; }
};

/// One row a person, by name.
std::vector<Standing> class_table(const ClassResults& results);

/// One row a person and skill, by name and then by skill.
std::vector<Standing> skill_table(const ClassResults& results);

/// What somebody should practise next, and why.
struct Recommendation {
    std::string skill;
    int level = 1;
    std::vector<std::string>
        jobs;  ///< ids of known jobs of that skill near that level that were not got right yet
    std::string why;
};

/// The skill that was got right least often (a share that is known from few sessions counts as nearer to one
/// half, Laplace's rule of succession), at the level above the highest that was got right. nullopt where
/// somebody has no results.
std::optional<Recommendation> practise_next(const ClassResults& results, const std::string& who);

}  // namespace halfsplit::practice
