#pragma once

#include <functional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/dictionary/finding.h"
#include "engine/diagnosis/limits/limits.h"
#include "engine/diagnosis/sheet/caution.h"
#include "engine/diagnosis/sheet/practice.h"
#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// One thing to look at or to measure in a state, and what it should be.
struct SheetRow {
    enum class Kind {
        sign,     ///< what a part is seen or heard to do
        voltage,  ///< a point against the body
        drop      ///< along a run of wires, across a fuse or a contact, under load
    };
    Kind kind = Kind::voltage;
    std::string at;               ///< point, part of a sign, or fuse
    std::string against;          ///< point, "body"; "" where the instrument has no second lead
    std::string instrument;       ///< id of one of instruments::instruments(), or kLookAndListen
    int part = -1;                ///< `at` belongs to it: index into the circuit
    int place = -1;               ///< index into the circuit: where one stands for it
    std::vector<int> wires = {};  ///< indices: those that end at the point, or that the run is made of

    Sign sign = Sign::none;  ///< of signs
    /// V, as the meter shows it and within which limits: 99 of 100 sound vehicles, each limit wider by what
    /// the meter may be wrong there. Where nothing drives the point there are no limits.
    double expected = 0;
    double low = 0;
    double high = 0;
    bool floating = false;
    /// Goes to and fro by itself: a sender's signal, a lamp that blinks. Then `low` and `high` are the ends
    /// of its way, and `expected` and `sign` what it happens to be in the moment the state was reached.
    bool pulses = false;
    bool bends = false;                  ///< the limits are a guide: see Limits
    Practice practice = Practice::none;  ///< what the row is held against besides
    double allowed_v = 0;                ///< by it; 0 where it is none
    /// The circuit is made so that sound vehicles drop more than practice allows: then the limits count.
    bool exceeds_practice() const {
        return practice != Practice::none && (high > allowed_v || -low > allowed_v);
    }
    int fuse = -1;    ///< that feeds the point: index of the part, -1 where it is not one
    int ground = -1;  ///< ground point at which the current ends, likewise
};

/// The instrument of signs.
inline constexpr const char* kLookAndListen = "look-and-listen";

/// A part that may be in another condition in a sound vehicle: the state's limits do not hold then.
struct SheetDoubt {
    int part = 0;
    int now = 0;   ///< condition: index into the part's positions
    int then = 0;  ///< the other
    double chance = 0;
};

struct StateSheet {
    int state = 0;                    ///< index into the circuit
    std::vector<SheetRow> rows = {};  ///< signs first, then place by place, in each from supply to ground
    std::vector<SheetDoubt> doubts;
};

/// What a technician takes to the vehicle.
struct Sheet {
    std::vector<Caution> cautions;
    std::vector<StateSheet> states;
};

struct SheetOptions {
    std::vector<int> states = {};  ///< indices into the circuit, in the order wanted; empty = all
    std::vector<int> parts = {};   ///< indices: only rows on these; empty = all
    /// Told before each state: how many are done, and of how many.
    std::function<void(int, int)> tell = {};
};

/// Works out what should be found at a sound vehicle. Errors: a state the circuit does not come to rest in.
tl::expected<Sheet, Diagnostics> make_sheet(const model::Circuit& circuit, const SheetOptions& options = {});

}  // namespace halfsplit::diagnosis
