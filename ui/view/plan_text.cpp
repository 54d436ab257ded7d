#include "ui/view/plan_text.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/base/number.h"
#include "ui/view/table.h"

namespace halfsplit::view {

using diagnosis::plan::DecisionTree;
using diagnosis::plan::FaultTable;
using diagnosis::plan::Plan;
using diagnosis::plan::PlanProgress;

namespace {

/// Four significant digits or so, without idle zeros: "2.18", "0.004", "1234".
std::string cost_text(double cost) {
    const double size = std::abs(cost);
    const int whole_digits = size >= 1 ? static_cast<int>(std::log10(size)) + 1 : 0;
    const double step = std::pow(10.0, std::max(0, 4 - whole_digits));
    return number_text(std::round(cost * step) / step);
}

std::string percent_text(double share) {
    const double percent = 100 * share;
    if (percent > 0 && percent < 0.01) return "below 0.01 %";
    return number_text(std::round(percent * 100) / 100) + " %";
}

std::string all_of(const FaultTable& table, const std::vector<int>& faults) {
    std::string text;
    for (std::size_t i = 0; i < faults.size(); ++i)
        text += (i == 0 ? "" : i + 1 == faults.size() ? " and " : ", ") + table.faults[at(faults[i])].name;
    return text;
}

double prior_of(const FaultTable& table, const std::vector<int>& faults) {
    double sum = 0;
    for (const int fault : faults) sum += table.faults[at(fault)].prior;
    return sum;
}

std::string end_text(const FaultTable& table, const std::vector<int>& faults) {
    std::string text;
    for (std::size_t i = 0; i < faults.size(); ++i)
        text += (i == 0 ? "" : i + 1 == faults.size() ? " or " : ", ") + table.faults[at(faults[i])].name;
    return text + " (" + percent_text(prior_of(table, faults)) + ")";
}

bool costs_differ(const FaultTable& table) {
    return std::ranges::any_of(
        table.tests, [&](const FaultTable::Test& test) { return test.cost != table.tests.front().cost; });
}

std::string test_text(const FaultTable& table, int test) {
    const FaultTable::Test& each = table.tests[at(test)];
    return "test " + each.name + (costs_differ(table) ? " (cost " + number_text(each.cost) + ")" : "");
}

/// Walks without recursion: a tree is as deep as there are tests.
std::string tree_text(const FaultTable& table, const DecisionTree& tree) {
    struct Line {
        int node;
        std::size_t depth;
        std::string before;
    };
    std::string text;
    std::vector<Line> open{{0, 0, ""}};
    while (!open.empty()) {
        const Line line = open.back();
        open.pop_back();
        const DecisionTree::Node& node = tree.nodes[at(line.node)];
        text += std::string(2 * line.depth, ' ') + line.before;
        text += node.test < 0 ? end_text(table, node.faults) : test_text(table, node.test);
        text += "\n";
        for (auto branch = node.branches.rbegin(); branch != node.branches.rend(); ++branch)
            open.push_back({branch->node, line.depth + 1,
                            table.tests[at(node.test)].outcomes[at(branch->outcome)] + ": "});
    }
    return text;
}

std::string quality_text(const Plan& plan) {
    const std::string cost = "Expected cost " + cost_text(plan.expected_cost) + ", by the method " +
                             std::string(name_of(plan.method)) + ". ";
    return plan.proved ? cost + "No order of tests costs less.\n"
                       : cost + "Whether one costs less is not proved: none costs less than " +
                             cost_text(plan.lower_bound) + ".\n";
}

std::vector<std::vector<int>> tied(const FaultTable& table) {
    auto groups = ambiguity_groups(table);
    std::erase_if(groups, [](const std::vector<int>& group) { return group.size() < 2; });
    return groups;
}

nlohmann::ordered_json names_of(const FaultTable& table, const std::vector<int>& faults) {
    auto names = nlohmann::ordered_json::array();
    for (const int fault : faults) names.push_back(table.faults[at(fault)].name);
    return names;
}

nlohmann::ordered_json node_json(const FaultTable& table, const DecisionTree& tree, int number) {
    const DecisionTree::Node& node = tree.nodes[at(number)];
    nlohmann::ordered_json json;
    if (node.test < 0) {
        json["faults"] = names_of(table, node.faults);
        json["probability"] = prior_of(table, node.faults);
        return json;
    }
    const FaultTable::Test& test = table.tests[at(node.test)];
    json["test"] = test.name;
    json["cost"] = test.cost;
    auto& outcomes = json["outcomes"] = nlohmann::ordered_json::object();
    for (const DecisionTree::Branch& branch : node.branches)
        outcomes[test.outcomes[at(branch.outcome)]] = node_json(table, tree, branch.node);
    return json;
}

}  // namespace

std::string plan_text(const FaultTable& table, const Plan& plan) {
    std::string text = tree_text(table, plan.tree) + "\n" + quality_text(plan);
    for (const auto& group : tied(table)) text += "No test here tells " + all_of(table, group) + " apart.\n";
    return text;
}

std::string plan_json(const FaultTable& table, const Plan& plan) {
    nlohmann::ordered_json json;
    json["expected_cost"] = plan.expected_cost;
    json["tree"] = node_json(table, plan.tree, 0);
    json["method"] = name_of(plan.method);
    json["lower_bound"] = plan.lower_bound;
    json["proved"] = plan.proved;
    json["groups"] = nlohmann::ordered_json::array();
    for (const auto& group : tied(table)) json["groups"].push_back(names_of(table, group));
    return json.dump(2);
}

std::string progress_text(const PlanProgress& progress) {
    const std::string begin =
        std::string(name_of(progress.method)) + ": " + std::to_string(progress.done) + " of ";
    if (progress.method != diagnosis::plan::Method::optimal)
        return begin + std::to_string(progress.of) + " faults have their place";
    return begin + "at most " + std::to_string(progress.of) +
           " sets of faults looked at, expected cost between " + cost_text(progress.lower_bound) + " and " +
           cost_text(progress.expected_cost);
}

}  // namespace halfsplit::view
