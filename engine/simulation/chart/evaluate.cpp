#include "engine/simulation/chart/evaluate.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace halfsplit::simulation {
namespace {

using model::chart::Expression;
using model::chart::Node;
using model::chart::Op;
using model::chart::Value;
using model::chart::ValueType;

Outcome of(bool value) {
    return {ValueType::boolean, value ? 1.0 : 0.0, {}, nullptr};
}

Outcome of(double value) {
    return {ValueType::number, value, {}, std::isfinite(value) ? nullptr : "the number is beyond all bounds"};
}

Outcome of(std::string_view text) {
    return {ValueType::text, 0, text, nullptr};
}

Outcome failed(const char* reason) {
    return {ValueType::boolean, 0, {}, reason};
}

Outcome sensed(double value) {
    return std::isfinite(value) ? of(value) : failed("the pin has no value");
}

Outcome of(const Value& value) {
    switch (model::chart::type_of(value)) {
        case ValueType::boolean:
            return of(*std::get_if<bool>(&value));
        case ValueType::number:
            return of(*std::get_if<double>(&value));
        case ValueType::text:
            break;
    }
    return of(std::string_view(*std::get_if<std::string>(&value)));
}

bool are_equal(const Outcome& left, const Outcome& right) {
    return left.type == ValueType::text ? left.text == right.text : left.number == right.number;
}

Outcome combined(Op op, const Outcome& left, const Outcome& right) {
    switch (op) {
        case Op::equal:
            return of(are_equal(left, right));
        case Op::unequal:
            return of(!are_equal(left, right));
        case Op::less:
            return of(left.number < right.number);
        case Op::less_equal:
            return of(left.number <= right.number);
        case Op::greater:
            return of(left.number > right.number);
        case Op::greater_equal:
            return of(left.number >= right.number);
        case Op::add:
            return of(left.number + right.number);
        case Op::subtract:
            return of(left.number - right.number);
        case Op::multiply:
            return of(left.number * right.number);
        case Op::divide:
            return right.number == 0 ? failed("division by zero") : of(left.number / right.number);
        case Op::minimum:
            return of(std::min(left.number, right.number));
        case Op::maximum:
            return of(std::max(left.number, right.number));
        default:
            return failed("the operation has no two sides");
    }
}

class Evaluation {
  public:
    Evaluation(const Expression& expression, const ChartState& state, const Senses& senses)
        : expression_(expression), state_(state), senses_(senses) {}

    /// Recurses kMaxExpressionDepth levels at most.
    Outcome at(int index) const {
        const Node& node = expression_.nodes[static_cast<std::size_t>(index)];
        if (node.left < 0) return leaf(node);
        const Outcome left = at(node.left);
        if (left.error != nullptr) return left;
        if (node.right < 0) return changed(node.op, left);
        if (node.op == Op::logical_and || node.op == Op::logical_or)
            return left.is_true() == (node.op == Op::logical_or) ? left : at(node.right);
        const Outcome right = at(node.right);
        return right.error != nullptr ? right : combined(node.op, left, right);
    }

  private:
    Outcome leaf(const Node& node) const {
        const auto index = static_cast<std::size_t>(std::max(node.index, 0));
        switch (node.op) {
            case Op::boolean:
                return of(node.number != 0);
            case Op::text:
                return of(std::string_view(expression_.texts[index]));
            case Op::data:
                return of(state_.data[index]);
            case Op::event:
                return of(std::string_view(state_.event));
            case Op::volts:
                return sensed(senses_.in_v(expression_.pins[index].pin));
            case Op::hertz:
                return sensed(senses_.hz(expression_.pins[index].pin));
            case Op::amperes:
                return sensed(senses_.amps(expression_.pins[index].pin));
            case Op::in_state:
                return of(
                    std::binary_search(state_.configuration.begin(), state_.configuration.end(), node.index));
            default:
                return of(node.number);
        }
    }

    static Outcome changed(Op op, const Outcome& operand) {
        if (op == Op::logical_not) return of(operand.number == 0);
        return of(op == Op::negate ? -operand.number : std::abs(operand.number));
    }

    const Expression& expression_;
    const ChartState& state_;
    const Senses& senses_;
};

}  // namespace

Outcome evaluate(const Expression& expression, const ChartState& state, const Senses& senses) {
    return Evaluation(expression, state, senses).at(static_cast<int>(expression.nodes.size()) - 1);
}

Value to_value(const Outcome& outcome) {
    switch (outcome.type) {
        case ValueType::boolean:
            return outcome.number != 0;
        case ValueType::number:
            return outcome.number;
        case ValueType::text:
            break;
    }
    return std::string(outcome.text);
}

}  // namespace halfsplit::simulation
