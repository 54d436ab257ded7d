#pragma once

#include <vector>

#include "ui/window/paper/free_room.h"
#include "ui/window/paper/marks.h"
#include "ui/window/paper/pencil.h"

namespace halfsplit::window {

/// Where the points of that name are on the page: a terminal of each of a part's symbols, a splice's rail.
std::vector<view::diagram::Spot> spots_of(const view::diagram::Diagram& diagram, const std::string& point);

/// Takes the room that leads will cover, so that nothing is written there.
void take_lead_room(const Pencil& pencil, FreeRoom& room, const view::diagram::Diagram& diagram,
                    const std::vector<LeadMark>& leads);

void draw_leads(const Pencil& pencil, const view::diagram::Diagram& diagram,
                const std::vector<LeadMark>& leads);

}  // namespace halfsplit::window
