#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/geometry.h"
#include "ui/view/diagram/heights.h"

namespace halfsplit::view::diagram {

/// Lanes for vertical lines stand this far apart: room beside each for a colour such as "GNWH" in level
/// letters.
inline constexpr int kSlot = 18;
/// Pins stand in the middle of their slot; the edges between slots are free for lines that have to step
/// aside.
inline constexpr int kHalfSlot = kSlot / 2;

/// Where a line can come to a piece: at a pin, or at the place where a mechanism takes hold of it.
struct Port {
    int pin = -1;  ///< -1: the mechanism's
    Side side = Side::top;
    int slot = 0;
    Spot at = {};  ///< where the line ends, from the piece's left top corner; set by dress()
};

/// A symbol with its texts, to be put into a row. Coordinates are from its left top corner.
struct Piece {
    int part = -1;
    Shape shape = Shape::box;
    int width = 1;   ///< in slots
    int height = 0;  ///< in grid units
    std::vector<Port> ports = {};
    int text_x = 0;           ///< where the texts beside the symbol begin
    int body = 1;             ///< slots the symbol itself takes, where it is a table
    bool free_order = false;  ///< the pins of one side may change places
    Box ink = {};
    std::vector<Label> labels = {};
    std::vector<Spot> link = {};  ///< from the symbol to the port of the mechanism
};

/// The pieces a part is drawn as, pins turned to supply or ground; not yet dressed. `is_wired` says of each
/// of its pins whether a wire is on it, `is_linked` whether a mechanism moves it or it moves a mechanism.
std::vector<Piece> pieces_of(const model::Circuit& circuit, int part, const Heights& heights,
                             const std::vector<bool>& is_wired, bool is_linked);

/// Sets ink, labels and where lines end, once the slots of the ports are final.
void dress(Piece& piece, const model::Circuit& circuit);

/// Middle of a slot, from the left of the piece.
constexpr int slot_middle(int slot) {
    return slot * kSlot + kHalfSlot;
}

}  // namespace halfsplit::view::diagram
