#include "engine/diagnosis/next_test/outcomes.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

namespace halfsplit::diagnosis {
namespace {

struct Predicted {
    Expectation expected;
    double probability = 0;
    int member = 0;
};

/// Rising by mean; what says nothing apart.
struct AllPredicted {
    std::vector<Predicted> telling;
    std::vector<Predicted> silent;
};

AllPredicted predicted(const Hypotheses& hypotheses, std::span<const int> asked,
                       std::span<const double> probability, const Test& test) {
    AllPredicted all;
    all.telling.reserve(asked.size());
    const Expecting expecting = hypotheses.expecting(test.state, test.finding);
    for (int member = 0; member < static_cast<int>(asked.size()); ++member) {
        const int hypothesis = asked[at(member)];
        const Expectation expected = expecting(hypotheses.values(hypothesis, test.state)[at(test.finding)],
                                               hypotheses.weighed_as(test.state));
        (expected.says_nothing() ? all.silent : all.telling)
            .push_back({expected, probability[at(member)], member});
    }
    std::ranges::sort(all.telling, {}, [](const Predicted& each) {
        return std::tuple(each.expected.mean, each.expected.sigma, each.member);
    });
    return all;
}

double plogp(double p) {
    return p > 0 ? p * std::log2(p) : 0;
}

/// Bits that outcomes carry about the cause: `channel` has a row a cause, with a probability per outcome.
double mutual_bits(const std::vector<double>& cause, const std::vector<double>& channel) {
    const std::size_t outcomes = channel.size() / cause.size();
    std::vector<double> sum(outcomes, 0.0);
    double bits = 0;
    for (std::size_t i = 0; i < cause.size(); ++i)
        for (std::size_t j = 0; j < outcomes; ++j) {
            const double p = channel[i * outcomes + j];
            sum[j] += cause[i] * p;
            bits += cause[i] * plogp(p);
        }
    for (const double p : sum) bits -= plogp(p);
    return std::max(bits, 0.0);
}

double bits_of_sign(const AllPredicted& all, double total, const Assumptions& assumptions) {
    std::vector<double> cause;
    std::vector<double> channel;
    const auto add = [&](const Predicted& each, double probability) {
        cause.push_back(probability / total);
        const auto sign = at(std::clamp(static_cast<int>(std::lround(each.expected.mean)), 0, 3));
        const auto& called = assumptions.called[sign];
        double sum = 0;
        for (const double p : called) sum += p;
        for (const double p : called)
            channel.push_back((1 - each.expected.nonsense) * p / sum +
                              each.expected.nonsense / static_cast<double>(called.size()));
    };
    // Signs are few: those that lead to the same are one cause.
    std::size_t begin = 0;
    double probability = 0;
    for (std::size_t i = 0; i < all.telling.size(); ++i) {
        const Expectation& first = all.telling[begin].expected;
        const Expectation& here = all.telling[i].expected;
        if (here.mean != first.mean || here.nonsense != first.nonsense) {
            add(all.telling[begin], probability);
            begin = i;
            probability = 0;
        }
        probability += all.telling[i].probability;
    }
    add(all.telling[begin], probability);
    return cause.size() < 2 ? 0 : mutual_bits(cause, channel);
}

/// Hypotheses so close that one stands for all of them.
struct Cluster {
    double mean = 0;
    double sigma = 0;
    double nonsense = 0;
    double probability = 0;
};

/// Neighbours are one from wherever `begins(first, each)` says so up to the next.
template <typename Begins>
std::vector<Cluster> clusters_of(const std::vector<Predicted>& telling, const Begins& begins) {
    std::vector<Cluster> clusters;
    const Predicted* first = nullptr;
    for (const Predicted& each : telling) {
        if (each.probability <= 0) continue;
        if (first == nullptr || begins(first->expected, each.expected)) {
            clusters.emplace_back();
            first = &each;
        }
        Cluster& last = clusters.back();
        last.mean += each.probability * each.expected.mean;
        last.sigma += each.probability * each.expected.sigma;
        last.nonsense += each.probability * each.expected.nonsense;
        last.probability += each.probability;
    }
    for (Cluster& cluster : clusters) {
        cluster.mean /= cluster.probability;
        cluster.sigma /= cluster.probability;
        cluster.nonsense /= cluster.probability;
    }
    return clusters;
}

/// Few enough for a table of them by themselves, and two at least where any differ.
std::vector<Cluster> few_clusters(const std::vector<Predicted>& telling) {
    constexpr std::size_t kMost = 40;
    std::vector<Cluster> clusters;
    for (double closeness = 0.5; clusters.empty() || clusters.size() > kMost; closeness *= 2)
        clusters = clusters_of(telling, [closeness](const Expectation& first, const Expectation& each) {
            return each.mean - first.mean > closeness * each.sigma;
        });
    if (clusters.size() > 1) return clusters;
    const double middle = (telling.front().expected.mean + telling.back().expected.mean) / 2;
    return clusters_of(telling, [middle](const Expectation& first, const Expectation& each) {
        return first.mean <= middle && each.mean > middle;
    });
}

double normal_below(double mean, double sigma, double edge) {
    return 0.5 * std::erfc((mean - edge) / sigma * std::numbers::sqrt2 / 2);
}

double bits_of_value(const AllPredicted& all, double total, double range) {
    const std::vector<Cluster> clusters = few_clusters(all.telling);
    const std::size_t count = clusters.size();
    if (count < 2) return 0;
    // A reading is taken for the cluster that is the fewest standard deviations away.
    std::vector<double> edges;
    for (std::size_t i = 1; i < count; ++i) {
        const Cluster& a = clusters[i - 1];
        const Cluster& b = clusters[i];
        edges.push_back((a.mean * b.sigma + b.mean * a.sigma) / (a.sigma + b.sigma));
    }
    const double middle = (clusters.front().mean + clusters.back().mean) / 2;
    const auto even_below = [&](double edge) {
        return std::clamp((edge - middle) / std::max(range, 1e-12) + 0.5, 0.0, 1.0);
    };
    std::vector<double> cause;
    std::vector<double> channel;
    for (const Cluster& cluster : clusters) {
        cause.push_back(cluster.probability / total);
        double below = 0;
        for (std::size_t j = 0; j < count; ++j) {
            const double up_to =
                j + 1 == count
                    ? 1
                    : (1 - cluster.nonsense) * normal_below(cluster.mean, cluster.sigma, edges[j]) +
                          cluster.nonsense * even_below(edges[j]);
            channel.push_back(std::max(up_to - below, 0.0));
            below = std::max(below, up_to);
        }
    }
    return mutual_bits(cause, channel);
}

/// Whether a reading that is due to one is within the limits of the other too.
bool is_one_outcome(Finding::Kind kind, const Expectation& lowest, const Expectation& other) {
    return !are_told_apart(kind, lowest, other);
}

}  // namespace

std::vector<Outcome> outcomes_of(const Hypotheses& hypotheses, std::span<const int> asked,
                                 std::span<const double> probability, const Test& test) {
    const AllPredicted all = predicted(hypotheses, asked, probability, test);
    const Finding::Kind kind = hypotheses.dictionary().findings[at(test.finding)].kind;
    std::vector<Outcome> outcomes;
    const Expectation* lowest = nullptr;
    for (const Predicted& each : all.telling) {
        if (lowest == nullptr || !is_one_outcome(kind, *lowest, each.expected)) {
            outcomes.push_back({each.expected.mean, each.expected.mean, 0, {}});
            lowest = &each.expected;
        }
        outcomes.back().high = each.expected.mean;
        outcomes.back().probability += each.probability;
        outcomes.back().members.push_back(each.member);
    }
    if (all.silent.empty()) return outcomes;
    if (outcomes.empty()) outcomes.emplace_back();
    Outcome& likeliest = *std::ranges::max_element(outcomes, {}, &Outcome::probability);
    for (const Predicted& each : all.silent) {
        likeliest.members.push_back(each.member);
        likeliest.probability += each.probability;
    }
    return outcomes;
}

double information_bits(const Hypotheses& hypotheses, std::span<const int> asked,
                        std::span<const double> probability, const Test& test) {
    const AllPredicted all = predicted(hypotheses, asked, probability, test);
    double telling = 0;
    for (const Predicted& each : all.telling) telling += each.probability;
    double total = telling;
    for (const Predicted& each : all.silent) total += each.probability;
    if (telling <= 0 || total <= 0) return 0;
    const Finding::Kind kind = hypotheses.dictionary().findings[at(test.finding)].kind;
    const double bits = kind == Finding::Kind::sign ? bits_of_sign(all, telling, hypotheses.assumptions())
                                                    : bits_of_value(all, telling, hypotheses.range(kind));
    // What says nothing is neither helped nor hurt.
    return bits * telling / total;
}

}  // namespace halfsplit::diagnosis
