#include "ui/window/expected/state_sheets.h"

#include <utility>

#include "engine/base/index.h"

namespace halfsplit::window {

namespace {

ExpectedState expected_in(const model::Circuit& circuit, int state) {
    ExpectedState expected;
    diagnosis::SheetOptions options;
    options.states = {state};
    const auto sheet = diagnosis::make_sheet(circuit, options);
    if (!sheet) {
        expected.trouble = to_text(sheet.error().front());
        return expected;
    }
    for (const diagnosis::Caution& each : sheet->cautions)
        expected.cautions.push_back(view::caution_text(circuit, each));
    for (const diagnosis::SheetDoubt& each : sheet->states.front().doubts)
        expected.doubts.push_back(view::doubt_text(circuit, each));
    expected.rows = view::expected_rows(circuit, sheet->states.front());
    return expected;
}

}  // namespace

void StateSheets::begin(std::shared_ptr<const model::Circuit> circuit) {
    working_.cancel();
    made_.clear();
    wanted_ = -1;
    circuit_ = std::move(circuit);
}

const ExpectedState* StateSheets::of(int state) {
    if (const auto found = made_.find(state); found != made_.end()) return &found->second;
    wanted_ = state;
    return nullptr;
}

void StateSheets::advance() {
    if (auto made = working_.take()) made_.insert_or_assign(made->state, std::move(made->expected));
    if (wanted_ < 0 || working_.is_running()) return;
    const int state = std::exchange(wanted_, -1);
    if (made_.contains(state)) return;
    working_.start("working out what should be found", [circuit = circuit_, state](Progress&) {
        return Made{state, expected_in(*circuit, state)};
    });
}

}  // namespace halfsplit::window
