#pragma once

namespace halfsplit {

// Copper at 20 degC: the international annealed copper standard, 1/58 ohm mm2/m (IEC 60028), and its
// temperature coefficient at constant mass, 0.00393 per kelvin (Industrial Power Engineering Handbook p.
// 969-970).
inline constexpr double kCopperOhmMm2PerM = 1.0 / 58.0;
inline constexpr double kCopperPerK = 0.00393;
inline constexpr double kReferenceDegC = 20;

inline constexpr double kZeroCelsiusK = 273.15;
/// Where thermistors give their resistance.
inline constexpr double kThermistorDegC = 25;

}  // namespace halfsplit
