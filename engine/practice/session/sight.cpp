#include "engine/practice/session/sight.h"

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/tracing/step.h"

namespace halfsplit::practice {

using model::Circuit;
using network::Fault;

namespace {

/// Where along it the model does not say, but from where to where it goes.
std::string way_of(const Circuit& circuit, const model::Wire& wire) {
    const std::string from = tracing::place_title(circuit, wire.from.part);
    const std::string to = tracing::place_title(circuit, wire.to.part);
    if (from.empty() || to.empty()) return {};
    return from == to ? " (" + from + ")" : " on the way from \"" + from + "\" to \"" + to + "\"";
}

std::string chafed(const Circuit& circuit, const Fault& fault) {
    const std::string begin = "rubbed through" + way_of(circuit, circuit.wires[at(fault.wire)]);
    return begin + (fault.chafing->shorts
                        ? ", bare copper shows, and where it lay the metal is polished"
                        : ", bare copper shows; the few strands that are left part when it is bent");
}

std::string drains(const Fault& fault) {
    return "on the bench, with nothing to wake it, it goes on drawing " + number_text(fault.value) + " mA";
}

}  // namespace

std::string sight_of(const Circuit& circuit, const Fault& fault) {
    if (fault.chafing) return chafed(circuit, fault);
    if (fault.spec->kind == "quiescent-drain") return drains(fault);
    return std::string(fault.spec->text);
}

}  // namespace halfsplit::practice
