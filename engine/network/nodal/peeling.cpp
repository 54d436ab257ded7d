#include "engine/network/nodal/peeling.h"

#include <algorithm>

namespace halfsplit::network {

namespace {

/// A node with more links than this is not searched for parallel ones each time it gains a link (a fuse box
/// with a thousand circuits would be searched a thousand times), but once per pass over what is left.
constexpr int kSearchedAtOnce = 6;

/// One sweep in so many is over nodes with two neighbours although there are some with one.
constexpr int kSweepsOfEnds = 12;

}  // namespace

Peeling::Peeling(int node_count, std::span<const Link> links)
    : halves_(2 * links.size()),
      first_half_(index(node_count), -1),
      neighbours_(index(node_count), 0),
      seen_(index(node_count), -1),
      touched_(index(node_count), 0),
      removed_(index(node_count), 0),
      waiting_(index(node_count), 0) {
    int half = 0;
    for (const auto& [a, b] : links) {
        halves_[index(half)] = {b, half + 1, first_half_[index(a)]};
        first_half_[index(a)] = half++;
        halves_[index(half)] = {a, half - 1, first_half_[index(b)]};
        first_half_[index(b)] = half++;
        ++neighbours_[index(a)];
        ++neighbours_[index(b)];
    }
}

void Peeling::drop(int half) {
    halves_[index(half)].node = kDead;
}

/// Queues a node for a later sweep if it can be removed, and keeps it out of the present one.
void Peeling::touch(int node) {
    touched_[index(node)] = sweep_;
    if (neighbours_[index(node)] > 2) return;
    const bool is_end = neighbours_[index(node)] < 2;
    const char list = is_end ? 2 : 1;
    if (waiting_[index(node)] >= list) return;
    waiting_[index(node)] = list;
    (is_end ? ends_ : twos_).push_back(node);
}

void Peeling::drop_parallel_links(int node) {
    int* link_in = &first_half_[index(node)];
    for (int half = *link_in; half >= 0; half = halves_[index(half)].next) {
        Half& own = halves_[index(half)];
        if (own.node == kDead) {
            *link_in = own.next;
            continue;
        }
        if (seen_[index(own.node)] == node) {
            drop(own.twin);
            --neighbours_[index(node)];
            --neighbours_[index(own.node)];
            touch(own.node);
            own.node = kDead;
            *link_in = own.next;
            continue;
        }
        seen_[index(own.node)] = node;
        link_in = &own.next;
    }
    // A later search from the same node must not take these marks for its own.
    for (int half = first_half_[index(node)]; half >= 0; half = halves_[index(half)].next)
        seen_[index(halves_[index(half)].node)] = -1;
}

/// The halves that pointed at a removed node, one owned by a and one by b, become the two halves of a link
/// a-b; unless there is one already, as far as that is quickly found.
void Peeling::join(int a_half, int b_half) {
    Half& of_a = halves_[index(a_half)];
    Half& of_b = halves_[index(b_half)];
    of_a.twin = b_half;
    of_b.twin = a_half;
    const bool search_a = neighbours_[index(of_b.node)] <= neighbours_[index(of_a.node)];
    const int owner = search_a ? of_b.node : of_a.node;
    const int other = search_a ? of_a.node : of_b.node;
    if (neighbours_[index(owner)] > kSearchedAtOnce) return;
    for (int* link_in = &first_half_[index(owner)]; *link_in >= 0;) {
        const Half& own = halves_[index(*link_in)];
        if (own.node == kDead) {
            *link_in = own.next;
            continue;
        }
        if (own.node == other && *link_in != a_half && *link_in != b_half) {
            drop(a_half);
            drop(b_half);
            --neighbours_[index(owner)];
            --neighbours_[index(other)];
            return;
        }
        link_in = &halves_[index(*link_in)].next;
    }
}

void Peeling::remove(int node) {
    int found[2] = {-1, -1};
    int count = 0;
    for (int half = first_half_[index(node)]; half >= 0; half = halves_[index(half)].next)
        if (halves_[index(half)].node != kDead) found[count++] = half;
    removed_[index(node)] = 1;
    if (count == 0) return;
    const int a = halves_[index(found[0])].node;
    const int a_half = halves_[index(found[0])].twin;
    const int b = count == 2 ? halves_[index(found[1])].node : a;
    if (a == b) {
        for (int i = 0; i < count; ++i) drop(halves_[index(found[i])].twin);
        neighbours_[index(a)] -= count;
    } else {
        const int b_half = halves_[index(found[1])].twin;
        halves_[index(a_half)].node = b;
        halves_[index(b_half)].node = a;
        join(a_half, b_half);
        touch(b);
    }
    touch(a);
}

void Peeling::sweep(std::vector<int>& waiting, std::vector<int>& order) {
    ++sweep_;
    now_.swap(waiting);
    waiting.clear();
    for (const int node : now_) {
        if (removed_[index(node)]) continue;
        waiting_[index(node)] = 0;
        if (touched_[index(node)] == sweep_) {
            touch(node);
            continue;
        }
        order.push_back(node);
        remove(node);
    }
}

bool Peeling::drop_all_parallel_links() {
    ++sweep_;
    for (int node = 0; node < static_cast<int>(removed_.size()); ++node)
        if (!removed_[index(node)]) {
            const int before = neighbours_[index(node)];
            drop_parallel_links(node);
            if (neighbours_[index(node)] != before) touch(node);
        }
    return !ends_.empty() || !twos_.empty();
}

std::vector<int> Peeling::peel() {
    std::vector<int> order;
    order.reserve(removed_.size());
    for (int node = 0; node < static_cast<int>(removed_.size()); ++node) touch(node);
    do {
        for (int sweeps_of_ends = 0; !ends_.empty() || !twos_.empty();) {
            const bool take_ends = !ends_.empty() && (twos_.empty() || ++sweeps_of_ends % kSweepsOfEnds != 0);
            sweep(take_ends ? ends_ : twos_, order);
        }
    } while (order.size() < removed_.size() && drop_all_parallel_links());
    return order;
}

std::vector<Link> Peeling::core_links() const {
    std::vector<Link> links;
    for (int node = 0; node < static_cast<int>(removed_.size()); ++node) {
        if (removed(node)) continue;
        for (int half = first_half_[index(node)]; half >= 0; half = halves_[index(half)].next)
            if (const int other = halves_[index(half)].node; other > node) links.push_back({node, other});
    }
    return links;
}

}  // namespace halfsplit::network
