#include "tests/support/circuit_text.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

#include "engine/instruments/probing.h"
#include "engine/model/read_circuit.h"

namespace halfsplit::test {

namespace {

std::string all_of(const Diagnostics& problems) {
    std::string text;
    for (const Diagnostic& problem : problems) text += to_text(problem) + "\n";
    return text;
}

model::Circuit read_or_fail(const std::string& path, const model::TextSource& source) {
    auto circuit = model::read_circuit(path, source);
    if (!circuit) FAIL(all_of(circuit.error()));
    return std::move(*circuit);
}

/// Colours say nothing in these tests, but the format wants them.
std::string coloured(std::string_view harness) {
    std::string text(harness);
    const std::string start = "<wire ";
    for (std::size_t at = text.find(start); at != std::string::npos; at = text.find(start, at + 1))
        text.insert(at + start.size(), "colour='BK' ");
    return text;
}

std::string in_element(const char* name, std::string_view inside) {
    if (inside.empty()) return {};
    return "<" + std::string(name) + ">" + std::string(inside) + "</" + name + ">";
}

}  // namespace

model::Circuit circuit_of(std::string_view parts, std::string_view harness, std::string_view quantities,
                          std::string_view states, double nominal_v) {
    const std::string text =
        "<circuit xmlns=\"urn:halfsplit:circuit\" version=\"1\" id=\"test\" title=\"Test\" nominal-v=\"" +
        std::to_string(nominal_v) + "\"><about>For a test.</about>" + in_element("quantities", quantities) +
        "<parts>" + std::string(parts) + "</parts>" + in_element("harness", coloured(harness)) +
        in_element("operating-states", states) + "</circuit>";
    return read_or_fail("test.circuit.xml",
                        [&](const std::string&) -> tl::expected<std::string, std::string> { return text; });
}

std::string file_text(const std::string& path) {
    std::ifstream file(std::string(HALFSPLIT_SOURCE_DIR) + "/" + path, std::ios::binary);
    if (!file) FAIL("cannot read " + path);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

model::Circuit circuit_file(const std::string& path) {
    return read_or_fail(path, [](const std::string& asked) -> tl::expected<std::string, std::string> {
        return file_text(asked);
    });
}

std::vector<network::Fault> faults_of(const model::Circuit& circuit, const std::vector<std::string>& texts) {
    std::vector<network::Fault> faults;
    for (const std::string& text : texts) {
        auto fault = network::parse_fault(circuit, text);
        if (!fault) FAIL(text + ": " + fault.error());
        faults.push_back(std::move(*fault));
    }
    return faults;
}

simulation::Settled settled(const model::Circuit& circuit, const std::vector<std::string>& sets,
                            const std::vector<std::string>& faults) {
    network::Situation situation;
    situation.faults = faults_of(circuit, faults);
    std::vector<model::StateStep> steps;
    for (const std::string& set : sets) {
        const std::size_t equals = set.find('=');
        steps.emplace_back(model::SetStep{set.substr(0, equals), set.substr(equals + 1), {}});
        steps.emplace_back(model::SettleStep{1});
    }
    auto result = simulation::settle(circuit, situation, steps);
    if (!result) FAIL(all_of(result.error()));
    return std::move(*result);
}

double volts_at(const simulation::Settled& settled, const std::string& point) {
    const auto found = settled.network.point_nodes.find(point);
    if (found == settled.network.point_nodes.end()) FAIL("no point " + point);
    return settled.point.potential_at(found->second);
}

double amperes_in(const simulation::Settled& settled, const std::string& branch) {
    return instruments::current_through(settled, branch);
}

std::string condition_of(const model::Circuit& circuit, const simulation::Settled& settled,
                         const std::string& part) {
    const model::Part* found = circuit.find_part(part);
    if (found == nullptr) FAIL("no part " + part);
    return found
        ->positions[static_cast<std::size_t>(
            settled.point.conditions[static_cast<std::size_t>(found - circuit.parts.data())])]
        .id;
}

}  // namespace halfsplit::test
