#include "engine/instruments/voltmeter.h"

#include <array>

#include "engine/instruments/display.h"
#include "engine/instruments/kinds.h"
#include "engine/instruments/probing.h"

namespace halfsplit::instruments {

namespace {

/// Low-impedance mode: kilohm range by design; the usual 3 kohm is from memory.
constexpr double kLowImpedanceOhm = 3e3;

/// A meter of 6000 steps, +-(0.5 % + 2 digits): common practice for workshop multimeters.
constexpr std::array kVoltRanges{Range{0.5999, 1e-4, "mV", 1000, 1}, Range{5.999, 1e-3, "V", 1, 3},
                                 Range{59.99, 1e-2, "V", 1, 2}, Range{599.9, 1e-1, "V", 1, 1}};
constexpr Accuracy kVoltAccuracy{0.5, 2};

Measured read_voltage(const Bench& bench, const Leads& leads, double input_ohm) {
    if (const auto checked = check_points(bench, leads); !checked) return tl::unexpected(checked.error());
    const auto connected = bench.with({{"voltmeter", leads.at, leads.against, model::Resistance{input_ohm}}});
    if (!connected) return tl::unexpected(connected.error());
    Reading reading = volts_on_display(voltage_between(*connected, leads.at, leads.against));
    for (const std::string& point : {leads.at, leads.against})
        if (is_floating(bench.settled, point))
            reading.cautions.push_back("nothing drives " + point +
                                       ": what the meter shows there is its own doing");
    return reading;
}

Measured high_impedance(const Bench& bench, const Leads& leads) {
    return read_voltage(bench, leads, kVoltmeterOhm);
}

Measured low_impedance(const Bench& bench, const Leads& leads) {
    Measured reading = read_voltage(bench, leads, kLowImpedanceOhm);
    if (reading && (is_electronic(bench.circuit, leads.at) || is_electronic(bench.circuit, leads.against)))
        reading->cautions.emplace_back(
            "this mode draws several milliamperes: on senders and control-unit signals use 10 Mohm");
    return reading;
}

Measured across_fuse(const Bench& bench, const Leads& leads) {
    const model::Part* fuse = bench.circuit.find_part(leads.at);
    if (fuse == nullptr || fuse->kind->letter != "F" || fuse->pins.size() != 2)
        return tl::unexpected(
            one_problem("'" + leads.at + "' is no fuse; this reading is taken on a fuse's two test points"));
    const Leads on_fuse{fuse->id + "." + fuse->pins[0].id + "@part",
                        fuse->id + "." + fuse->pins[1].id + "@part"};
    Measured reading = read_voltage(bench, on_fuse, kVoltmeterOhm);
    if (reading && reading->value > 1)
        reading->cautions.push_back(fuse->id + " is open: nearly all of the supply stands across it");
    return reading;
}

}  // namespace

Reading volts_on_display(double volts) {
    Reading reading;
    show(volts, kVoltRanges, kVoltAccuracy, "V", reading);
    return reading;
}

Instrument voltmeter() {
    return {
        "voltmeter", "Voltmeter",
        "Multimeter, 10 Mohm: hardly loads the circuit, so it also shows voltages that could drive nothing.",
        Connection::two_points, &high_impedance};
}

Instrument low_impedance_voltmeter() {
    return {"voltmeter-low-impedance", "Voltmeter, low impedance",
            "Multimeter in its low-impedance mode, 3 kohm: a few milliamperes make stray voltages collapse.",
            Connection::two_points, &low_impedance};
}

Instrument fuse_millivolts() {
    return {"fuse-millivolts", "Millivolts across a fuse",
            "Voltmeter on a fuse's two test points: its own resistance turns current into millivolts, "
            "nothing is parted.",
            Connection::on_fuse, &across_fuse};
}

}  // namespace halfsplit::instruments
