#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/model/chart/expression.h"

namespace halfsplit::model::chart {

/// What names in an expression can mean.
struct Scope {
    struct Data {
        std::string name;
        std::optional<ValueType> type;  ///< nullopt: its own expression is wrong; fits everywhere
        bool ready = true;              ///< false: it is declared further down in the file
    };
    std::vector<Data> data;           ///< in the order of the chart's data
    std::vector<std::string> states;  ///< ids, in the order of the chart's states
};

/// What is wrong with an expression, and at which of its code points (from 1).
struct ExpressionProblem {
    int column = 0;
    std::string message;
};

/// Reads an expression and checks its types. From weakest to strongest: `or`; `and`; `not`; one of
/// `< <= > >= == !=` (not chained); `+ -`; `* /`; unary minus. Beside parentheses there are `true`, `false`,
/// numbers with a decimal point, 'texts', data items, `_event`, and the calls _in('pin'), _hz('pin'),
/// _amps('driver'), In('state'), min(a, b), max(a, b), abs(a). `==` and `!=` compare two of the same type,
/// the other comparisons and arithmetic are for numbers, `and or not` for true and false. `wanted` is the
/// type the whole must have.
tl::expected<Expression, ExpressionProblem> parse_expression(std::string_view text, const Scope& scope,
                                                             std::optional<ValueType> wanted = std::nullopt);

/// Whether a data item may have this name: letters, digits and underscores, a letter first, no word of the
/// language.
bool is_data_name(std::string_view name);

}  // namespace halfsplit::model::chart
