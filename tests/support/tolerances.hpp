#pragma once

/// What rounding alone may leave between two ways to the same number.
namespace dewtrail::oracle {

/// A few operations on numbers of order one.
inline constexpr double round_off = 1e-12;
/// The same on numbers up to a thousand, as pixels are.
inline constexpr double round_off_of_thousands = 1e-9;

}  // namespace dewtrail::oracle
