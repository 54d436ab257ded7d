#include "engine/model/chart/expression_builder.h"

#include <algorithm>

namespace halfsplit::model::chart {
namespace {

/// What both operands must be; nullopt where any two of one type will do.
std::optional<ValueType> operand_type(Op op) {
    switch (op) {
        case Op::logical_and:
        case Op::logical_or:
        case Op::logical_not:
            return ValueType::boolean;
        case Op::equal:
        case Op::unequal:
            return std::nullopt;
        default:
            return ValueType::number;
    }
}

ValueType result_type(Op op) {
    switch (op) {
        case Op::negate:
        case Op::add:
        case Op::subtract:
        case Op::multiply:
        case Op::divide:
        case Op::minimum:
        case Op::maximum:
        case Op::absolute:
            return ValueType::number;
        default:
            return ValueType::boolean;
    }
}

std::string quoted(std::string_view text) {
    return "'" + std::string(text) + "'";
}

}  // namespace

std::nullopt_t ExpressionBuilder::fail(int column, std::string message) {
    problem_ = {column, std::move(message)};
    return std::nullopt;
}

ExpressionBuilder::Built ExpressionBuilder::add(Node node, std::optional<ValueType> type, int column,
                                                int height) {
    if (height > kMaxExpressionDepth)
        return fail(column, "the expression nests deeper than " + std::to_string(kMaxExpressionDepth) +
                                " levels; a simpler one is expected");
    node.type = type.value_or(ValueType::boolean);
    expression_.nodes.push_back(node);
    return Operand{static_cast<int>(expression_.nodes.size()) - 1, type, column, height};
}

ExpressionBuilder::Built ExpressionBuilder::value(Node node, int column) {
    return add(node, node.type, column, 1);
}

ExpressionBuilder::Built ExpressionBuilder::text(const Token& token) {
    const int index = static_cast<int>(expression_.texts.size());
    expression_.texts.emplace_back(token.text);
    return value({.op = Op::text, .type = ValueType::text, .index = index}, token.column);
}

ExpressionBuilder::Built ExpressionBuilder::pin(Op op, const Token& name, int column) {
    const int index = static_cast<int>(expression_.pins.size());
    expression_.pins.push_back({op, std::string(name.text), name.column});
    return value({.op = op, .type = ValueType::number, .index = index}, column);
}

bool ExpressionBuilder::fits(const Operand& operand, ValueType wanted, std::string_view sign) {
    if (!operand.type || *operand.type == wanted) return true;
    fail(operand.column, quoted(sign) + " works on " + std::string(type_name(wanted)) + "; this is " +
                             std::string(type_name(*operand.type)));
    return false;
}

ExpressionBuilder::Built ExpressionBuilder::unary(Op op, std::string_view sign, const Operand& operand,
                                                  int column) {
    if (!fits(operand, *operand_type(op), sign)) return std::nullopt;
    return add({.op = op, .left = operand.node}, result_type(op), column, operand.height + 1);
}

ExpressionBuilder::Built ExpressionBuilder::binary(const BinaryOperator& sign, const Operand& left,
                                                   const Operand& right) {
    if (const auto wanted = operand_type(sign.op)) {
        if (!fits(left, *wanted, sign.sign) || !fits(right, *wanted, sign.sign)) return std::nullopt;
    } else if (left.type && right.type && *left.type != *right.type) {
        return fail(right.column, quoted(sign.sign) + " compares two of one type; this is " +
                                      std::string(type_name(*right.type)) + ", before it stands " +
                                      std::string(type_name(*left.type)));
    }
    return add({.op = sign.op, .left = left.node, .right = right.node}, result_type(sign.op), left.column,
               std::max(left.height, right.height) + 1);
}

}  // namespace halfsplit::model::chart
