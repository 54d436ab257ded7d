#pragma once

#include <string>
#include <vector>

#include "engine/base/diagnostic.h"
#include "engine/model/chart/value.h"

namespace halfsplit::model::chart {

enum class Op : unsigned char {
    boolean,  ///< `number` is 0 or 1
    number,
    text,  ///< texts[index]
    data,  ///< the chart's data[index]
    event,
    volts,     ///< V at pins[index]
    hertz,     ///< Hz of the pulses at pins[index]
    amperes,   ///< A through the driver pins[index]
    in_state,  ///< whether the chart's states[index] is active
    logical_not,
    logical_and,
    logical_or,
    equal,
    unequal,
    less,
    less_equal,
    greater,
    greater_equal,
    negate,
    add,
    subtract,
    multiply,
    divide,
    minimum,
    maximum,
    absolute
};

/// One operation. `left` and `right` are nodes further to the front; -1 where there is none.
struct Node {
    Op op = Op::boolean;
    ValueType type = ValueType::boolean;  ///< of the result
    int left = -1;
    int right = -1;
    int index = -1;
    double number = 0;
};

/// A pin an expression asks for: by _in, _hz or _amps.
struct PinCall {
    Op op = Op::volts;
    std::string pin;
    int column = 0;  ///< of its name in the expression
};

/// An expression whose names have been found and whose types fit. The last node is the whole; it is at most
/// kMaxExpressionDepth levels deep, so evaluating it may recurse.
struct Expression {
    std::vector<Node> nodes;
    std::vector<std::string> texts;
    std::vector<PinCall> pins;
    Location where;  ///< of its first letter

    ValueType type() const { return nodes.back().type; }
};

/// Hand-written conditions reach 5. A chain "a or b or c …" counts one level for each further term.
inline constexpr int kMaxExpressionDepth = 100;

}  // namespace halfsplit::model::chart
