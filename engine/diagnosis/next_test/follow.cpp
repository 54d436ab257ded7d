#include "engine/diagnosis/next_test/follow.h"

#include <algorithm>
#include <utility>

#include "engine/diagnosis/next_test/decide.h"
#include "engine/diagnosis/next_test/think_ahead.h"

namespace halfsplit::diagnosis {
namespace {

class Follower {
  public:
    Follower(Hypotheses& hypotheses, const Workshop& workshop, Permitted permitted,
             const PatientVehicle& vehicle, Evidence evidence, const Deviate& deviate)
        : hypotheses_(hypotheses),
          workshop_(workshop),
          permitted_(std::move(permitted)),
          vehicle_(vehicle),
          evidence_(std::move(evidence)),
          deviate_(deviate),
          bench_(fresh_bench(workshop)) {}

    Diagnosis run(int most_steps) {
        for (int step = 0; step < most_steps && !is_over_; ++step) {
            auto [ranking, choice] =
                decide(hypotheses_, evidence_, workshop_, bench_, permitted_, Patience::somebody_waits);
            if (deviate_) choice = deviate_(std::move(choice), evidence_, bench_);
            for (int portion = 0; portion < kPortionsAhead; ++portion)
                if (!think_ahead(hypotheses_, ranking, choice, evidence_)) break;
            diagnosis_.steps.push_back({std::move(choice), 0, false, 0});
            Diagnosis::Step& now = diagnosis_.steps.back();
            if (now.choice.kind == Choice::Kind::test)
                take(now);
            else
                repair(now);
            diagnosis_.minutes += now.minutes;
        }
        return std::move(diagnosis_);
    }

  private:
    void take(Diagnosis::Step& step) {
        const Test& test = step.choice.test;
        step.minutes = step.choice.minutes;
        ++diagnosis_.tests;
        go_to_test(workshop_, bench_, test);
        const std::optional<double> value = vehicle_.read(test);
        if (!value) {
            std::erase(permitted_.states, test.state);
            return;
        }
        step.value = *value;
        evidence_.readings.push_back({test.state, test.finding, *value});
    }

    double get_at(int fault) {
        const int place = workshop_.fault_place[at(fault)];
        if (place < 0 || bench_.open[at(place)] != 0) return 0;
        bench_.open[at(place)] = 1;
        return workshop_.access_min[at(place)];
    }

    void repair(Diagnosis::Step& step) {
        ++diagnosis_.repairs;
        const std::vector<int>& group = step.choice.group;
        if (group.front() == 0) {  // nothing is found to be wrong, and nobody looks any further
            is_over_ = true;
            return;
        }
        for (const int member : group) {
            const std::vector<int> faults = hypotheses_.faults_of(member);
            for (const int fault : faults) step.minutes += get_at(fault);
            if (group.size() > 1) step.minutes += workshop_.effort.look_min;
            if (std::ranges::any_of(faults, vehicle_.is_broken)) return mend(step, faults);
        }
        ++diagnosis_.needless_repairs;
        for (const int fault : hypotheses_.faults_of(group.front()))
            step.minutes += workshop_.repair_min[at(fault)];
        step.minutes += workshop_.effort.needless_min;
        for (const int member : group)
            if (!hypotheses_.is_pair(member) && member != 0) evidence_.cleared.push_back(member - 1);
        // A pair that was not it says that neither of them is.
        for (const int fault : hypotheses_.faults_of(group.front())) evidence_.cleared.push_back(fault);
    }

    void mend(Diagnosis::Step& step, const std::vector<int>& faults) {
        step.was_broken = true;
        for (const int fault : faults) {
            step.minutes += workshop_.repair_min[at(fault)];
            if (vehicle_.is_broken(fault) && vehicle_.mend(fault)) diagnosis_.is_sound = true;
            evidence_.cleared.push_back(fault);
        }
        is_over_ = diagnosis_.is_sound;
        evidence_.readings.clear();
        if (!is_over_ && vehicle_.complain) evidence_.readings = vehicle_.complain();
    }

    Hypotheses& hypotheses_;
    const Workshop& workshop_;
    Permitted permitted_;
    const PatientVehicle& vehicle_;
    Evidence evidence_;
    const Deviate& deviate_;
    Bench bench_;
    Diagnosis diagnosis_;
    bool is_over_ = false;
};

}  // namespace

Diagnosis follow(Hypotheses& hypotheses, const Workshop& workshop, const Permitted& permitted,
                 const PatientVehicle& vehicle, Evidence evidence, int most_steps, const Deviate& deviate) {
    return Follower(hypotheses, workshop, permitted, vehicle, std::move(evidence), deviate).run(most_steps);
}

}  // namespace halfsplit::diagnosis
