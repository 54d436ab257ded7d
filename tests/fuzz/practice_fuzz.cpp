#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/practice/scenario/read_scenario.h"
#include "engine/practice/scenario/write_scenario.h"
#include "engine/practice/session/session.h"

namespace {

using namespace halfsplit;

constexpr const char* kCircuit =
    R"(<circuit xmlns="urn:halfsplit:circuit" version="1" id="t" title="T" nominal-v="12">
<about>To practise on.</about>
<quantities><quantity id="speed" title="Speed" unit="km/h" min="0" max="100" value="0"/></quantities>
<places><place id="box" title="Box" access-min="2"/></places>
<parts><battery id="G1"/><fuse id="F1" rating-a="10" place="box"/><switch id="S1"><pin id="1"/><pin id="2"/><position id="off"/>
<position id="on"><contact from="1" to="2"/></position></switch><relay id="K1" contacts="make"/><relay id="K2" contacts="make"/>
<lamp id="P1" rated-w="5"/><coupling id="X1" pins="1"/><ground-point id="E1"/></parts>
<harness><wire id="W1" from="G1.+" to="F1.1" area-mm2="1" length-m="1" colour="RD"/>
<wire id="W2" from="F1.2" to="S1.1" area-mm2="1" length-m="1" colour="RD"/>
<wire id="W3" from="S1.2" to="K1.86" area-mm2="1" length-m="1" colour="BK"/>
<wire id="W4" from="F1.2" to="K1.30" area-mm2="1" length-m="1" colour="RD"/>
<wire id="W5" from="K1.87" to="X1.1a" area-mm2="1" length-m="1" colour="BK"/>
<wire id="W6" from="X1.1b" to="P1.1" area-mm2="1" length-m="1" colour="BK"/>
<wire id="W7" from="P1.2" to="E1" area-mm2="1" length-m="1" colour="BN"/>
<wire id="W8" from="K1.85" to="E1" area-mm2="1" length-m="1" colour="BN"/>
<wire id="W9" from="G1.-" to="E1" area-mm2="1" length-m="1" colour="BN"/></harness>
<operating-states><state id="off" title="Off"/><state id="on" title="On"><set what="S1" to="on"/></state></operating-states>
</circuit>)";

constexpr const char* kScenario =
    R"(<scenario xmlns="urn:halfsplit:scenario" version="1" id="t" title="T" level="1" circuit="t.circuit.xml"
arrives="off" budget-min="10"><job-card vehicle="V" mileage-km="1"><complaint>C.</complaint></job-card>
<symptoms><symptom state="on" at="P1" shows="dark"/></symptoms><hints><hint>H.</hint></hints>
<hidden><fault spec="open:X1.1"/></hidden></scenario>)";

/// A session's actions are not worth more time than this.
constexpr int kMostActions = 12;

tl::expected<practice::ScenarioWithCircuit, Diagnostics> read(std::string_view scenario) {
    return practice::read_scenario("a.scenario.xml",
                                   [&](const std::string& path) -> tl::expected<std::string, std::string> {
                                       if (path == "a.scenario.xml") return std::string(scenario);
                                       if (path == "t.circuit.xml") return std::string(kCircuit);
                                       return tl::unexpected(std::string("no such file"));
                                   });
}

/// What was read and written again reads the same.
void read_scenario_text(std::string_view text) {
    const auto first = read(text);
    if (!first && first.error().empty()) __builtin_trap();
    if (!first) return;
    const std::string written = practice::written_scenario(first->scenario, first->circuit, "t.circuit.xml");
    const auto second = read(written);
    if (!second) __builtin_trap();
    if (practice::written_scenario(second->scenario, second->circuit, "t.circuit.xml") != written)
        __builtin_trap();
}

/// Whatever is asked of a vehicle, minutes go forwards and what is read are numbers.
void act_on_vehicle(std::string_view lines) {
    static const auto job = read(kScenario);
    if (!job) __builtin_trap();
    auto session = practice::Session::begin(job->scenario, job->circuit);
    if (!session) __builtin_trap();
    for (int count = 0; count < kMostActions && !lines.empty(); ++count) {
        const std::size_t end = std::min(lines.find('\n'), lines.size());
        const auto action = practice::read_action(lines.substr(0, end));
        lines.remove_prefix(std::min(end + 1, lines.size()));
        if (!action) continue;
        if (practice::read_action(practice::action_text(*action)) != action) __builtin_trap();
        const double before = session->clock_min();
        const auto entry = session->act(*action);
        if (!entry && entry.error().empty()) __builtin_trap();
        if (!(session->clock_min() >= before) || !std::isfinite(session->clock_min())) __builtin_trap();
        if (!entry) continue;
        for (const practice::Observed& each : entry->observed)
            if (each.about.empty() || each.what.empty() || each.shown.empty()) __builtin_trap();
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view input(reinterpret_cast<const char*>(data), size);
    if (input.starts_with('<'))
        read_scenario_text(input);
    else
        act_on_vehicle(input);
    return 0;
}
