#include "ui/view/diagram/columns.h"

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <utility>
#include <vector>

#include "engine/base/index.h"
#include "ui/view/diagram/column_cost.h"
#include "ui/view/diagram/neighbours.h"
#include "ui/view/diagram/row_places.h"
#include "ui/view/diagram/squeeze.h"

namespace halfsplit::view::diagram {

namespace {

constexpr int kSweeps = 10;
constexpr int kAuthorWeight = 1000;
constexpr int kSwapPasses = 4;
constexpr int kSiftPasses = 3;
/// Longer rows would take longer than a reader waits for a picture.
constexpr std::size_t kMostSifted = 40;

struct Order {
    std::vector<std::vector<int>> rows;
    std::vector<Piece> pieces;  ///< for the slots of their ports
    std::vector<Item> items;
    long cost = 0;
};

class Columns {
  public:
    Columns(Grid& grid, const model::Circuit& circuit)
        : grid_(grid), circuit_(circuit), neighbours_(grid), author_x_(grid.items.size()) {}

    void arrange() {
        note_author_columns();
        start();
        const bool has_hints =
            std::any_of(author_x_.begin(), author_x_.end(), [](const auto& x) { return x.has_value(); });
        std::optional<Order> best;
        for (int sweep = 0; sweep <= kSweeps; ++sweep) {
            if (sweep > 0) reorder(sweep % 2 == 1 ? Look::up : Look::down);
            place({Look::up, Look::both});
            turn_pins();
            place({Look::up, Look::down, Look::both, Look::up, Look::both});
            // The order to begin with does not know the author's columns.
            if (sweep == 0 && has_hints) continue;
            const long cost = cost_now();
            if (!best || cost < best->cost) best = order_now(cost);
        }
        take(*best);
        swap_neighbours();
        sift();
        turn_pins();
        place({Look::up, Look::down, Look::both, Look::up, Look::both});
        if (cost_now() > best->cost) take(*best);
        start_at_zero();
        if (has_hints) return;
        close_gaps();
        squeeze(grid_);
    }

  private:
    void note_author_columns() {
        for (std::size_t item = 0; item < grid_.items.size(); ++item) {
            const int piece = grid_.items[item].piece;
            if (piece < 0) continue;
            const auto& hint = circuit_.parts[at(grid_.sheet.pieces[at(piece)].part)].at;
            if (hint) author_x_[item] = (hint->column - 1) * kColumnSlots;
        }
    }

    void pack(std::vector<int>& row) {
        int x = 0;
        for (const int item : row) {
            grid_.items[at(item)].x = x;
            x += grid_.items[at(item)].width;
        }
    }

    void sort_by(std::vector<int>& row, const std::vector<double>& key) {
        std::stable_sort(row.begin(), row.end(), [&](int a, int b) { return key[at(a)] < key[at(b)]; });
    }

    void start() {
        std::vector<double> key(grid_.items.size(), 0);
        double number = 0;
        for (const int item : neighbours_.depth_first(grid_)) key[at(item)] = number++;
        for (auto& row : grid_.rows) {
            sort_by(row, key);
            pack(row);
        }
    }

    void reorder(Look look) {
        const int rows = static_cast<int>(grid_.rows.size());
        for (int step = 0; step < rows; ++step) {
            auto& row = grid_.rows[at(look == Look::up ? step : rows - 1 - step)];
            std::vector<double> key(grid_.items.size(), 0);
            for (const int item : row) key[at(item)] = wish(item, look);
            sort_by(row, key);
        }
    }

    double wish(int item, Look look) const {
        if (author_x_[at(item)]) return *author_x_[at(item)];
        double sum = 0;
        int weights = 0;
        std::vector<Vote> votes;
        neighbours_.add_votes(grid_, item, look, votes);
        for (const Vote& vote : votes) {
            sum += vote.x * vote.weight;
            weights += vote.weight;
        }
        return weights > 0 ? sum / weights : grid_.items[at(item)].x;
    }

    void place(std::initializer_list<Look> looks) {
        const int rows = static_cast<int>(grid_.rows.size());
        for (const Look look : looks)
            for (int step = 0; step < rows; ++step)
                place_row(look == Look::down ? rows - 1 - step : step, look);
        for (int row = rows - 1; row >= 0; --row) place_row(row, Look::both);
    }

    Order order_now(long cost) const { return {grid_.rows, grid_.sheet.pieces, grid_.items, cost}; }
    void take(const Order& order) {
        grid_.rows = order.rows;
        grid_.sheet.pieces = order.pieces;
        grid_.items = order.items;
    }

    void place_row(int number, Look look) {
        const std::vector<int>& row = grid_.rows[at(number)];
        wishes_.clear();
        for (const int item : row) {
            wishes_.widths.push_back(grid_.items[at(item)].width);
            if (author_x_[at(item)])
                wishes_.votes.push_back({*author_x_[at(item)], kAuthorWeight});
            else if (!neighbours_.add_votes(grid_, item, look, wishes_.votes) &&
                     !neighbours_.add_votes(grid_, item, Look::both, wishes_.votes))
                wishes_.votes.push_back({grid_.items[at(item)].x, 1});
            wishes_.ends.push_back(static_cast<int>(wishes_.votes.size()));
        }
        find_row_places(wishes_, places_);
        for (std::size_t i = 0; i < row.size(); ++i) grid_.items[at(row[i])].x = places_[i];
    }

    /// Pins of units change places on their side so that lines to them cross less.
    void turn_pins() {
        for (int item = 0; item < static_cast<int>(grid_.items.size()); ++item) {
            const int piece = grid_.items[at(item)].piece;
            if (piece < 0 || !grid_.sheet.pieces[at(piece)].free_order) continue;
            for (const Side side : {Side::top, Side::bottom}) turn_side(item, side);
        }
    }

    void turn_side(int item, Side side) {
        Piece& piece = grid_.sheet.pieces[at(grid_.items[at(item)].piece)];
        struct Wanted {
            int port = 0;
            double slot = 0;
        };
        std::vector<Wanted> wanted;
        std::vector<int> slots;
        for (int port = 0; port < static_cast<int>(piece.ports.size()); ++port) {
            const Port& here = piece.ports[at(port)];
            if (here.side != side || here.pin < 0) continue;
            slots.push_back(here.slot);
            const double own = grid_.items[at(item)].x + here.slot;
            wanted.push_back({port, neighbours_.target(grid_, item, port).value_or(own)});
        }
        std::stable_sort(wanted.begin(), wanted.end(),
                         [](const Wanted& a, const Wanted& b) { return a.slot < b.slot; });
        std::sort(slots.begin(), slots.end());
        for (std::size_t i = 0; i < slots.size(); ++i) piece.ports[at(wanted[i].port)].slot = slots[i];
    }

    long cost_now() const { return column_cost(grid_); }

    /// Neighbours in a row change places where that makes lines shorter or cross less.
    void swap_neighbours() {
        for (int pass = 0; pass < kSwapPasses; ++pass) {
            bool any = false;
            for (int row = 0; row < static_cast<int>(grid_.rows.size()); ++row)
                for (std::size_t i = 0; i + 1 < grid_.rows[at(row)].size(); ++i)
                    any = try_swap(row, i) || any;
            if (!any) return;
        }
    }

    bool try_swap(int number, std::size_t first) {
        std::vector<int>& row = grid_.rows[at(number)];
        if (author_x_[at(row[first])] && author_x_[at(row[first + 1])]) return false;
        const long before = row_cost(grid_, number);
        std::vector<int> places;
        places.reserve(row.size());
        for (const int item : row) places.push_back(grid_.items[at(item)].x);
        std::swap(row[first], row[first + 1]);
        place_row(number, Look::both);
        if (row_cost(grid_, number) < before) return true;
        std::swap(row[first], row[first + 1]);
        for (std::size_t i = 0; i < row.size(); ++i) grid_.items[at(row[i])].x = places[i];
        return false;
    }

    /// Each item of a row is tried at every place of it: over neighbours that swapping one by one would have
    /// to make worse first.
    void sift() {
        if (std::any_of(author_x_.begin(), author_x_.end(), [](const auto& x) { return x.has_value(); }))
            return;
        for (int pass = 0; pass < kSiftPasses; ++pass) {
            bool any = false;
            for (int row = 0; row < static_cast<int>(grid_.rows.size()); ++row)
                if (const std::vector<int> items = grid_.rows[at(row)]; items.size() <= kMostSifted)
                    for (const int item : items) any = sift_item(row, item) || any;
            if (!any) return;
        }
    }

    bool sift_item(int number, int item) {
        std::vector<int>& row = grid_.rows[at(number)];
        const RowState before = row_state(number);
        RowState best = before;
        long least = row_cost(grid_, number);
        bool any = false;
        std::erase(row, item);
        const std::vector<int> others = row;
        for (std::size_t place = 0; place <= others.size(); ++place) {
            row = others;
            row.insert(row.begin() + static_cast<std::ptrdiff_t>(place), item);
            if (row == before.items) continue;
            place_row(number, Look::both);
            if (const long cost = row_cost(grid_, number); cost < least) {
                least = cost;
                best = row_state(number);
                any = true;
            }
            set_row(number, before);
        }
        set_row(number, best);
        return any;
    }

    struct RowState {
        std::vector<int> items;
        std::vector<int> xs;
    };
    RowState row_state(int number) const {
        RowState state{grid_.rows[at(number)], {}};
        for (const int item : state.items) state.xs.push_back(grid_.items[at(item)].x);
        return state;
    }
    void set_row(int number, const RowState& state) {
        grid_.rows[at(number)] = state.items;
        for (std::size_t i = 0; i < state.items.size(); ++i) grid_.items[at(state.items[i])].x = state.xs[i];
    }

    /// Columns in which nothing stands in any row are taken out.
    void close_gaps() {
        std::vector<bool> taken;
        for (const Item& item : grid_.items) {
            taken.resize(std::max(taken.size(), at(item.x + item.width)), false);
            for (int slot = item.x; slot < item.x + item.width; ++slot) taken[at(slot)] = true;
        }
        std::vector<int> empty_before(taken.size() + 1, 0);
        for (std::size_t slot = 0; slot < taken.size(); ++slot)
            empty_before[slot + 1] = empty_before[slot] + (taken[slot] ? 0 : 1);
        for (Item& item : grid_.items) item.x -= empty_before[at(item.x)];
    }

    void start_at_zero() {
        int left = 1 << 30;
        for (const Item& item : grid_.items) left = std::min(left, item.x);
        for (Item& item : grid_.items) item.x -= left;
    }

    Grid& grid_;
    const model::Circuit& circuit_;
    Neighbours neighbours_;
    std::vector<std::optional<int>> author_x_;
    RowWishes wishes_;  // kept for their memory
    std::vector<int> places_;
};

}  // namespace

void arrange_columns(Grid& grid, const model::Circuit& circuit) {
    if (grid.items.empty()) return;
    Columns(grid, circuit).arrange();
}

}  // namespace halfsplit::view::diagram
