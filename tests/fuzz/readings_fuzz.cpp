#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/diagnosis/sheet/read_readings.h"
#include "engine/model/read_circuit.h"

namespace {

using halfsplit::diagnosis::Finding;

constexpr const char* kCircuit =
    R"(<circuit xmlns="urn:halfsplit:circuit" version="1" id="t" title="T" nominal-v="12">
<about>To read filled sheets against.</about>
<parts><battery id="G1"/><fuse id="F1" rating-a="10"/><switch id="S1"><pin id="1"/><pin id="2"/><position id="off"/>
<position id="on"><contact from="1" to="2"/></position></switch><resistor id="R1" ohm="100"/>
<lamp id="P1" rated-w="5"/><twin-lamp id="P2" a-w="55" b-w="60"/><ground-point id="E1"/></parts>
<harness><wire id="W1" from="G1.+" to="F1.1" area-mm2="1" length-m="1" colour="RD"/>
<wire id="W2" from="F1.2" to="R1.1" area-mm2="1" length-m="1" colour="RD"/>
<wire id="W3" from="R1.2" to="E1" area-mm2="1" length-m="1" colour="BN"/>
<wire id="W4" from="G1.-" to="E1" area-mm2="1" length-m="1" colour="BN"/></harness>
<operating-states><state id="off" title="Off"/><state id="on" title="On"><set what="S1" to="on"/></state></operating-states>
</circuit>)";

const halfsplit::model::Circuit& circuit() {
    static const auto read = halfsplit::model::read_circuit(
        "t.circuit.xml",
        [](const std::string&) -> tl::expected<std::string, std::string> { return kCircuit; });
    if (!read) __builtin_trap();
    return *read;
}

bool is_point(std::string_view name) {
    constexpr std::string_view kPartSide = "@part";
    if (name.ends_with(kPartSide)) name.remove_suffix(kPartSide.size());
    return name == "body" || circuit().find_pin(name).has_value();
}

/// Whatever is read without error is of the circuit and can have been measured.
void check(const halfsplit::diagnosis::FilledRow& row) {
    if (row.state < 0 || row.state > 1 || row.line < 2 || !std::isfinite(row.value)) __builtin_trap();
    const bool is_voltage = row.finding.kind == Finding::Kind::voltage;
    if (is_voltage && (!is_point(row.finding.at) || !is_point(row.finding.against))) __builtin_trap();
    if (is_voltage && row.finding.at == row.finding.against) __builtin_trap();
    if (is_voltage && std::abs(row.value) > 60) __builtin_trap();
    if (row.finding.kind == Finding::Kind::current && circuit().find_wire(row.finding.at) == nullptr)
        __builtin_trap();
    const bool is_sign = row.finding.kind == Finding::Kind::sign;
    if (is_sign && (row.value < 0 || row.value > 3)) __builtin_trap();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view input(reinterpret_cast<const char*>(data), size);
    const auto rows = halfsplit::diagnosis::read_readings(circuit(), input, "a.csv");
    if (!rows && rows.error().empty()) __builtin_trap();
    if (rows)
        for (const auto& row : *rows) check(row);
    return 0;
}
