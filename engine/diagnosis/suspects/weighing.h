#pragma once

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/readings.h"

namespace halfsplit::diagnosis {

/// How likely one reading is with whatever suspect, a complaint as such: what does not depend on the suspect
/// worked out once. Borrows the hypotheses.
class Weighing {
  public:
    Weighing(const Hypotheses& hypotheses, const Reading& reading);

    /// With a suspect that leads to this, which must say something.
    Likelihood operator()(const Expectation& expected) const;

  private:
    const Assumptions& assumptions_;
    Finding::Kind kind_;
    double value_;
    double range_;
    double sound_;       ///< what the sound vehicle shows
    bool is_complaint_;  ///< of something that is not as in the sound vehicle
    double mistaken_;    ///< share of complaints that are a mistake about this
};

}  // namespace halfsplit::diagnosis
