#include "engine/model/chart/expression_token.h"

#include <algorithm>
#include <array>

#include "engine/base/number.h"
#include "engine/xml/unicode.h"

namespace halfsplit::model::chart {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/// A sign people know from elsewhere, and what is written here. Longer ones stand before their beginnings.
struct ForeignSign {
    std::string_view sign;
    std::string_view hint;
};
constexpr std::array kForeignSigns{
    ForeignSign{"&&", "write and"},
    ForeignSign{"||", "write or"},
    ForeignSign{"<>", "write !="},
    ForeignSign{"=", "write == to compare; values are set by <assign>"},
    ForeignSign{"!", "write not"},
    ForeignSign{"\"", "a text is written in single quotes: 'on'"},
    ForeignSign{"%", "there is no remainder"},
    ForeignSign{"^", "there is no power"},
    ForeignSign{";", "one expression is expected"},
};
/// Longer signs stand before their beginnings.
constexpr std::array<std::string_view, 13> kSigns{"<=", ">=", "==", "!=", "<", ">", "+",
                                                  "-",  "*",  "/",  "(",  ")", ","};

class Lexer {
  public:
    explicit Lexer(std::string_view text) : text_(text) {}

    tl::expected<std::vector<Token>, ExpressionProblem> read() {
        skip_space();
        while (offset_ < text_.size()) {
            const auto token = take();
            if (!token) return tl::unexpected(token.error());
            tokens_.push_back(*token);
            skip_space();
        }
        tokens_.push_back({Token::Sort::end, {}, column_, 0});
        return std::move(tokens_);
    }

  private:
    using Taken = tl::expected<Token, ExpressionProblem>;

    char at(std::size_t ahead) const {
        return offset_ + ahead < text_.size() ? text_[offset_ + ahead] : '\0';
    }

    tl::unexpected<ExpressionProblem> refuse(std::string message) const {
        return tl::unexpected(ExpressionProblem{column_, std::move(message)});
    }

    void skip_space() {
        while (is_space(at(0))) advance(1);
    }

    void advance(std::size_t bytes) {
        for (const char c : text_.substr(offset_, bytes))
            if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++column_;
        offset_ += bytes;
    }

    Token token(Token::Sort sort, std::size_t bytes) {
        const Token token{sort, text_.substr(offset_, bytes), column_, 0};
        advance(bytes);
        return token;
    }

    Taken take() {
        if (is_digit(at(0)) || (at(0) == '.' && is_digit(at(1)))) return take_number();
        if (is_letter(at(0))) return token(Token::Sort::name, name_length());
        if (at(0) == '\'') return take_text();
        return take_sign();
    }

    /// Dots inside are taken too, so that `driver.2` can be refused as a whole.
    std::size_t name_length() const {
        std::size_t length = 0;
        while (is_letter(at(length)) || is_digit(at(length)) ||
               (at(length) == '.' && (is_letter(at(length + 1)) || is_digit(at(length + 1)))))
            ++length;
        return length;
    }

    std::size_t number_length() const {
        std::size_t length = 0;
        while (is_digit(at(length)) || at(length) == '.') ++length;
        const bool has_exponent = at(length) == 'e' || at(length) == 'E';
        const std::size_t sign = has_exponent && (at(length + 1) == '-' || at(length + 1) == '+') ? 1 : 0;
        if (!has_exponent || !is_digit(at(length + 1 + sign))) return length;
        length += 1 + sign;
        while (is_digit(at(length))) ++length;
        return length;
    }

    Taken take_number() {
        std::size_t length = number_length();
        if (is_letter(at(length))) {
            while (is_letter(at(length)) || is_digit(at(length))) ++length;
            return refuse("'" + std::string(text_.substr(offset_, length)) +
                          "' is not a number; a number without unit is expected (V, Hz, A, s)");
        }
        const std::string_view text = text_.substr(offset_, length);
        if (std::count(text.begin(), text.end(), '.') > 1)
            return refuse("'" + std::string(text) + "' is not a number; one decimal point is expected");
        const auto number = read_number(text);
        if (!number) return refuse(number.error());
        Token taken = token(Token::Sort::number, length);
        taken.number = *number;
        return taken;
    }

    Taken take_text() {
        const std::size_t end = text_.find('\'', offset_ + 1);
        if (end == std::string_view::npos) return refuse("the text is not closed; ' is expected at its end");
        Token taken = token(Token::Sort::text, end + 1 - offset_);
        taken.text = taken.text.substr(1, taken.text.size() - 2);
        return taken;
    }

    Taken take_sign() {
        const std::string_view rest = text_.substr(offset_);
        if (!rest.starts_with("==") && !rest.starts_with("!="))
            for (const ForeignSign& foreign : kForeignSigns)
                if (rest.starts_with(foreign.sign))
                    return refuse("'" + std::string(foreign.sign) + "' is unknown here; " +
                                  std::string(foreign.hint));
        for (const std::string_view sign : kSigns)
            if (rest.starts_with(sign)) return token(Token::Sort::sign, sign.size());
        const std::size_t bytes = std::max<std::size_t>(xml::code_point_at(text_, offset_).bytes, 1);
        return refuse("'" + std::string(rest.substr(0, bytes)) + "' is unknown here; a value is expected");
    }

    std::string_view text_;
    std::size_t offset_ = 0;
    int column_ = 1;
    std::vector<Token> tokens_;
};

}  // namespace

tl::expected<std::vector<Token>, ExpressionProblem> tokens_of(std::string_view expression) {
    return Lexer(expression).read();
}

}  // namespace halfsplit::model::chart
