#include "tests/support/quadruple.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <set>
#include <stdexcept>
#include <utility>

#include "engine/network/nodal/constants.h"

namespace halfsplit::test {

namespace {

__extension__ using Quadruple = __float128;
using network::Branch;
using network::kBody;

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// A sparse symmetric matrix by rows, and a right side.
class System {
  public:
    explicit System(int size) : row_(at(size)), right_(at(size)) {
        int i = 0;
        for (auto& row : row_) row[i++] = Quadruple(network::kLeakageSiemens);
    }

    void add(const Branch& branch) {
        const auto* source = std::get_if<model::Source>(&branch.law);
        const auto* resistance = std::get_if<model::Resistance>(&branch.law);
        if (source == nullptr && resistance == nullptr) throw std::invalid_argument("not a linear network");
        const Quadruple conductance =
            Quadruple(1) / Quadruple(source != nullptr ? source->ohm : resistance->ohm);
        const Quadruple injected = source != nullptr ? conductance * Quadruple(source->emf_v) : Quadruple(0);
        add_end(branch.from, branch.to, conductance, injected);
        add_end(branch.to, branch.from, conductance, -injected);
    }

    std::vector<double> solve() {
        std::vector<int> order = eliminate();
        std::reverse(order.begin(), order.end());
        std::vector<double> result(row_.size());
        for (const int node : order) {
            Quadruple sum = right_[at(node)];
            for (const auto& [column, value] : row_[at(node)])
                if (column != node) sum -= value * right_[at(column)];
            right_[at(node)] = sum / row_[at(node)][node];
            result[at(node)] = static_cast<double>(right_[at(node)]);
        }
        return result;
    }

  private:
    void add_end(int node, int other, Quadruple conductance, Quadruple injected) {
        if (node == kBody) return;
        row_[at(node)][node] += conductance;
        right_[at(node)] += injected;
        if (other != kBody) row_[at(node)][other] -= conductance;
    }

    std::vector<int> eliminate() {
        std::set<std::pair<std::size_t, int>> by_degree;
        for (std::size_t i = 0; i < row_.size(); ++i) by_degree.insert({row_[i].size(), static_cast<int>(i)});
        std::vector<int> order;
        while (!by_degree.empty()) {
            const int pivot = by_degree.begin()->second;
            by_degree.erase(by_degree.begin());
            order.push_back(pivot);
            for (const auto& [other, value] : row_[at(pivot)]) {
                if (other == pivot) continue;
                by_degree.erase({row_[at(other)].size(), other});
                subtract(pivot, other, value / row_[at(pivot)][pivot]);
                by_degree.insert({row_[at(other)].size(), other});
            }
        }
        return order;
    }

    void subtract(int pivot, int other, Quadruple factor) {
        for (const auto& [column, value] : row_[at(pivot)])
            if (column != pivot) row_[at(other)][column] -= factor * value;
        row_[at(other)].erase(pivot);
        right_[at(other)] -= factor * right_[at(pivot)];
    }

    std::vector<std::map<int, Quadruple>> row_;
    std::vector<Quadruple> right_;
};

}  // namespace

std::vector<double> quadruple_potentials(int node_count, std::span<const Branch> branches) {
    System system(node_count);
    for (const Branch& branch : branches)
        if (branch.conducts && branch.from != branch.to) system.add(branch);
    return system.solve();
}

}  // namespace halfsplit::test
