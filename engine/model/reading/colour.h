#pragma once

#include <string>
#include <string_view>

#include <tl/expected.hpp>

namespace halfsplit::model::reading {

struct WireColour {
    std::string base;
    std::string tracer;  ///< "" where the wire has one colour
};

/// Two-letter colour codes of IEC 60757:2021 written together, base colour first, then the tracer (harness
/// habit): "RD", "GNYE". Small letters mean the same.
tl::expected<WireColour, std::string> read_colour(std::string_view text);

}  // namespace halfsplit::model::reading
