#include "ui/view/diagram/rank.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

/// The lower node's rank is at least the upper one's and `gap`.
struct Edge {
    int upper = 0;
    int lower = 0;
    int gap = 0;
};

/// Pieces are the first nodes, splices follow.
class Ranker {
  public:
    Ranker(const model::Circuit& circuit, const Sheet& sheet, const Heights& heights)
        : circuit_(circuit), sheet_(sheet), heights_(heights), counts_(sheet.lead_counts()) {}

    Ranks rank() {
        find_edges();
        order_nodes();
        push_down();
        pull_down();
        put_grounds_last();
        return result();
    }

  private:
    int piece_count() const { return static_cast<int>(sheet_.pieces.size()); }
    int node_count() const { return piece_count() + static_cast<int>(sheet_.splices.size()); }
    int node_of(const End& end) const { return end.is_splice() ? piece_count() + end.splice : end.piece; }
    bool is_ground(int node) const {
        return node < piece_count() && sheet_.pieces[at(node)].shape == Shape::ground;
    }
    bool hub(const End& end) const { return end.is_splice() || counts_[at(end.piece)][at(end.port)] > 1; }

    double height(int node) const {
        if (node >= piece_count()) return heights_.mean(sheet_.splices[at(node - piece_count())].part);
        const Piece& piece = sheet_.pieces[at(node)];
        return heights_.mean(piece.part);
    }

    /// Whether leads leave this end downwards; nullopt for a splice, which does not mind.
    std::optional<bool> leaves_down(const End& end) const {
        if (end.is_splice()) return std::nullopt;
        return sheet_.port(end).side == Side::bottom;
    }

    void find_edges() {
        leads_above_.assign(at(node_count()), 0);
        leads_below_.assign(at(node_count()), 0);
        for (const Lead& lead : sheet_.leads) {
            const auto a_down = leaves_down(lead.a);
            const auto b_down = leaves_down(lead.b);
            if (a_down && b_down && *a_down == *b_down) {
                auto& count = *a_down ? leads_below_ : leads_above_;
                ++count[at(node_of(lead.a))];
                ++count[at(node_of(lead.b))];
                continue;
            }
            bool a_is_upper = height(node_of(lead.a)) <= height(node_of(lead.b));
            if (a_down)
                a_is_upper = *a_down;
            else if (b_down)
                a_is_upper = !*b_down;
            if (a_is_upper)
                add_edge(lead.a, lead.b);
            else
                add_edge(lead.b, lead.a);
        }
    }

    void add_edge(const End& upper, const End& lower) {
        int gap = hub(upper) && hub(lower) ? 1 : 0;
        if (!lower.is_splice()) ++gap;
        edges_.push_back({node_of(upper), node_of(lower), gap});
        ++leads_below_[at(node_of(upper))];
        ++leads_above_[at(node_of(lower))];
    }

    /// Topological order; an edge that would close a circle is dropped.
    void order_nodes() {
        std::vector<std::vector<int>> down(at(node_count()));
        for (int edge = 0; edge < static_cast<int>(edges_.size()); ++edge)
            down[at(edges_[at(edge)].upper)].push_back(edge);
        std::vector<int> starts(at(node_count()));
        std::iota(starts.begin(), starts.end(), 0);
        std::stable_sort(starts.begin(), starts.end(), [&](int a, int b) { return height(a) < height(b); });
        marks_.assign(at(node_count()), Mark::fresh);
        is_dropped_.assign(edges_.size(), false);
        for (const int start : starts)
            if (marks_[at(start)] == Mark::fresh) visit_from(start, down);
        std::reverse(order_.begin(), order_.end());
        keep_edges();
    }

    /// Search in depth; what is finished first stands last.
    void visit_from(int start, const std::vector<std::vector<int>>& down) {
        struct Frame {
            int node = 0;
            std::size_t next = 0;
        };
        std::vector<Frame> stack{{start}};
        marks_[at(start)] = Mark::open;
        while (!stack.empty()) {
            Frame& frame = stack.back();
            const auto& edges = down[at(frame.node)];
            if (frame.next == edges.size()) {
                marks_[at(frame.node)] = Mark::done;
                order_.push_back(frame.node);
                stack.pop_back();
                continue;
            }
            const int edge = edges[frame.next++];
            const int lower = edges_[at(edge)].lower;
            if (marks_[at(lower)] == Mark::open) is_dropped_[at(edge)] = true;
            if (marks_[at(lower)] != Mark::fresh) continue;
            marks_[at(lower)] = Mark::open;
            stack.push_back({lower});
        }
    }

    void keep_edges() {
        std::vector<Edge> kept;
        for (std::size_t edge = 0; edge < edges_.size(); ++edge)
            if (!is_dropped_[edge]) kept.push_back(edges_[edge]);
        edges_ = std::move(kept);
        above_.resize(at(node_count()));
        below_.resize(at(node_count()));
        for (int edge = 0; edge < static_cast<int>(edges_.size()); ++edge) {
            below_[at(edges_[at(edge)].upper)].push_back(edge);
            above_[at(edges_[at(edge)].lower)].push_back(edge);
        }
    }

    std::optional<int> authored_row(int node) const {
        if (node >= piece_count()) return std::nullopt;
        const auto& hint = circuit_.parts[at(sheet_.pieces[at(node)].part)].at;
        return hint ? std::optional<int>(std::max(0, hint->row - 1)) : std::nullopt;
    }

    /// As high as what feeds it allows.
    void push_down() {
        rank_.assign(at(node_count()), 0);
        for (const int node : order_) {
            int value = node < piece_count() ? 0 : -1;
            for (const int edge : above_[at(node)])
                value = std::max(value, rank_[at(edges_[at(edge)].upper)] + edges_[at(edge)].gap);
            rank_[at(node)] = authored_row(node).value_or(value);
        }
    }

    /// What has more to do with things below than above goes down to them. Contacts of a coupling do so too
    /// where it is all one: so those of one coupling that lead to one unit stand side by side.
    void pull_down() {
        for (const int node : std::vector<int>(order_.rbegin(), order_.rend())) {
            if (below_[at(node)].empty() || authored_row(node)) continue;
            const int pull = leads_below_[at(node)] - leads_above_[at(node)];
            const bool is_coupling = node < piece_count() && sheet_.pieces[at(node)].shape == Shape::coupling;
            if (pull < 0 || (pull == 0 && !is_coupling)) continue;
            int lowest = std::numeric_limits<int>::max();
            for (const int edge : below_[at(node)])
                lowest = std::min(lowest, rank_[at(edges_[at(edge)].lower)] - edges_[at(edge)].gap);
            rank_[at(node)] = std::max(rank_[at(node)], lowest);
        }
    }

    void put_grounds_last() {
        int last = 0;
        for (int node = 0; node < piece_count(); ++node) last = std::max(last, rank_[at(node)]);
        for (int node = 0; node < piece_count(); ++node)
            if (is_ground(node) && !authored_row(node)) rank_[at(node)] = last;
    }

    Ranks result() const {
        Ranks ranks;
        ranks.row.assign(rank_.begin(), rank_.begin() + piece_count());
        ranks.splice_channel.assign(rank_.begin() + piece_count(), rank_.end());
        for (const int row : ranks.row) ranks.row_count = std::max(ranks.row_count, row + 1);
        for (const int channel : ranks.splice_channel)
            ranks.row_count = std::max(ranks.row_count, channel + 1);
        for (const auto& counts : counts_) {
            auto& hubs = ranks.is_hub.emplace_back();
            for (const int count : counts) hubs.push_back(count > 1);
        }
        return ranks;
    }

    const model::Circuit& circuit_;
    const Sheet& sheet_;
    const Heights& heights_;
    std::vector<std::vector<int>> counts_;
    std::vector<Edge> edges_;
    std::vector<std::vector<int>> above_;  ///< edges to each node from above
    std::vector<std::vector<int>> below_;
    std::vector<int> leads_above_;
    std::vector<int> leads_below_;
    enum class Mark { fresh, open, done };
    std::vector<Mark> marks_;  ///< of the search
    std::vector<bool> is_dropped_;
    std::vector<int> order_;
    std::vector<int> rank_;
};

}  // namespace

int Ranks::channel_of(const Sheet& sheet, const End& end) const {
    if (end.is_splice()) return splice_channel[at(end.splice)];
    return sheet.port(end).side == Side::bottom ? row[at(end.piece)] : row[at(end.piece)] - 1;
}

bool Ranks::hub(const End& end) const {
    return end.is_splice() || is_hub[at(end.piece)][at(end.port)];
}

Ranks rank(const model::Circuit& circuit, const Sheet& sheet, const Heights& heights) {
    return Ranker(circuit, sheet, heights).rank();
}

}  // namespace halfsplit::view::diagram
