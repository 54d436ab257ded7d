#pragma once

#include <string_view>

#include "engine/model/chart/expression.h"
#include "engine/simulation/chart/chart_state.h"
#include "engine/simulation/chart/senses.h"

namespace halfsplit::simulation {

/// What an expression gives now, without taking memory: `text` is part of the expression or of the state.
struct Outcome {
    model::chart::ValueType type = model::chart::ValueType::boolean;
    double number = 0;  ///< true is 1, false is 0
    std::string_view text = {};
    const char* error = nullptr;  ///< why there is no value; nullptr where there is one

    bool is_true() const { return error == nullptr && number != 0; }
};

/// `and` and `or` leave their second side alone where the first decides, so `n > 0 and 1 / n > 2` is safe.
/// Errors of evaluation: division by zero, a result beyond what a number can hold, a sense without a value.
Outcome evaluate(const model::chart::Expression& expression, const ChartState& state, const Senses& senses);

model::chart::Value to_value(const Outcome& outcome);

}  // namespace halfsplit::simulation
