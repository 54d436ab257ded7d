#include "ui/window/study/study_mode.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>

#include "engine/base/index.h"
#include "engine/diagnosis/fault_universe.h"
#include "ui/files/text_files.h"
#include "ui/window/frame/keys.h"

namespace halfsplit::window {

namespace {

constexpr std::array kPaces{0.1, 1.0, 10.0};
/// A meter's display changes four times a second (common practice).
constexpr double kReadEveryS = 0.25;
/// No more of the vehicle's time in a frame: a window that was hidden does not catch up.
constexpr double kMostAtOnceS = 0.1;
/// One push of the key that steps.
constexpr double kStepS = 0.01;
constexpr std::size_t kMostEvents = 200;

std::string first_message(const Diagnostics& problems) {
    return problems.empty() ? "that cannot be done" : problems.front().message;
}

}  // namespace

StudyMode::StudyMode() = default;

std::string_view StudyMode::about() const {
    return "Run a circuit, operate it, break and mend it, and see every potential and current.";
}

bool StudyMode::takes(const std::string& path) const {
    return path.ends_with(".circuit.xml");
}

Diagnostics StudyMode::open(const std::string& path) {
    auto read = files::read_circuit_on_disk(path);
    if (!read) return read.error();
    show(std::make_shared<const model::Circuit>(std::move(read->circuit)));
    return {};
}

void StudyMode::show(std::shared_ptr<const model::Circuit> circuit) {
    bench_.reset();
    reading_.reset();
    chosen_.reset();
    leads_.lift();
    recorder_ = {};
    fault_texts_.clear();
    drawn_ = window::drawn(std::move(circuit));
    expected_ = nullptr;
    sheets_.begin(drawn_->circuit);
    sources_ = diagnosis::sign_sources(*drawn_->circuit);
    for (const auto& possible : diagnosis::fault_universe(*drawn_->circuit))
        fault_texts_.push_back(possible.fault.text);
    const auto& states = drawn_->circuit->states;
    const auto again = std::ranges::find(states, state_id_, &model::OperatingState::id);
    begin(again != states.end() ? static_cast<int>(again - states.begin()) : states.empty() ? -1 : 0);
}

void StudyMode::begin(int state) {
    network::Situation kept;
    if (bench_) {
        const network::Situation& before = bench_->situation();
        kept.faults = before.faults;
        kept.unplugged = before.unplugged;
        kept.pulled = before.pulled;
        kept.attachments = before.attachments;
    }
    auto begun = instruments::LiveBench::begin(*drawn_->circuit, state, kept);
    if (!begun) {
        trouble_ = first_message(begun.error());
        return;
    }
    trouble_.clear();
    bench_.emplace(std::move(*begun));
    state_ = state;
    state_id_ = state < 0 ? "" : drawn_->circuit->states[at(state)].id;
    has_left_state_ = false;
    events_.clear();
    recorder_.begin_anew();
    screen_.view().follow(0);
    turns_.assign(sources_.size(), 0);
    find_branches();
}

void StudyMode::take_result(const tl::expected<void, Diagnostics>& result) {
    trouble_ = result ? "" : first_message(result.error());
    if (!result) is_running_ = false;
    find_branches();
}

void StudyMode::set(const Setting& setting) {
    has_left_state_ = true;
    take_result(bench_->set(setting.what, setting.to));
}

void StudyMode::change_faults(const std::string& fault, bool present) {
    network::Situation situation = bench_->situation();
    std::erase_if(situation.faults, [&](const network::Fault& each) { return each.text == fault; });
    if (present) {
        auto parsed = network::parse_fault(*drawn_->circuit, fault);
        if (!parsed) {
            trouble_ = parsed.error();
            return;
        }
        situation.faults.push_back(std::move(*parsed));
    }
    take_result(bench_->change(situation));
}

void StudyMode::take_out(const std::string& name, bool is_pulled, bool out) {
    network::Situation situation = bench_->situation();
    auto& set = is_pulled ? situation.pulled : situation.unplugged;
    if (out)
        set.insert(name);
    else
        set.erase(name);
    take_result(bench_->change(situation));
}

void StudyMode::read_meter() {
    since_read_s_ = 0;
    look_around();
    if (is_held_ || !leads_.is_placed()) return;
    auto measured = bench_->read(leads_.instrument(), leads_.leads());
    if (measured) {
        reading_ = std::move(*measured);
        return;
    }
    instruments::Reading nothing;
    nothing.valid = false;
    nothing.shown = "no reading";
    nothing.cautions.push_back(first_message(measured.error()));
    reading_ = std::move(nothing);
}

void StudyMode::collect_events() {
    for (const simulation::CourseEvent& event : bench_->take_events()) {
        char time[32];
        std::snprintf(time, sizeof time, "%.3f s  ", event.at_s);
        events_.push_front(time + event.subject + " " + event.what);
    }
    while (events_.size() > kMostEvents) events_.pop_back();
}

void StudyMode::advance(double seconds) {
    if (!bench_) return;
    sheets_.advance();
    if (is_running_) {
        const double gone_s = std::min(seconds * kPaces[at(pace_)], kMostAtOnceS * kPaces[at(pace_)]);
        if (const auto done = go_on(gone_s); !done) take_result(done);
        collect_events();
        look();
        for (std::size_t i = 0; i < sources_.size(); ++i) turns_[i] += gone_s * shares_[i];
    }
    since_read_s_ += seconds;
    if (since_read_s_ >= kReadEveryS) read_meter();
}

bool StudyMode::is_lively() const {
    const bool moves = is_running_ && bench_ && (!bench_->is_steady() || recorder_.is_on());
    return moves || sheets_.is_working();
}

void StudyMode::done_on_paper(const PaperDeed& deed) {
    if (!bench_) return;
    if (deed.first) choose(*deed.first, true);
    if (deed.second) choose(*deed.second, false);
    if (deed.beside) chosen_.reset();
}

void StudyMode::choose(const Pick& pick, bool first) {
    chosen_ = pick;
    leads_.put(pick, first);
    since_read_s_ = kReadEveryS;
}

void StudyMode::keys() {
    const auto pressed = [](Key key) { return ImGui::IsKeyPressed(static_cast<int>(key), false); };
    if (pressed(Key::p)) is_running_ = !is_running_;
    if (pressed(Key::h)) is_held_ = !is_held_;
    if (pressed(Key::l)) leads_.lift();
    if (pressed(Key::period) && bench_) {
        is_running_ = false;
        take_result(go_on(kStepS));
        collect_events();
    }
    if (pressed(Key::b) && chosen_) choose(*chosen_, false);
    if (pressed(Key::w)) shows_way_ = !shows_way_;
    if (pressed(Key::c)) record_at_leads();
    if (has_screen()) screen_.keys(recorder_.strip());
    if (pressed(Key::digit_1)) overlay_ = Overlay::plain;
    if (pressed(Key::digit_2)) overlay_ = Overlay::potentials;
    if (pressed(Key::digit_3)) overlay_ = Overlay::currents;
}

std::vector<std::pair<std::string, std::string>> StudyMode::key_list() const {
    std::vector<std::pair<std::string, std::string>> keys{
        {"P", "let time run, or stop it"},
        {".", "one hundredth of a second on"},
        {"H", "hold the reading"},
        {"L", "lift the leads"},
        {"B", "black lead on the point in hand"},
        {"W", "show the way of the current, or not"},
        {"1 2 3", "plain, potentials, currents"},
        {"C", "a channel of the recorder where the leads are"}};
    std::ranges::copy(RecorderScreen::key_list(), std::back_inserter(keys));
    return keys;
}

std::string StudyMode::hint() const {
    return leads_.hint();
}

}  // namespace halfsplit::window
