#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/instruments/instrument.h"
#include "engine/instruments/recorder.h"
#include "engine/practice/session/observed.h"
#include "engine/simulation/settle.h"

namespace halfsplit::practice {

/// What an instrument shows at a vehicle that goes on living meanwhile: of what pulses faster than a
/// voltmeter follows, its mean; of what goes to and fro slowly, the largest it comes to, and the text says
/// both ends.
instruments::Measured reading_in_time(const model::Circuit& circuit, const simulation::Settled& settled,
                                      const std::string& instrument, const instruments::Leads& leads);

/// A recorder's finest step in time.
inline constexpr double kRecorderSampleS = 0.001;
/// Its step where so many seconds have to fit what it holds.
double sampled_every_s(double seconds);

/// Least and most of one channel of the recorder, as it shows them.
std::vector<Observed> extremes(const instruments::Channel& channel, double least, double most);

}  // namespace halfsplit::practice
