#include "ui/window/desk/desk.h"

#include <imgui.h>
#include <imgui_stdlib.h>

#include <algorithm>

#include "engine/base/index.h"
#include "ui/files/shelf.h"
#include "ui/window/author/author_mode.h"
#include "ui/window/diagnose/diagnose_mode.h"
#include "ui/window/frame/colours.h"
#include "ui/window/frame/keys.h"
#include "ui/window/frame/widgets.h"
#include "ui/window/practise/practise_mode.h"
#include "ui/window/recorder/recorder_screen.h"
#include "ui/window/study/study_mode.h"

namespace halfsplit::window {

namespace {

constexpr double kTrolleyPx = 384;
constexpr double kFieldPx = 180;
constexpr double kScaleStep = 0.25;
constexpr double kZoomStep = 1.25;
constexpr std::size_t kMostFound = 8;

/// On the same line, or on the next where this line has no room for it.
void beside(float width, float gap = -1) {
    ImGui::SameLine(0, gap);
    if (ImGui::GetContentRegionAvail().x < width) ImGui::NewLine();
}

void beside_button(const char* label, float gap = -1) {
    beside(ImGui::CalcTextSize(label).x + 2 * ImGui::GetStyle().FramePadding.x, gap);
}

bool pressed(Key key) {
    return ImGui::IsKeyPressed(static_cast<int>(key), false);
}

}  // namespace

Desk::Desk(const Liking& liking) : liking_(liking) {
    modes_.push_back(std::make_unique<PractiseMode>());
    modes_.push_back(std::make_unique<StudyMode>());
    modes_.push_back(std::make_unique<DiagnoseMode>());
    modes_.push_back(std::make_unique<AuthorMode>());
    waiting_.resize(modes_.size());
    frame_.landmarks = &landmarks_;
    frame_.theme = liking.dark ? dark_theme() : light_theme();
    frame_.scale = liking.scale;
}

void Desk::open(const std::string& path) {
    problems_.clear();
    path_ = path;
    const auto takes = [&path](const std::unique_ptr<Mode>& mode) { return mode->takes(path); };
    const auto first = std::ranges::find_if(modes_, takes);
    if (first == modes_.end()) {
        problems_ = {{{path, 0, 0}, "a circuit (.circuit.xml) or a job (.scenario.xml) is expected"}};
    } else {
        const int before = mode_;
        if (!mode().takes(path)) mode_ = static_cast<int>(first - modes_.begin());
        for (std::size_t i = 0; i < modes_.size(); ++i)
            if (takes(modes_[i]) && (static_cast<int>(i) == mode_ || !modes_[i]->gives_away(path)))
                waiting_[i] = path;
        hand_over();
        if (problems_.empty())
            paper_.turn_to(0);
        else
            mode_ = before;
    }
    seen_when_ = files::written_when(files_open());
}

/// To draw a whole vehicle takes a while: no mode need do that before it is turned to.
void Desk::hand_over() {
    std::string& waiting = waiting_[at(mode_)];
    if (waiting.empty()) return;
    problems_ = mode().open(waiting);
    waiting.clear();
}

/// What is open with all it includes; of what could not be read, the file alone.
std::vector<std::string> Desk::files_open() const {
    std::vector<std::string> paths{path_};
    for (const auto& each : modes_)
        if (const DrawnCircuit* drawn = each->drawn())
            paths.insert(paths.end(), drawn->circuit->files.begin(), drawn->circuit->files.end());
    return paths;
}

bool Desk::open_what_was_chosen() {
    const auto ended = choosing_.take();
    if (!ended) return false;
    if (*ended) open(**ended);
    return true;
}

bool Desk::look_around() {
    if (open_what_was_chosen()) return true;
    if (path_.empty()) return false;
    const std::string when = files::written_when(files_open());
    if (when == seen_when_) return false;
    seen_when_ = when;
    const int page = paper_.page();
    open(path_);
    paper_.turn_to(page);
    return true;
}

void Desk::change_mode(int mode) {
    look_around();
    mode_ = mode;
    if (waiting_[at(mode)].empty()) return;
    hand_over();
    seen_when_ = files::written_when(files_open());
}

void Desk::turn_to(std::string_view mode_id) {
    for (int i = 0; i < static_cast<int>(modes_.size()); ++i)
        if (modes_[at(i)]->id() == mode_id) change_mode(i);
}

bool Desk::is_lively() const {
    return modes_[at(mode_)]->is_lively();
}

bool Desk::take_change_of_looks() {
    const bool changed = looks_changed_;
    looks_changed_ = false;
    return changed;
}

void Desk::change_scale(double scale) {
    liking_.scale = std::clamp(scale, kLeastScale, kMostScale);
    frame_.scale = liking_.scale;
    looks_changed_ = true;
}

void Desk::change_ground() {
    liking_.dark = !liking_.dark;
    frame_.theme = liking_.dark ? dark_theme() : light_theme();
    looks_changed_ = true;
}

void Desk::find_field() {
    if (wants_find_) ImGui::SetKeyboardFocusHere();
    wants_find_ = false;
    const ImVec2 below{ImGui::GetCursorScreenPos().x,
                       ImGui::GetCursorScreenPos().y + ImGui::GetFrameHeight()};
    ImGui::PushItemWidth(frame_.px(kFieldPx));
    const bool entered = ImGui::InputTextWithHint("###find", "find: F7, blower, W12", &find_words_,
                                                  ImGuiInputTextFlags_EnterReturnsTrue);
    ImGui::PopItemWidth();
    name_last(frame_, "find");
    const bool is_typing = ImGui::IsItemActive();
    const DrawnCircuit* drawn = mode().drawn();
    if (find_words_.empty() || drawn == nullptr) return;
    const std::vector<Found> results = search(*drawn, find_words_, kMostFound);
    std::optional<Found> chosen;
    if (entered && !results.empty()) chosen = results.front();
    if (is_typing) {
        ImGui::SetNextWindowPos(below);
        ImGui::BeginTooltip();
        if (results.empty()) words("nothing of this name");
        for (const Found& result : results) {
            const model::Part* part = drawn->circuit->find_part(result.pick.name);
            const bool several = drawn->pages.size() > 1;
            words(result.pick.name + (part == nullptr ? "" : "  " + part->title) +
                  (several ? "  (" + drawn->pages[at(result.page)].title + ")" : ""));
        }
        ImGui::EndTooltip();
    }
    if (!chosen) return;
    paper_.show(*chosen);
    PaperDeed deed;
    deed.first = chosen->pick;
    mode().done_on_paper(deed);
    find_words_.clear();
}

void Desk::pages() {
    const DrawnCircuit* drawn = mode().drawn();
    if (drawn == nullptr || drawn->pages.size() < 2) return;
    std::vector<std::string> titles;
    titles.reserve(drawn->pages.size());
    for (const Page& page : drawn->pages) titles.push_back(page.title);
    int page = std::min(paper_.page(), static_cast<int>(titles.size()) - 1);
    beside(frame_.px(kFieldPx));
    ImGui::PushItemWidth(frame_.px(kFieldPx));
    if (ImGui::BeginCombo("###page", titles[at(page)].c_str())) {
        for (int i = 0; i < static_cast<int>(titles.size()); ++i)
            if (ImGui::Selectable(titles[at(i)].c_str(), i == page)) paper_.turn_to(i);
        ImGui::EndCombo();
    }
    ImGui::PopItemWidth();
    name_last(frame_, "page");
}

void Desk::bar() {
    const float gap = frame_.px(20);
    for (int i = 0; i < static_cast<int>(modes_.size()); ++i) {
        const std::string title(modes_[at(i)]->title());
        if (i > 0) beside_button(title.c_str());
        if (choice(frame_, "mode:" + std::string(modes_[at(i)]->id()), title, mode_ == i)) change_mode(i);
    }
    beside(frame_.px(kFieldPx), gap);
    find_field();
    pages();
    beside_button("All of it", gap);
    if (button(frame_, "paper:fit", "All of it")) paper_.fit();
    beside_button("+");
    if (button(frame_, "paper:closer", "+")) paper_.zoom(kZoomStep);
    beside_button("−");
    if (button(frame_, "paper:farther", "−")) paper_.zoom(1 / kZoomStep);
    beside_button("a", gap);
    if (button(frame_, "looks:smaller", "a")) change_scale(liking_.scale - kScaleStep);
    beside_button("A");
    if (button(frame_, "looks:larger", "A")) change_scale(liking_.scale + kScaleStep);
    beside_button("Light");
    if (button(frame_, "looks:dark", liking_.dark ? "Light" : "Dark")) change_ground();
    beside_button("Keys");
    if (button(frame_, "keys", "Keys")) shows_keys_ = !shows_keys_;
}

void Desk::body() {
    const float foot_height = ImGui::GetFrameHeightWithSpacing();
    const float trolley_width = std::min(frame_.px(kTrolleyPx), 0.6F * ImGui::GetContentRegionAvail().x);
    const float height = ImGui::GetContentRegionAvail().y - foot_height;
    const float paper_width =
        ImGui::GetContentRegionAvail().x - trolley_width - ImGui::GetStyle().ItemSpacing.x;
    const float gap = ImGui::GetStyle().ItemSpacing.y;
    const float screen_height = mode().has_screen() ? RecorderScreen::height_px(frame_, height) : 0;
    ImGui::BeginGroup();
    ImGui::BeginChild("paper-side", {paper_width, height - (screen_height > 0 ? screen_height + gap : 0)},
                      false, ImGuiWindowFlags_NoScrollWithMouse);
    if (const DrawnCircuit* drawn = mode().drawn(); drawn != nullptr && !drawn->pages.empty()) {
        const PaperDeed deed = paper_.draw(frame_, *drawn, mode().marks());
        pick_near_ = deed.near;
        mode().done_on_paper(deed);
    } else {
        empty_desk();
    }
    ImGui::EndChild();
    if (screen_height > 0) {
        ImGui::BeginChild("screen", {paper_width, screen_height}, false, ImGuiWindowFlags_NoScrollWithMouse);
        mode().screen(frame_);
        ImGui::EndChild();
    }
    ImGui::EndGroup();
    ImGui::SameLine();
    ImGui::BeginChild("trolley", {0, height}, false, ImGuiWindowFlags_None);
    for (const Diagnostic& each : problems_) caution(frame_, to_text({each}));
    drawer(frame_, "open", "Open", path_.empty(), [this] { open_drawer(); });
    if (shows_keys_) drawer(frame_, "keys", "Keys", true, [this] { key_list(); });
    mode().trolley(frame_, paper_);
    ImGui::EndChild();
}

void Desk::foot() {
    soft_words(frame_, pick_near_ ? pick_near_->name + ":  " + mode().hint() : mode().hint());
}

/// With what is under the mouse, or else with what is chosen.
void Desk::go_on(const DrawnCircuit& drawn) {
    const auto chosen = pick_near_ ? pick_near_ : mode().marks().chosen;
    if (chosen) paper_.go_on(drawn, *chosen);
}

void Desk::keys() {
    if (pressed(Key::f1)) shows_keys_ = !shows_keys_;
    for (int i = 0; i < static_cast<int>(modes_.size()); ++i)
        if (pressed(static_cast<Key>(static_cast<int>(Key::f2) + i))) change_mode(i);
    const ImGuiIO& io = ImGui::GetIO();
    if (io.KeyCtrl) {
        if (pressed(Key::f)) wants_find_ = true;
        if (pressed(Key::q)) wants_to_close_ = true;
        if (pressed(Key::plus)) change_scale(liking_.scale + kScaleStep);
        if (pressed(Key::minus)) change_scale(liking_.scale - kScaleStep);
        if (pressed(Key::d)) change_ground();
        return;
    }
    if (io.WantTextInput) return;
    if (pressed(Key::f)) paper_.fit();
    if (pressed(Key::plus)) paper_.zoom(kZoomStep);
    if (pressed(Key::minus)) paper_.zoom(1 / kZoomStep);
    if (const DrawnCircuit* drawn = mode().drawn()) {
        const int last = static_cast<int>(drawn->pages.size()) - 1;
        if (pressed(Key::page_down) && paper_.page() < last) paper_.turn_to(paper_.page() + 1);
        if (pressed(Key::page_up) && paper_.page() > 0) paper_.turn_to(paper_.page() - 1);
        if (pressed(Key::g)) go_on(*drawn);
        if (pressed(Key::backspace)) paper_.go_back();
    }
    mode().keys();
}

void Desk::draw(double gone_s) {
    landmarks_.clear();
    open_what_was_chosen();
    mode().advance(gone_s);
    keys();
    const ImGuiIO& io = ImGui::GetIO();
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(io.DisplaySize);
    ImGui::Begin("desk", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoBringToFrontOnFocus);
    bar();
    body();
    foot();
    ImGui::End();
    // For hands that are programs: letters that come now are typed into something.
    if (io.WantTextInput) landmarks_.put("typing", {});
}

}  // namespace halfsplit::window
