#include "engine/model/chart/parse_expression.h"

#include <algorithm>
#include <array>
#include <span>

#include "engine/base/nearest.h"
#include "engine/model/chart/expression_builder.h"
#include "engine/model/chart/expression_token.h"

namespace halfsplit::model::chart {
namespace {

using Built = ExpressionBuilder::Built;

constexpr std::array kOr{BinaryOperator{"or", Op::logical_or}};
constexpr std::array kAnd{BinaryOperator{"and", Op::logical_and}};
constexpr std::array kComparisons{BinaryOperator{"<", Op::less},    BinaryOperator{"<=", Op::less_equal},
                                  BinaryOperator{">", Op::greater}, BinaryOperator{">=", Op::greater_equal},
                                  BinaryOperator{"==", Op::equal},  BinaryOperator{"!=", Op::unequal}};
constexpr std::array kSums{BinaryOperator{"+", Op::add}, BinaryOperator{"-", Op::subtract}};
constexpr std::array kProducts{BinaryOperator{"*", Op::multiply}, BinaryOperator{"/", Op::divide}};
constexpr std::array kPairs{BinaryOperator{"min", Op::minimum}, BinaryOperator{"max", Op::maximum}};
/// Calls whose argument is the name of a pin.
constexpr std::array kPinCalls{BinaryOperator{"_in", Op::volts}, BinaryOperator{"_hz", Op::hertz},
                               BinaryOperator{"_amps", Op::amperes}};

constexpr std::array<std::string_view, 5> kWords{"and", "or", "not", "true", "false"};
constexpr std::array<std::string_view, 7> kFunctions{"_in", "_hz", "_amps", "In", "min", "max", "abs"};
constexpr std::string_view kEvent = "_event";

template <typename List>
bool holds(const List& list, std::string_view name) {
    return std::find(list.begin(), list.end(), name) != list.end();
}

std::optional<BinaryOperator> operator_in(std::span<const BinaryOperator> operators, std::string_view sign) {
    const auto found = std::find_if(operators.begin(), operators.end(),
                                    [&](const BinaryOperator& each) { return each.sign == sign; });
    return found == operators.end() ? std::nullopt : std::optional(*found);
}

class Parser {
  public:
    Parser(const std::vector<Token>& tokens, const Scope& scope) : tokens_(tokens), scope_(scope) {}

    tl::expected<Expression, ExpressionProblem> read(std::optional<ValueType> wanted) {
        const Built whole = read_or();
        if (!whole || !expect_end() || !expect_type(*whole, wanted))
            return tl::unexpected(builder_.problem());
        return builder_.take();
    }

  private:
    const Token& here() const { return tokens_[next_]; }
    const Token& after(std::size_t count) const {
        return tokens_[std::min(next_ + count, tokens_.size() - 1)];
    }
    const Token& take() { return tokens_[here().sort == Token::Sort::end ? next_ : next_++]; }

    std::nullopt_t fail(const Token& at, std::string message) {
        return builder_.fail(at.column, std::move(message));
    }

    std::optional<BinaryOperator> operator_here(std::span<const BinaryOperator> operators) const {
        if (here().sort != Token::Sort::sign && here().sort != Token::Sort::name) return std::nullopt;
        return operator_in(operators, here().text);
    }

    Built read_chain(std::span<const BinaryOperator> operators, Built (Parser::*read_operand)()) {
        Built left = (this->*read_operand)();
        while (left) {
            const auto sign = operator_here(operators);
            if (!sign) break;
            take();
            const Built right = (this->*read_operand)();
            if (!right) return std::nullopt;
            left = builder_.binary(*sign, *left, *right);
        }
        return left;
    }

    Built read_or() { return read_chain(kOr, &Parser::read_and); }
    Built read_and() { return read_chain(kAnd, &Parser::read_not); }
    Built read_sum() { return read_chain(kSums, &Parser::read_product); }
    Built read_product() { return read_chain(kProducts, &Parser::read_negation); }

    Built read_not() {
        if (!here().is_word("not")) return read_comparison();
        return nested(take(), [this](const Token& sign) -> Built {
            const Built operand = read_not();
            if (!operand) return std::nullopt;
            return builder_.unary(Op::logical_not, sign.text, *operand, sign.column);
        });
    }

    Built read_comparison() {
        const Built left = read_sum();
        const auto sign = operator_here(kComparisons);
        if (!left || !sign) return left;
        take();
        const Built right = read_sum();
        if (!right) return std::nullopt;
        if (operator_here(kComparisons))
            return fail(here(), "comparisons are not chained; write 1 < x and x < 3");
        return builder_.binary(*sign, *left, *right);
    }

    Built read_negation() {
        if (!here().is_sign("-")) return read_primary();
        return nested(take(), [this](const Token& sign) -> Built {
            const Built operand = read_negation();
            if (!operand) return std::nullopt;
            return builder_.unary(Op::negate, sign.text, *operand, sign.column);
        });
    }

    Built read_primary() {
        const Token& token = take();
        switch (token.sort) {
            case Token::Sort::number:
                return builder_.value({.op = Op::number, .type = ValueType::number, .number = token.number},
                                      token.column);
            case Token::Sort::text:
                return builder_.text(token);
            case Token::Sort::name:
                return here().is_sign("(") ? read_call(token) : read_name(token);
            case Token::Sort::sign:
                if (token.text == "(") return nested(token, [this](const Token&) { return read_group(); });
                return fail(token, "'" + std::string(token.text) + "' stands where a value is expected");
            case Token::Sort::end:
                break;
        }
        return fail(token, tokens_.size() == 1 ? "the expression is empty; a value is expected"
                                               : "the expression ends where a value is expected");
    }

    Built read_group() {
        const Built inside = read_or();
        return inside && expect_close() ? inside : std::nullopt;
    }

    Built read_name(const Token& name) {
        if (name.text == "true" || name.text == "false")
            return builder_.value(
                {.op = Op::boolean, .type = ValueType::boolean, .number = name.text == "true" ? 1.0 : 0.0},
                name.column);
        if (name.text == kEvent)
            return builder_.value({.op = Op::event, .type = ValueType::text}, name.column);
        for (std::size_t i = 0; i < scope_.data.size(); ++i)
            if (scope_.data[i].name == name.text) return read_data(name, static_cast<int>(i));
        return refuse_name(name);
    }

    Built read_data(const Token& name, int index) {
        const Scope::Data& data = scope_.data[static_cast<std::size_t>(index)];
        if (!data.ready)
            return fail(name, data.name +
                                  " is declared here or further down; a first value may use only data "
                                  "items above it");
        Built built = builder_.value(
            {.op = Op::data, .type = data.type.value_or(ValueType::boolean), .index = index}, name.column);
        built->type = data.type;
        return built;
    }

    std::nullopt_t refuse_name(const Token& name) {
        const std::string text(name.text);
        if (holds(kWords, name.text))
            return fail(name, text == "not" ? "'not' needs parentheses here: (not …)"
                                            : "'" + text + "' stands where a value is expected");
        if (holds(kFunctions, name.text))
            return fail(name, text + " stands without its argument; write " + usage(name.text));
        if (text.starts_with("_event.")) return fail(name, "_event is the event's name; write _event alone");
        if (text.starts_with("driver.") || text.starts_with("unit."))
            return fail(name, text + " is written by <assign> and cannot be read");
        if (holds(scope_.states, name.text))
            return fail(name, text + " is a state; write In('" + text + "')");
        std::vector<std::string> known{std::string(kEvent), "true", "false"};
        for (const Scope::Data& data : scope_.data) known.push_back(data.name);
        const std::string hint = did_you_mean(name.text, known);
        return fail(name, "there is no data item " + text +
                              (hint.empty() ? "; a text is written in quotes: '" + text + "'" : hint));
    }

    static std::string usage(std::string_view function) {
        if (function == "abs") return "abs(a)";
        if (function == "In") return "In('state')";
        if (operator_in(kPairs, function)) return std::string(function) + "(a, b)";
        return std::string(function) + (function == "_amps" ? "('driver')" : "('pin')");
    }

    Built read_call(const Token& name) {
        const Token& open = take();
        if (operator_in(kPinCalls, name.text) || name.text == "In") return read_named(name);
        if (!holds(kFunctions, name.text))
            return fail(name, "there is no function " + std::string(name.text) +
                                  did_you_mean(name.text, std::vector<std::string_view>(kFunctions.begin(),
                                                                                        kFunctions.end())));
        return nested(open, [&](const Token&) { return read_calculation(name); });
    }

    /// A call whose argument is a name in quotes.
    Built read_named(const Token& function) {
        const Token& name = take();
        if (name.sort != Token::Sort::text)
            return fail(name, "a name in quotes is expected; write " + usage(function.text));
        if (!expect_close()) return std::nullopt;
        if (const auto pin = operator_in(kPinCalls, function.text))
            return builder_.pin(pin->op, name, function.column);
        const auto state = std::find(scope_.states.begin(), scope_.states.end(), name.text);
        if (name.text.empty() || state == scope_.states.end())
            return fail(name, "there is no state '" + std::string(name.text) + "'" +
                                  did_you_mean(name.text, scope_.states));
        return builder_.value({.op = Op::in_state,
                               .type = ValueType::boolean,
                               .index = static_cast<int>(state - scope_.states.begin())},
                              function.column);
    }

    Built read_calculation(const Token& function) {
        const Built first = read_or();
        if (!first) return std::nullopt;
        const auto pair = operator_in(kPairs, function.text);
        if (!pair) {
            if (!expect_close()) return std::nullopt;
            return builder_.unary(Op::absolute, function.text, *first, function.column);
        }
        if (!here().is_sign(","))
            return fail(here(), "a comma and a second value are expected; write " + usage(function.text));
        take();
        const Built second = read_or();
        if (!second || !expect_close()) return std::nullopt;
        Built both = builder_.binary(*pair, *first, *second);
        if (both) both->column = function.column;
        return both;
    }

    /// Reads something that may hold the like of itself.
    template <typename Read>
    Built nested(const Token& at, Read read) {
        if (depth_ >= kMaxExpressionDepth)
            return fail(at, "the expression nests deeper than " + std::to_string(kMaxExpressionDepth) +
                                " levels; a simpler one is expected");
        ++depth_;
        const Built built = read(at);
        --depth_;
        return built;
    }

    bool expect_close() {
        if (here().is_sign(")")) {
            take();
            return true;
        }
        return refuse_here("')' is expected");
    }

    bool expect_end() {
        return here().sort == Token::Sort::end || refuse_here("an operator or the end is expected");
    }

    bool expect_type(const Operand& whole, std::optional<ValueType> wanted) {
        if (!wanted || !whole.type || *wanted == *whole.type) return true;
        fail(tokens_.front(), std::string(type_name(*wanted)) + " is expected; this is " +
                                  std::string(type_name(*whole.type)));
        return false;
    }

    /// A comma between two numbers without a space.
    bool is_decimal_comma() const {
        if (next_ == 0 || !here().is_sign(",") || after(1).sort != Token::Sort::number) return false;
        const Token& before = tokens_[next_ - 1];
        const int before_end = before.column + static_cast<int>(before.text.size());
        return before.sort == Token::Sort::number && before_end == here().column &&
               after(1).column == here().column + 1;
    }

    bool refuse_here(const std::string& expected) {
        if (is_decimal_comma())
            fail(tokens_[next_ - 1], "a decimal point is expected, not a comma; write " +
                                         std::string(tokens_[next_ - 1].text) + "." +
                                         std::string(after(1).text));
        else if (here().sort == Token::Sort::end)
            fail(here(), "the expression ends here; " + expected);
        else
            fail(here(), "'" + std::string(here().text) + "' does not belong here; " + expected);
        return false;
    }

    const std::vector<Token>& tokens_;
    const Scope& scope_;
    std::size_t next_ = 0;
    int depth_ = 0;
    ExpressionBuilder builder_;
};

}  // namespace

tl::expected<Expression, ExpressionProblem> parse_expression(std::string_view text, const Scope& scope,
                                                             std::optional<ValueType> wanted) {
    const auto tokens = tokens_of(text);
    if (!tokens) return tl::unexpected(tokens.error());
    return Parser(*tokens, scope).read(wanted);
}

bool is_data_name(std::string_view name) {
    const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    const auto is_inside = [&](char c) { return is_letter(c) || (c >= '0' && c <= '9') || c == '_'; };
    return !name.empty() && is_letter(name.front()) && std::all_of(name.begin(), name.end(), is_inside) &&
           !holds(kWords, name) && !holds(kFunctions, name);
}

}  // namespace halfsplit::model::chart
