#include "ui/view/diagram/springs.h"

#include <cmath>
#include <numeric>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

/// Pulls every bead a little to the middle, so that what hangs on nothing has a place too.
constexpr double kToMiddle = 1e-13;
constexpr double kTolerance = 1e-28;  // squared length of the residual

double product(const std::vector<double>& a, const std::vector<double>& b) {
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

}  // namespace

int Springs::add_bead() {
    springs_.emplace_back();
    held_.push_back(false);
    rest_.push_back(0.5);
    return static_cast<int>(springs_.size()) - 1;
}

void Springs::join(int a, int b, double length) {
    springs_[at(a)].push_back({b, 1 / length});
    springs_[at(b)].push_back({a, 1 / length});
}

void Springs::hold(int bead, double place) {
    held_[at(bead)] = true;
    rest_[at(bead)] = place;
}

std::vector<double> Springs::pull(const std::vector<double>& places) const {
    std::vector<double> pull(places.size(), 0);
    for (std::size_t bead = 0; bead < places.size(); ++bead) {
        if (held_[bead]) continue;
        pull[bead] = kToMiddle * (0.5 - places[bead]);
        for (const Spring& spring : springs_[bead])
            pull[bead] += spring.stiffness * (places[at(spring.to)] - places[bead]);
    }
    return pull;
}

std::vector<double> Springs::at_rest() const {
    std::vector<double> places = rest_;
    const std::size_t count = places.size();
    std::vector<double> weight(count, 0);
    for (std::size_t bead = 0; bead < count; ++bead) {
        if (held_[bead]) continue;
        double stiffness = kToMiddle;
        for (const Spring& spring : springs_[bead]) stiffness += spring.stiffness;
        weight[bead] = 1 / stiffness;
    }
    const auto weighted = [&](const std::vector<double>& from) {
        std::vector<double> result(count);
        for (std::size_t i = 0; i < count; ++i) result[i] = weight[i] * from[i];
        return result;
    };
    // pull() is affine; without what is held it is minus the matrix of the springs.
    const std::vector<double> base = pull(std::vector<double>(count, 0));
    std::vector<double> residual = pull(places);
    std::vector<double> direction = weighted(residual);
    double energy = product(residual, direction);
    for (std::size_t step = 0; step < 4 * count && product(residual, residual) > kTolerance; ++step) {
        std::vector<double> along = pull(direction);
        for (std::size_t i = 0; i < count; ++i) along[i] = base[i] - along[i];
        const double bend = product(direction, along);
        if (bend <= 0) break;
        const double far = energy / bend;
        for (std::size_t i = 0; i < count; ++i) {
            places[i] += far * direction[i];
            residual[i] -= far * along[i];
        }
        const std::vector<double> next = weighted(residual);
        const double next_energy = product(residual, next);
        for (std::size_t i = 0; i < count; ++i) direction[i] = next[i] + next_energy / energy * direction[i];
        energy = next_energy;
    }
    return places;
}

}  // namespace halfsplit::view::diagram
