#pragma once

#include <string>

namespace halfsplit::practice {

/// A job that sessions were about.
struct Job {
    std::string content;  ///< tells jobs apart: the same text, the same job
    std::string id;
    std::string title;
    std::string circuit;  ///< its title
    std::string skill;    ///< see skill_of()
    int level = 1;
    double best_min = 0;  ///< of the best strategy
    double budget_min = 0;

    friend bool operator==(const Job&, const Job&) = default;
};

/// How one session went.
struct Result {
    std::string session;  ///< its id
    std::string who;
    std::string content;  ///< of its job
    std::string begun;    ///< ISO 8601, UTC
    bool is_over = false;
    bool is_right = false;
    double minutes = 0;
    int questions = 0;
    int hints = 0;
    int slips = 0;
    int for_nothing = 0;  ///< good parts that were replaced

    friend bool operator==(const Result&, const Result&) = default;
};

}  // namespace halfsplit::practice
