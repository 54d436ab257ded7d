#pragma once

#include "engine/instruments/instrument.h"

namespace halfsplit::instruments {

/// One function an instrument, each in its own file; instrument.cpp lists them.
Instrument voltmeter();
Instrument low_impedance_voltmeter();
Instrument test_lamp();
Instrument led_test_lamp();
Instrument ohmmeter();
Instrument ammeter();
Instrument milliammeter();
Instrument clamp();
Instrument jumper();
Instrument fuse_millivolts();

}  // namespace halfsplit::instruments
