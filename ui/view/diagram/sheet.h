#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/piece.h"

namespace halfsplit::view::diagram {

/// What a lead ends on: a port of a piece, or a splice.
struct End {
    int piece = -1;
    int port = -1;
    int splice = -1;

    bool is_splice() const { return splice >= 0; }
};

/// A wire, or the dashed line between a mechanism and what it moves or is moved by.
struct Lead {
    int wire = -1;   ///< -1: a mechanical link
    int moved = -1;  ///< of a link: the part at the other end of it than the mechanism
    End a;
    End b;
};

/// A splice with wires: no symbol, but a rail in a channel between two rows.
struct SpliceRail {
    int part = -1;
    std::string see;  ///< the other bands it goes on in: "1, 3"
};

/// What is laid out as one: pieces, rails and what joins them.
struct Sheet {
    std::vector<Piece> pieces;
    std::vector<SpliceRail> splices;
    std::vector<Lead> leads;

    const Port& port(const End& end) const;
    /// How many leads end on each port of each piece.
    std::vector<std::vector<int>> lead_counts() const;
};

/// All that is selected, on one sheet.
Sheet sheet_of(const model::Circuit& circuit, const Selection& selection, const Heights& heights);

}  // namespace halfsplit::view::diagram
