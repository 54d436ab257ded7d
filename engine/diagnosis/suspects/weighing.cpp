#include "engine/diagnosis/suspects/weighing.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::diagnosis {
namespace {

double mistake_about(Finding::Kind kind, const Hypotheses& hypotheses) {
    const Dictionary& dictionary = hypotheses.dictionary();
    const double share = hypotheses.assumptions().mistaken_complaint;
    if (kind != Finding::Kind::sign) return share;
    const auto signs = std::ranges::count(dictionary.findings, Finding::Kind::sign, &Finding::kind);
    return share / (static_cast<double>(signs) * static_cast<double>(dictionary.states.size()));
}

}  // namespace

Weighing::Weighing(const Hypotheses& hypotheses, const Reading& reading)
    : assumptions_(hypotheses.assumptions()),
      kind_(hypotheses.dictionary().findings[at(reading.finding)].kind),
      value_(reading.value),
      range_(hypotheses.range(kind_)),
      sound_(hypotheses.dictionary().value(reading.state, 0, reading.finding)),
      // Whatever is said of what is as it was is no complaint.
      is_complaint_(reading.is_complaint && std::isfinite(sound_) && value_ != sound_),
      mistaken_(mistake_about(kind_, hypotheses)) {}

Likelihood Weighing::operator()(const Expectation& expected) const {
    return is_complaint_
               ? likelihood_of_complaint(kind_, expected, sound_, value_, range_, mistaken_, assumptions_)
               : likelihood_of(kind_, expected, value_, range_, assumptions_);
}

}  // namespace halfsplit::diagnosis
