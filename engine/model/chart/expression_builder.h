#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/model/chart/expression.h"
#include "engine/model/chart/expression_token.h"
#include "engine/model/chart/parse_expression.h"

namespace halfsplit::model::chart {

/// What has been read of an expression: a node, where it begins and how deep it is.
struct Operand {
    int node = 0;
    std::optional<ValueType> type;  ///< nullopt where it hangs on a data item whose own expression is wrong
    int column = 1;
    int height = 1;
};

/// An operator between two operands.
struct BinaryOperator {
    std::string_view sign;
    Op op = Op::boolean;
};

/// Puts nodes together and checks that types fit. Where something does not, it is kept as the problem and
/// nothing is returned.
class ExpressionBuilder {
  public:
    using Built = std::optional<Operand>;

    Built value(Node node, int column);
    Built text(const Token& token);
    Built pin(Op op, const Token& name, int column);
    /// `-`, `not` or abs() of the operand.
    Built unary(Op op, std::string_view sign, const Operand& operand, int column);
    Built binary(const BinaryOperator& sign, const Operand& left, const Operand& right);

    std::nullopt_t fail(int column, std::string message);
    const ExpressionProblem& problem() const { return problem_; }
    Expression take() { return std::move(expression_); }

  private:
    Built add(Node node, std::optional<ValueType> type, int column, int height);
    /// Whether the operand is of the type the operator works on; keeps the problem where it is not.
    bool fits(const Operand& operand, ValueType wanted, std::string_view sign);

    Expression expression_;
    ExpressionProblem problem_;
};

}  // namespace halfsplit::model::chart
