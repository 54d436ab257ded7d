#include "ui/window/hands/faults_of.h"

#include <algorithm>
#include <string_view>

#include "engine/base/index.h"

namespace halfsplit::window {

namespace {

/// What may stand before and after a name in a fault's text.
constexpr std::string_view kBefore = ":+-,";
constexpr std::string_view kAfter = ".=+-,";

}  // namespace

bool is_about(const std::string& fault, const std::string& name) {
    const std::size_t start = fault.find(':');
    if (start == std::string::npos || name.empty()) return false;
    for (std::size_t found = fault.find(name, start); found != std::string::npos;
         found = fault.find(name, found + 1)) {
        const std::size_t after = found + name.size();
        const bool begins = kBefore.find(fault[found - 1]) != std::string_view::npos;
        const bool ends = after == fault.size() || kAfter.find(fault[after]) != std::string_view::npos;
        if (begins && ends) return true;
    }
    return false;
}

std::vector<std::string> faults_about(const std::vector<std::string>& all, const std::string& name) {
    std::vector<std::string> found;
    std::ranges::copy_if(all, std::back_inserter(found),
                         [&](const std::string& fault) { return is_about(fault, name); });
    return found;
}

std::string marked_by(const model::Circuit& circuit, const network::Fault& fault) {
    if (fault.wire >= 0) return circuit.wires[at(fault.wire)].id;
    if (fault.subject == network::FaultSubject::contact && fault.pin >= 0)
        return circuit.point_name({fault.part, fault.pin});
    return fault.part >= 0 ? circuit.parts[at(fault.part)].id : "";
}

}  // namespace halfsplit::window
