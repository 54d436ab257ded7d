#include "engine/network/nodal/inverse_rows.h"

#include <algorithm>
#include <numeric>

#include "engine/base/index.h"

namespace halfsplit::network {

InverseRows::InverseRows(const Elimination& elimination, std::span<const int> columns)
    : elimination_(elimination), columns_(columns), depth_(at(elimination.pattern().columns())) {
    find_way();
    find_flows();
    const int deepest = depth_.empty() ? 0 : *std::ranges::max_element(depth_);
    rows_.resize(at(deepest + 1) * columns_.size());
}

/// A column's place is behind its parent's and behind all that is eliminated into the siblings placed before.
void InverseRows::find_way() {
    const EliminationPattern& pattern = elimination_.pattern();
    const int n = pattern.columns();
    std::vector<int> size(at(n), 1);
    for (int p = 0; p < n; ++p)
        if (const int parent = pattern.parent(p); parent >= 0) size[at(parent)] += size[at(p)];
    std::vector<int> next(at(n));  // where its next child goes
    int next_root = 0;
    way_.resize(at(n));
    for (int p = n - 1; p >= 0; --p) {
        const int parent = pattern.parent(p);
        int& place = parent < 0 ? next_root : next[at(parent)];
        way_[at(place)] = p;
        next[at(p)] = place + 1;
        place += size[at(p)];
        depth_[at(p)] = parent < 0 ? 0 : depth_[at(parent)] + 1;
    }
}

void InverseRows::find_flows() {
    const EliminationPattern& pattern = elimination_.pattern();
    std::vector<double> flow(depth_.size());
    std::vector<Flow> found;
    for (std::size_t k = 0; k < columns_.size(); ++k) {
        flow[at(columns_[k])] = 1;
        for (int p = columns_[k]; p >= 0; p = pattern.parent(p)) {
            for (int e = pattern.start[at(p)]; e < pattern.start[at(p) + 1]; ++e)
                flow[at(pattern.row[at(e)])] += elimination_.ratio(e) * flow[at(p)];
            found.push_back({p, k, flow[at(p)] * elimination_.own_ohm(p)});
            flow[at(p)] = 0;
        }
    }
    first_flow_.assign(depth_.size() + 1, 0);
    for (const Flow& each : found) ++first_flow_[at(each.column) + 1];
    std::partial_sum(first_flow_.begin(), first_flow_.end(), first_flow_.begin());
    flows_.resize(found.size());
    std::vector<int> next(first_flow_.begin(), first_flow_.end() - 1);
    for (const Flow& each : found) flows_[at(next[at(each.column)]++)] = each;
}

void InverseRows::fill(int column) {
    const EliminationPattern& pattern = elimination_.pattern();
    const std::size_t width = columns_.size();
    double* own = rows_.data() + at(depth_[at(column)]) * width;
    std::fill_n(own, width, 0.0);
    for (int i = first_flow_[at(column)]; i < first_flow_[at(column) + 1]; ++i)
        own[flows_[at(i)].of] = flows_[at(i)].ohm;
    for (int e = pattern.start[at(column)]; e < pattern.start[at(column) + 1]; ++e) {
        const double ratio = elimination_.ratio(e);
        const double* later = row(pattern.row[at(e)]);
        for (std::size_t k = 0; k < width; ++k) own[k] += ratio * later[k];
    }
}

void InverseRows::walk(const std::function<void(int column)>& hear) {
    for (const int column : way_) {
        fill(column);
        hear(column);
    }
}

}  // namespace halfsplit::network
