#include "engine/network/nodal/ordering.h"

#include <amd.h>

#include <cstddef>
#include <stdexcept>

#include "engine/network/nodal/peeling.h"

namespace halfsplit::network {

namespace {

std::size_t index(int i) {
    return static_cast<std::size_t>(i);
}

/// Both halves of every link, sorted by the node they leave: the column form libamd reads.
struct Columns {
    std::vector<int> start;
    std::vector<int> row;
};

Columns to_columns(int node_count, std::span<const Link> links) {
    Columns columns{std::vector<int>(index(node_count) + 1, 0), std::vector<int>(2 * links.size())};
    for (const auto& [a, b] : links) {
        ++columns.start[index(a) + 1];
        ++columns.start[index(b) + 1];
    }
    for (std::size_t i = 1; i < columns.start.size(); ++i) columns.start[i] += columns.start[i - 1];
    std::vector<int> end(columns.start.begin(), columns.start.end() - 1);
    for (const auto& [a, b] : links) {
        columns.row[index(end[index(a)]++)] = b;
        columns.row[index(end[index(b)]++)] = a;
    }
    return columns;
}

std::vector<int> minimum_degree_order(int node_count, std::span<const Link> links) {
    const Columns columns = to_columns(node_count, links);
    std::vector<int> order(index(node_count));
    const int status =
        amd_order(node_count, columns.start.data(), columns.row.data(), order.data(), nullptr, nullptr);
    if (status != AMD_OK && status != AMD_OK_BUT_JUMBLED) throw std::runtime_error("amd_order failed");
    return order;
}

}  // namespace

std::vector<int> elimination_order(int node_count, std::span<const Link> links) {
    Peeling peeling(node_count, links);
    std::vector<int> order = peeling.peel();
    if (order.size() == index(node_count)) return order;

    std::vector<int> core;
    std::vector<int> place(index(node_count), -1);
    for (int node = 0; node < node_count; ++node)
        if (!peeling.removed(node)) {
            place[index(node)] = static_cast<int>(core.size());
            core.push_back(node);
        }
    std::vector<Link> links_of_core = peeling.core_links();
    for (auto& [a, b] : links_of_core) {
        a = place[index(a)];
        b = place[index(b)];
    }
    for (const int i : minimum_degree_order(static_cast<int>(core.size()), links_of_core))
        order.push_back(core[index(i)]);
    return order;
}

}  // namespace halfsplit::network
