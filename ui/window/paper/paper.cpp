#include "ui/window/paper/paper.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "ui/view/diagram/draw.h"
#include "ui/window/frame/colours.h"
#include "ui/window/paper/draw_marks.h"
#include "ui/window/paper/screen_canvas.h"

namespace halfsplit::window {

namespace {

/// How near one has to come to a point, in pixels at 100 %.
constexpr double kReachPx = 9;
/// How far the mouse may move in a click, in pixels at 100 %.
constexpr double kClickPx = 5;
constexpr double kZoomStep = 1.2;
constexpr double kReadablePxPerUnit = 2;
/// Ways back that are remembered.
constexpr std::size_t kMostViews = 50;
/// Capitals are 6 pixels high then.
constexpr double kLegiblePxPerUnit = 1.6;

}  // namespace

void Paper::turn_to(int page) {
    page_ = page;
    fit_next_ = Fit::readable;
}

void Paper::note_view() {
    if (before_.size() == kMostViews) before_.erase(before_.begin());
    before_.push_back({page_, viewport_});
}

bool Paper::go_on(const DrawnCircuit& drawn, const Pick& pick) {
    const auto found = find_further(drawn, pick, page_);
    if (found) show(*found);
    return found.has_value();
}

void Paper::go_back() {
    if (before_.empty()) return;
    page_ = before_.back().page;
    viewport_ = before_.back().viewport;
    before_.pop_back();
}

void Paper::show(const Found& found) {
    note_view();
    page_ = found.page;
    show_next_ = found;
}

void Paper::zoom(double factor) {
    const ScreenBox& screen = viewport_.screen();
    viewport_.zoom(factor, screen.centre_x(), screen.centre_y());
}

void Paper::steer(const Frame& frame) {
    const ImGuiIO& io = ImGui::GetIO();
    if (ImGui::IsItemHovered() && io.MouseWheel != 0)
        viewport_.zoom(std::pow(kZoomStep, io.MouseWheel), io.MousePos.x, io.MousePos.y);
    if (ImGui::IsItemActivated()) {
        // The way of the mouse until it is pressed, which may be in this same frame, is no dragging.
        dragged_px_ = 0;
        is_dragged_ = false;
        return;
    }
    if (!ImGui::IsItemActive()) return;
    dragged_px_ += std::abs(io.MouseDelta.x) + std::abs(io.MouseDelta.y);
    is_dragged_ = dragged_px_ > frame.px(kClickPx);
    if (is_dragged_) viewport_.pan(io.MouseDelta.x, io.MouseDelta.y);
}

void Paper::name_landmarks(const Frame& frame, const view::diagram::Diagram& diagram) const {
    if (!frame.landmarks->is_kept()) return;
    const ScreenBox& screen = viewport_.screen();
    const auto put = [&](const std::string& name, double left, double top, double right, double bottom) {
        const ScreenBox box{viewport_.x_px(left), viewport_.y_px(top), viewport_.x_px(right),
                            viewport_.y_px(bottom)};
        if (screen.contains(box.centre_x(), box.centre_y())) frame.landmarks->put(name, box);
    };
    for (const auto& symbol : diagram.symbols) {
        put("part:" + symbol.part, symbol.ink.left, symbol.ink.top, symbol.ink.right, symbol.ink.bottom);
        for (const auto& terminal : symbol.terminals)
            put("point:" + terminal.point, terminal.at.x - 1, terminal.at.y - 1, terminal.at.x + 1,
                terminal.at.y + 1);
    }
    for (const auto& label : diagram.labels)
        if (label.role == view::diagram::Label::Role::reference)
            put("reference:" + label.leads_to + "@" + std::to_string(label.page + 1), label.box.left,
                label.box.top, label.box.right, label.box.bottom);
    for (const auto& wire : diagram.wires) {
        const std::size_t leg = wire.path.size() < 2 ? 0 : (wire.path.size() - 1) / 2;
        if (wire.path.size() < 2) continue;
        const double x = (wire.path[leg].x + wire.path[leg + 1].x) / 2.0;
        const double y = (wire.path[leg].y + wire.path[leg + 1].y) / 2.0;
        put("wire:" + wire.wire, x - 1, y - 1, x + 1, y + 1);
    }
}

/// What leads somewhere looks as if it did.
void Paper::underline_references(const Frame& frame, const view::diagram::Diagram& diagram) const {
    for (const auto& label : diagram.labels) {
        if (label.role != view::diagram::Label::Role::reference) continue;
        const float y = viewport_.y_px(label.box.bottom);
        ImGui::GetWindowDrawList()->AddLine({viewport_.x_px(label.box.left), y},
                                            {viewport_.x_px(label.box.right), y}, packed(frame.theme.mark));
    }
}

PaperDeed Paper::draw(const Frame& frame, const DrawnCircuit& drawn, const Marks& marks) {
    const ImVec2 from = ImGui::GetCursorScreenPos();
    ImVec2 room = ImGui::GetContentRegionAvail();
    room = {std::max(room.x, 50.0F), std::max(room.y, 50.0F)};
    viewport_.set_screen({from.x, from.y, from.x + room.x, from.y + room.y});
    page_ = std::clamp(page_, 0, static_cast<int>(drawn.pages.size()) - 1);
    const view::diagram::Diagram& diagram = drawn.pages[at(page_)].diagram;
    if (fit_next_ == Fit::all) viewport_.fit(diagram.bounds);
    if (fit_next_ == Fit::readable)
        viewport_.fit_readable(diagram.bounds, kLegiblePxPerUnit * std::min(frame.scale, 1.25));
    if (show_next_) viewport_.centre_on({show_next_->x, show_next_->y}, kReadablePxPerUnit * frame.scale);
    fit_next_ = Fit::no;
    show_next_.reset();

    ImGui::InvisibleButton("paper", room,
                           ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonRight |
                               ImGuiButtonFlags_MouseButtonMiddle);
    frame.landmarks->put("paper", viewport_.screen());
    steer(frame);

    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.PushClipRect(from, {from.x + room.x, from.y + room.y}, true);
    list.AddRectFilled(from, {from.x + room.x, from.y + room.y}, packed(frame.theme.desk));
    list.AddRectFilled({viewport_.x_px(diagram.bounds.left), viewport_.y_px(diagram.bounds.top)},
                       {viewport_.x_px(diagram.bounds.right), viewport_.y_px(diagram.bounds.bottom)},
                       packed(frame.theme.paper));
    draw_marks_below(list, viewport_, frame, diagram, marks);
    ScreenCanvas canvas(list, viewport_, frame);
    view::diagram::draw(diagram, canvas);
    underline_references(frame, diagram);
    draw_marks_above(list, viewport_, frame, diagram, marks);
    list.PopClipRect();
    name_landmarks(frame, diagram);

    PaperDeed deed;
    if (!ImGui::IsItemHovered()) return deed;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const view::diagram::Place place = viewport_.place_at(mouse.x, mouse.y);
    deed.near = pick_at(diagram, place.x, place.y, frame.px(kReachPx) / viewport_.px_per_unit());
    const bool was_dragged = is_dragged_;
    if (!ImGui::IsItemActive()) is_dragged_ = false;
    if (was_dragged) return deed;
    if (const auto target = reference_at(drawn, page_, place.x, place.y)) {
        ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
        deed.near.reset();
        if (ImGui::IsMouseReleased(ImGuiMouseButton_Left) && ImGui::IsItemDeactivated()) show(*target);
        return deed;
    }
    if (ImGui::IsMouseReleased(ImGuiMouseButton_Left) && ImGui::IsItemDeactivated()) {
        deed.first = deed.near;
        deed.beside = !deed.near;
    }
    if (ImGui::IsMouseReleased(ImGuiMouseButton_Right) && ImGui::IsItemDeactivated()) deed.second = deed.near;
    return deed;
}

}  // namespace halfsplit::window
