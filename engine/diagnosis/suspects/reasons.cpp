#include "engine/diagnosis/suspects/reasons.h"

#include <set>

#include "engine/diagnosis/suspects/weighing.h"

namespace halfsplit::diagnosis {
namespace {

Reason::Verdict verdict_on(const Hypotheses& hypotheses, const Reading& reading,
                           const Expectation& expected) {
    if (expected.says_nothing()) return Reason::Verdict::says_nothing;
    const Likelihood likelihood = Weighing(hypotheses, reading)(expected);
    return likelihood.contradicts() ? Reason::Verdict::contradicts : Reason::Verdict::explains;
}

class ConcernBuilder {
  public:
    explicit ConcernBuilder(const model::Circuit& circuit) : circuit_(circuit) {}

    void add_wire(int wire) {
        wires_.insert(wire);
        add_place(circuit_.wires[at(wire)].from.part);
        add_place(circuit_.wires[at(wire)].to.part);
    }

    /// `pin` below 0: all of it.
    void add_part(int part, int pin) {
        parts_.insert(part);
        add_place(part);
        for (int wire = 0; wire < static_cast<int>(circuit_.wires.size()); ++wire)
            for (const model::PinRef end : {circuit_.wires[at(wire)].from, circuit_.wires[at(wire)].to})
                if (end.part == part && (pin < 0 || is_on_contact(end, pin))) wires_.insert(wire);
    }

    Concern built() const {
        return {
            {places_.begin(), places_.end()}, {parts_.begin(), parts_.end()}, {wires_.begin(), wires_.end()}};
    }

  private:
    /// A coupling's contact has two sides, `pin` is the first.
    bool is_on_contact(model::PinRef end, int pin) const {
        const bool is_coupling = circuit_.parts[at(end.part)].kind->pin_policy == model::PinPolicy::counted;
        return end.pin == pin || (is_coupling && end.pin == pin + 1);
    }

    void add_place(int part) {
        const std::string& id = circuit_.parts[at(part)].place;
        for (int place = 0; place < static_cast<int>(circuit_.places.size()); ++place)
            if (circuit_.places[at(place)].id == id) places_.insert(place);
    }

    const model::Circuit& circuit_;
    std::set<int> places_;
    std::set<int> parts_;
    std::set<int> wires_;
};

}  // namespace

std::vector<Reason> reasons_for(const Hypotheses& hypotheses, int hypothesis, const Evidence& evidence) {
    std::vector<Reason> reasons;
    for (const Reading& reading : distinct_readings(evidence.readings)) {
        const Expectation expected = hypotheses.expectation(hypothesis, reading.state, reading.finding);
        reasons.push_back({reading, expected, verdict_on(hypotheses, reading, expected)});
    }
    return reasons;
}

Concern concern_of(const model::Circuit& circuit, const network::Fault& fault) {
    ConcernBuilder builder(circuit);
    if (fault.subject == network::FaultSubject::wire) {
        builder.add_wire(fault.wire);
        if (fault.other >= 0) builder.add_wire(fault.other);
        return builder.built();
    }
    const bool is_contact = fault.subject == network::FaultSubject::contact;
    builder.add_part(fault.part, is_contact ? fault.pin : -1);
    if (is_contact && fault.other >= 0) builder.add_part(fault.part, fault.other);
    return builder.built();
}

}  // namespace halfsplit::diagnosis
