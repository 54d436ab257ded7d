#pragma once

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/diagnosis/suspects/assumptions.h"

namespace halfsplit::diagnosis {

/// What a suspect leads one to find somewhere.
struct Expectation {
    double mean = 0;      ///< V or A; of a sign, the number of the Sign; NaN: nobody knows
    double sigma = 0;     ///< 0 for signs
    double nonsense = 0;  ///< share of readings that have nothing to do with it

    bool says_nothing() const { return mean != mean; }
};

/// What to expect of one finding in one state, whatever the suspect: what does not depend on that worked out
/// once.
class Expecting {
  public:
    /// `sound` is what the sound vehicle shows, `scatter` the standard deviation of sound vehicles.
    Expecting(const Finding& finding, double sound, double scatter, const Assumptions& assumptions);

    /// Of a suspect for which this was predicted.
    Expectation operator()(float value, Told told) const;
    /// Whether a single reading here decides between two suspects for which these were predicted, see
    /// are_told_apart().
    bool tells_apart(float one, float other, Told told) const;
    /// What is not further apart than this is never told apart: a vehicle's own scatter covers it.
    float least_apart() const;

  private:
    const Assumptions& assumptions_;
    Finding::Kind kind_;
    const Meter& meter_;
    double sound_;
    double own_variance_;  ///< without the meter's
};

/// Variance of a meter's error when it shows this: its limits are those of an even distribution (JCGM 100,
/// 4.3.7).
double meter_variance(const Meter& meter, double shown);

/// How likely a value is, from one distribution: of a voltage or current a density, of a sign a probability.
struct Likelihood {
    double sound = 0;     ///< log of what a reading taken properly adds
    double nonsense = 0;  ///< log of what nonsense adds
    double sum() const;   ///< log of both together
    bool contradicts() const { return nonsense > sound; }
};

/// `range` is how wide nonsense scatters, V or A. `expected` must say something.
Likelihood likelihood_of(Finding::Kind kind, const Expectation& expected, double value, double range,
                         const Assumptions& assumptions);

/// The same of something that the customer complained of and the workshop saw, where the sound vehicle shows
/// `sound` and not that. `mistaken` is the share of complaints that are a mistake about just this. Where the
/// suspect leads to what the sound vehicle leads to, there was nothing to complain of.
Likelihood likelihood_of_complaint(Finding::Kind kind, Expectation expected, double sound, double value,
                                   double range, double mistaken, const Assumptions& assumptions);

/// Whether a single reading here decides between two: their limits (the middle 99 %) do not overlap; signs
/// differ.
bool are_told_apart(Finding::Kind kind, const Expectation& one, const Expectation& other);

}  // namespace halfsplit::diagnosis
