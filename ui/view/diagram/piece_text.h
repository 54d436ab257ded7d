#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/piece.h"

namespace halfsplit::view::diagram {

// Heights of rows' contents, in grid units.
inline constexpr int kStub = 6;            ///< a line's end beside the name of its pin
inline constexpr int kTwoPoleHeight = 26;  ///< stub, symbol of 7 mm, stub
inline constexpr int kCouplingHeight = 14;
inline constexpr int kTableRow = 7;  ///< a position of a switch drawn as a table

/// Id with value, then the title in lines.
std::vector<std::string> lines_beside(const model::Part& part, const Piece& piece);

/// Slots a piece needs for these texts, if they begin at `text_x`: as few as keep them to four lines.
int width_beside(const model::Part& part, int text_x);

/// From the last pin to the texts, past the symbol and the names of its pins.
int text_gap(const model::Part& part, const Piece& piece);

/// Slots a box needs for its id and title in at most three lines.
int width_inside(const model::Part& part);
std::vector<std::string> lines_inside(const model::Part& part, int width);

/// Of the sign in a box that is no plain control unit: what an alternator or sender does.
inline constexpr int kPictogram = 14;
int pictogram_height(Shape shape);

int unit_height(const model::Part& part, const Piece& piece);

/// Slots for the names of a switch's positions beside its table.
int table_text_slots(const model::Part& part);

bool is_changeover(const model::Part& part);

}  // namespace halfsplit::view::diagram
