#include "engine/practice/results/class_table.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "engine/practice/scenario/scenario.h"

namespace halfsplit::practice {

namespace {

double median(std::vector<double> values) {
    if (values.empty()) return 0;
    std::ranges::sort(values);
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

class Sum {
  public:
    void add(const Result& result, const Job& job) {
        ++standing_.sessions;
        standing_.slips += result.slips;
        standing_.hints += result.hints;
        standing_.for_nothing += result.for_nothing;
        if (!result.is_right) return;
        ++standing_.right;
        if (job.best_min > 0) slowness_.push_back(result.minutes / job.best_min);
    }
    Standing standing(const std::string& who, const std::string& skill) const {
        Standing standing = standing_;
        standing.who = who;
        standing.skill = skill;
        standing.slowness = median(slowness_);
        standing.slips /= standing.sessions;
        standing.hints /= standing.sessions;
        standing.for_nothing /= standing.sessions;
        return standing;
    }

  private:
    Standing standing_;
    std::vector<double> slowness_;
};

std::vector<Standing> standings(const ClassResults& results, bool by_skill) {
    std::map<std::pair<std::string, std::string>, Sum> sums;
    for (const Result& result : results.results) {
        const Job* job = results.find_job(result.content);
        if (job == nullptr || !result.is_over) continue;
        sums[{result.who, by_skill ? job->skill : ""}].add(result, *job);
    }
    std::vector<Standing> rows;
    rows.reserve(sums.size());
    for (const auto& [key, sum] : sums) rows.push_back(sum.standing(key.first, key.second));
    return rows;
}

/// Laplace, Essai philosophique sur les probabilites (1814): (right + 1) / (tried + 2).
double likely_right(const Standing& standing) {
    return (standing.right + 1.0) / (standing.sessions + 2.0);
}

int next_level(const ClassResults& results, const std::string& who, const std::string& skill) {
    int highest = 0;
    for (const Result& result : results.results) {
        const Job* job = results.find_job(result.content);
        if (job != nullptr && result.who == who && result.is_right && job->skill == skill)
            highest = std::max(highest, job->level);
    }
    return std::min(highest + 1, kLevels);
}

std::vector<std::string> jobs_for(const ClassResults& results, const std::string& who,
                                  const std::string& skill, int level) {
    std::set<std::string> got_right;
    for (const Result& result : results.results)
        if (result.who == who && result.is_right) got_right.insert(result.content);
    std::vector<const Job*> jobs;
    for (const Job& job : results.jobs)
        if (job.skill == skill && !got_right.contains(job.content) && std::abs(job.level - level) <= 1)
            jobs.push_back(&job);
    std::ranges::stable_sort(jobs, {}, [level](const Job* job) { return std::abs(job->level - level); });
    std::vector<std::string> ids;
    ids.reserve(jobs.size());
    for (const Job* job : jobs) ids.push_back(job->id);
    return ids;
}

}  // namespace

const Job* ClassResults::find_job(const std::string& content) const {
    const auto found = std::ranges::find(jobs, content, &Job::content);
    return found == jobs.end() ? nullptr : &*found;
}

std::vector<Standing> class_table(const ClassResults& results) {
    return standings(results, false);
}

std::vector<Standing> skill_table(const ClassResults& results) {
    return standings(results, true);
}

std::optional<Recommendation> practise_next(const ClassResults& results, const std::string& who) {
    std::vector<Standing> own = skill_table(results);
    std::erase_if(own, [&](const Standing& each) { return each.who != who; });
    if (own.empty()) return std::nullopt;
    std::set<std::string> tried;
    for (const Standing& each : own) tried.insert(each.skill);
    const auto weakest = std::ranges::min_element(own, {}, likely_right);
    Recommendation next{weakest->skill, next_level(results, who, weakest->skill), {}, ""};
    next.why = std::to_string(weakest->right) + " of " + std::to_string(weakest->sessions) + " were right";
    for (const Job& job : results.jobs) {
        const bool is_new = !tried.contains(job.skill);
        if (!is_new || likely_right(*weakest) < 0.5) continue;
        next = {job.skill, next_level(results, who, job.skill), {}, "not tried yet"};
        break;
    }
    next.jobs = jobs_for(results, who, next.skill, next.level);
    return next;
}

}  // namespace halfsplit::practice
