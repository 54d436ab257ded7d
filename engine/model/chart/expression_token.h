#pragma once

#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/model/chart/parse_expression.h"

namespace halfsplit::model::chart {

struct Token {
    enum class Sort : unsigned char { number, text, name, sign, end };
    Sort sort = Sort::end;
    std::string_view text;  ///< as written; of a text, what stands between its quotes
    int column = 1;         ///< of its first code point
    double number = 0;

    bool is(Sort wanted, std::string_view what) const { return sort == wanted && text == what; }
    bool is_sign(std::string_view what) const { return is(Sort::sign, what); }
    bool is_word(std::string_view what) const { return is(Sort::name, what); }
};

/// The tokens of an expression, the last one being its end. Signs of other languages (`=`, `&&`, `!` …) are
/// refused with the one that is expected.
tl::expected<std::vector<Token>, ExpressionProblem> tokens_of(std::string_view expression);

}  // namespace halfsplit::model::chart
