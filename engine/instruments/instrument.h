#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/model/circuit.h"
#include "engine/simulation/settle.h"

namespace halfsplit::instruments {

/// Where the leads are. `at` is a point ("M3.1"), for series instruments a wire or plug contact, for
/// fuse-millivolts a fuse. `against` is the other lead's point, "body" where nobody says.
struct Leads {
    std::string at;
    std::string against = "body";
};

/// What an instrument shows, and within which limits the quantity then lies by its accuracy.
struct Reading {
    std::string instrument;
    std::string at;
    std::string against;  ///< "" where the instrument has no second lead
    bool valid = true;    ///< false: the instrument shows nothing one may rely on
    double value = 0;     ///< as shown, in `unit`
    double low = 0;
    double high = 0;
    std::string unit;
    std::string shown;                  ///< "12.31 V", "glows dimly"
    std::vector<std::string> cautions;  ///< what to mind, or what has gone wrong
};

/// The circuit an instrument is brought to: settled, with nothing connected yet.
struct Bench {
    const model::Circuit& circuit;
    const simulation::Settled& settled;

    /// The same circuit, come to rest again with the instrument connected.
    tl::expected<simulation::Settled, Diagnostics> with(std::vector<network::Attachment> attachments) const;
    tl::expected<simulation::Settled, Diagnostics> with(network::Insertion insertion) const;
};

using Measured = tl::expected<Reading, Diagnostics>;

/// How the leads go on.
enum class Connection {
    two_points,   ///< between two points
    in_series,    ///< in a wire or plug contact that is parted for it
    around_wire,  ///< around a wire or at a plug contact, nothing parted
    on_fuse       ///< on the two test points of a fuse
};

struct Instrument {
    std::string_view id;
    std::string_view title;
    std::string_view text;  ///< what it loads the circuit with, and what it is good for
    Connection connection = Connection::two_points;
    Measured (*measure)(const Bench& bench, const Leads& leads) = nullptr;
};

/// All instruments, in the order of the manual.
std::span<const Instrument> instruments();

/// nullptr where none has this id.
const Instrument* find_instrument(std::string_view id);

/// Brings one to the circuit. Errors: no such instrument, point, wire or fuse; or no operating point with it
/// connected.
Measured measure(const Bench& bench, std::string_view instrument_id, const Leads& leads);

}  // namespace halfsplit::instruments
