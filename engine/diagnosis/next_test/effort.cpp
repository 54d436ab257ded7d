#include "engine/diagnosis/next_test/effort.h"

#include "engine/diagnosis/place_of.h"

namespace halfsplit::diagnosis {
namespace {

using network::FaultSubject;

bool needs_getting_at(const model::Circuit& circuit, const Finding& finding) {
    if (finding.kind != Finding::Kind::sign) return true;
    const model::Part* part = circuit.find_part(finding.at);
    return part != nullptr && part->kind->letter == "F";
}

}  // namespace

double repair_minutes(const model::Circuit& circuit, FaultSubject subject, int part, const Effort& effort) {
    switch (subject) {
        case FaultSubject::wire:
            return effort.mend_wire_min;
        case FaultSubject::contact:
            return effort.mend_contact_min;
        case FaultSubject::plug:
            return effort.plug_in_min;
        case FaultSubject::part:
            break;
    }
    return circuit.parts[at(part)].kind->letter == "F" ? effort.replace_fuse_min : effort.replace_part_min;
}

Workshop workshop_for(const model::Circuit& circuit, const Dictionary& dictionary, const Effort& effort) {
    Workshop workshop{effort, {}, {}, {}, {}};
    for (const model::Place& place : circuit.places) workshop.access_min.push_back(place.access_min);
    for (const Finding& finding : dictionary.findings)
        workshop.test_place.push_back(needs_getting_at(circuit, finding) ? finding.place : -1);
    for (const PossibleFault& possible : dictionary.faults) {
        const network::Fault& fault = possible.fault;
        workshop.fault_place.push_back(fault.subject == FaultSubject::wire
                                           ? easier_place(circuit, circuit.wires[at(fault.wire)])
                                           : place_of(circuit, fault.part));
        workshop.repair_min.push_back(repair_minutes(circuit, fault.subject, fault.part, effort));
    }
    return workshop;
}

Bench fresh_bench(const Workshop& workshop) {
    return {std::vector<char>(workshop.access_min.size(), 0), -1};
}

double test_minutes(const Workshop& workshop, const Bench& bench, Finding::Kind kind, const Test& test) {
    const Effort& effort = workshop.effort;
    double minutes = kind == Finding::Kind::sign      ? effort.sign_min
                     : kind == Finding::Kind::voltage ? effort.voltage_min
                                                      : effort.current_min;
    const int place = workshop.test_place[at(test.finding)];
    if (place >= 0 && bench.open[at(place)] == 0) minutes += workshop.access_min[at(place)];
    return test.state == bench.state ? minutes : minutes + effort.state_min;
}

void go_to_test(const Workshop& workshop, Bench& bench, const Test& test) {
    const int place = workshop.test_place[at(test.finding)];
    if (place >= 0) bench.open[at(place)] = 1;
    bench.state = test.state;
}

}  // namespace halfsplit::diagnosis
