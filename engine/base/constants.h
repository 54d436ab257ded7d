#pragma once

namespace halfsplit {

/// Resistivity of standard annealed copper at 20 degC: IEC 60028 gives 58 MS/m (100 % IACS).
inline constexpr double kCopperResistivityOhmMm2PerM = 1.0 / 58.0;

/// Temperature coefficient of copper's resistance at 20 degC, constant mass (IEC 60028).
inline constexpr double kCopperTemperaturePerK = 0.00393;

/// What laying and stranding add to a cable's resistance: the strands run a few percent longer than the cable
/// and their cross-section is a little under the nominal one. From memory; between the ideal value and the
/// maximum of IEC 60228 class 5, which lies 11 to 16 % above it.
inline constexpr double kStrandingFactor = 1.05;

/// 0 degC in kelvin (definition of the Celsius scale).
inline constexpr double kZeroCelsiusK = 273.15;

/// Temperature that resistances of copper and of wires are given at (IEC 60028, IEC 60228), and of a vehicle
/// whose circuit says nothing about temperature.
inline constexpr double kRoomTemperatureDegc = 20;

/// Temperature that thermistors are rated at (trade custom: "R25").
inline constexpr double kThermistorReferenceDegc = 25;

/// Thermistors are held within these: beyond them no ceramic lives and no formula of a data sheet holds. From
/// memory.
inline constexpr double kThermistorColdestDegc = -100;
inline constexpr double kThermistorHottestDegc = 400;

/// Exact in the SI since 2019.
inline constexpr double kBoltzmannJPerK = 1.380649e-23;
inline constexpr double kElementaryChargeC = 1.602176634e-19;

/// Resistance of a dead short inside a part or between two wires: what two pieces of metal that touch under
/// little force leave. From memory.
inline constexpr double kDeadShortOhm = 0.05;

}  // namespace halfsplit
