#include <imgui.h>

#include <algorithm>

#include "engine/base/index.h"
#include "engine/instruments/instrument.h"
#include "ui/window/author/author_mode.h"
#include "ui/window/frame/text_box.h"
#include "ui/window/frame/widgets.h"

namespace halfsplit::window {

namespace {

constexpr double kMostBudgetMin = 240;
constexpr double kMostMileageKm = 400000;

}  // namespace

void AuthorMode::card_drawer(const Frame& frame) {
    practice::Scenario& job = desk_.job;
    words("Vehicle, an invented one:");
    write_in(frame, "vehicle", job.job_card.vehicle);
    words("Mileage:");
    slide(frame, "mileage", job.job_card.mileage_km, 0, kMostMileageKm, "km");
    words("It comes in with:");
    std::vector<std::string> states;
    for (const model::OperatingState& state : circuit().states) states.push_back(state.title);
    if (pick_from(frame, "arrives", states, job.arrives_in)) proved_.reset();
    words("What was done to it before, a paragraph each:");
    write_several(frame, "history", job.job_card.history);
    words("Level, 1 is easy:");
    for (int level = 1; level <= practice::kLevels; ++level) {
        if (level > 1) ImGui::SameLine();
        if (choice(frame, "level:" + std::to_string(level), std::to_string(level), job.level == level)) {
            job.level = level;
            proved_.reset();
        }
    }
    words("What the customer pays for:");
    if (slide(frame, "budget", job.budget_min, 10, kMostBudgetMin, "min")) proved_.reset();
}

void AuthorMode::help_drawer(const Frame& frame) {
    practice::Scenario& job = desk_.job;
    words("Hints for who asks, the first gives away least:");
    write_several(frame, "hint", job.hints);
    words("Cautions, besides those that follow from the circuit:");
    write_several(frame, "caution", job.cautions);
    words("Instruments that may be used:");
    for (const auto& each : instruments::instruments()) {
        const std::string id(each.id);
        bool is_allowed = std::ranges::find(job.instruments, id) != job.instruments.end();
        if (!tick(frame, "allowed:" + id, std::string(each.title), is_allowed)) continue;
        std::erase(job.instruments, id);
        if (is_allowed) job.instruments.push_back(id);
        proved_.reset();
    }
    words("The lesson, told when it is over:");
    write_in(frame, "lesson", job.lesson);
}

}  // namespace halfsplit::window
