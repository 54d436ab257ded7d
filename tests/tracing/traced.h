#pragma once

#include <catch2/catch.hpp>

#include <string>

#include "engine/tracing/trace.h"
#include "tests/tracing/bench.h"

namespace halfsplit::test {

/// The trace of a part or point by its name, which has to be there.
inline tracing::Trace traced(const Bench& bench, const std::string& name,
                             tracing::Extent extent = tracing::Extent::now) {
    const auto found = tracing::trace(bench.circuit, bench.network, bench.point, name, {extent, 64});
    REQUIRE(found);
    return *found;
}

}  // namespace halfsplit::test
