#pragma once

#include <string>
#include <string_view>
#include <variant>

namespace halfsplit::model::chart {

/// What an expression gives. The three are never converted into each other.
enum class ValueType : unsigned char { boolean, number, text };

/// In the order of ValueType.
using Value = std::variant<bool, double, std::string>;

inline ValueType type_of(const Value& value) {
    return static_cast<ValueType>(value.index());
}

/// As messages call it: "true or false", "a number", "a text".
std::string_view type_name(ValueType type);

/// What a data item holds whose own expression could not be evaluated: false, 0 or ''.
Value empty_value(ValueType type);

}  // namespace halfsplit::model::chart
