#include "engine/model/chart/value.h"

namespace halfsplit::model::chart {

std::string_view type_name(ValueType type) {
    switch (type) {
        case ValueType::boolean:
            return "true or false";
        case ValueType::number:
            return "a number";
        case ValueType::text:
            break;
    }
    return "a text";
}

Value empty_value(ValueType type) {
    switch (type) {
        case ValueType::boolean:
            return false;
        case ValueType::number:
            return 0.0;
        case ValueType::text:
            break;
    }
    return std::string();
}

}  // namespace halfsplit::model::chart
