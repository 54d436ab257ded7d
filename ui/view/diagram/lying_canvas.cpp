#include "ui/view/diagram/lying_canvas.h"

namespace halfsplit::view::diagram {

Symbol stood_up(Symbol symbol) {
    const int x = (symbol.ink.left + symbol.ink.right) / 2;
    const int y = (symbol.ink.top + symbol.ink.bottom) / 2;
    const int half_length = symbol.ink.width() / 2;
    const int half_thickness = symbol.ink.height() / 2;
    symbol.is_level = false;
    symbol.ink = {x - half_thickness, y - half_length, x + half_thickness, y + half_length};
    for (Terminal& terminal : symbol.terminals)
        terminal.at = {x, terminal.side == Side::top ? symbol.ink.top : symbol.ink.bottom};
    return symbol;
}

}  // namespace halfsplit::view::diagram
