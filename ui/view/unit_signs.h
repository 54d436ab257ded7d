#pragma once

#include <string>

namespace halfsplit::view {

/// "4.7 kohm" as "4.7 kΩ", "20 degC" as "20 °C": files, terminals and tables for other programs have units in
/// the letters of any keyboard; paper and window can show the signs of the SI (SI brochure, 9th edition,
/// from memory).
std::string with_unit_signs(const std::string& text);

/// A unit alone.
std::string unit_sign(const std::string& unit);

}  // namespace halfsplit::view
