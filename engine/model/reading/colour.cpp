#include "engine/model/reading/colour.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "engine/base/nearest.h"

namespace halfsplit::model::reading {
namespace {

constexpr std::array<std::string_view, 14> kCodes{"BK", "BN", "RD", "OG", "YE", "GN", "BU",
                                                  "VT", "GY", "WH", "PK", "GD", "TQ", "SR"};

bool is_code(std::string_view text) {
    return std::find(kCodes.begin(), kCodes.end(), text) != kCodes.end();
}

}  // namespace

tl::expected<WireColour, std::string> read_colour(std::string_view text) {
    std::string upper(text);
    for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    const WireColour colour{upper.substr(0, 2), upper.size() > 2 ? upper.substr(2) : ""};
    const bool known = is_code(colour.base) && (colour.tracer.empty() || is_code(colour.tracer));
    if (!known)
        return tl::unexpected(
            "'" + std::string(text) +
            "' is no colour; base and tracer are expected as letters of IEC 60757, such as RD "
            "or GNYE: " +
            listed(std::vector<std::string_view>{kCodes.begin(), kCodes.end()}));
    if (colour.base == colour.tracer)
        return tl::unexpected("the tracer of '" + std::string(text) +
                              "' has the colour of its base; another or none is expected");
    return colour;
}

}  // namespace halfsplit::model::reading
