#pragma once

namespace halfsplit::diagnosis {

// What a part of a circuit may drop under load, in a 12 V system. Common practice: a workshop manual that
// quotes SAE recommendations and an encyclopedia page on voltage-drop tests agree on 0.2 V for a wire or
// cable and 0.3 V for the contact of a switch, relay or solenoid; the manual gives 0.1 V for a connection of
// high current, which a coupling on the way adds to its wires; the page gives 0.1 V for a ground. Systems
// of 24 V carry half the current for the same power: the same shares of the voltage, so twice the drop
// (derived).
inline constexpr double kWireDropV = 0.2;
inline constexpr double kContactDropV = 0.3;
inline constexpr double kConnectionDropV = 0.1;
inline constexpr double kGroundDropV = 0.1;

/// A blade fuse at its rated current, with its holder's two contacts: the 125 mV that high-current blade
/// fuses are allowed at 20 A (as quoted from their data sheet), taken for all sizes.
inline constexpr double kFuseDropV = 0.125;

/// The voltage the figures above are for.
inline constexpr double kPracticeV = 12;

/// Which of them a row is held against.
enum class Practice { none, wire, contact, ground, fuse };

/// `couplings`: how many contacts of couplings a run of wire, or a way to ground, goes through.
constexpr double allowed_drop_v(Practice practice, int couplings, double nominal_v) {
    const double at_12_v = practice == Practice::wire      ? kWireDropV + couplings * kConnectionDropV
                           : practice == Practice::contact ? kContactDropV
                           : practice == Practice::ground  ? kGroundDropV + couplings * kConnectionDropV
                           : practice == Practice::fuse    ? kFuseDropV
                                                           : 0;
    return at_12_v * (nominal_v / kPracticeV);
}

}  // namespace halfsplit::diagnosis
