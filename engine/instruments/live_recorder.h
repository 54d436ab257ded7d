#pragma once

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/instruments/live_bench.h"
#include "engine/instruments/strip.h"

namespace halfsplit::instruments {

/// A recorder of four channels that stays at a live bench and keeps the last minute.
class LiveRecorder {
  public:
    /// Between samples: seventy in a round of a road speed sender's 56 Hz.
    static constexpr double kEveryS = 0.00025;
    static constexpr double kKeptS = 60;

    /// A message where it cannot be: all channels are taken, it is recorded already, or both clips are on one
    /// point.
    tl::expected<void, Diagnostics> put_on(LiveBench& bench, const Channel& channel);
    /// `channel` is below the count of channels. What it has recorded is forgotten.
    tl::expected<void, Diagnostics> take_off(LiveBench& bench, std::size_t channel);

    /// Time goes by at the bench, and what it brings is kept. Where nothing is on it only goes by.
    tl::expected<void, Diagnostics> advance(LiveBench& bench, double seconds);
    /// Time is counted anew: what has been is forgotten, the channels stay on.
    void begin_anew();

    const Strip& strip() const { return strip_; }
    bool is_on() const { return !strip_.channels.empty(); }

  private:
    tl::expected<void, Diagnostics> connect_to(LiveBench& bench) const;
    void keep(const LiveBench& bench);
    void forget_what_is_old();

    Strip strip_;
};

}  // namespace halfsplit::instruments
