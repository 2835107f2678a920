// A quantity as people write it: a number, a blank, a unit. The unit is never
// implied, and a number is plain decimal digits: what other readers let through
// (`010`, `1_000`, `1e3`, `.nan`) is refused with the way to write it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "feeds/findings.h"

namespace haymow {

/// A value, or what is wrong with the text it was to be read from.
template <class T>
struct Reading {
  std::optional<T> value;
  std::optional<Complaint> complaint;

  static Reading of(T value) { return {std::move(value), std::nullopt}; }
  static Reading refused(Complaint complaint) { return {std::nullopt, std::move(complaint)}; }
};

enum class Sign { any, not_negative, positive };

/// One way to write a unit; `factor` turns it into the dimension's base unit.
struct Unit {
  std::string_view name;
  double factor = 1.0;
  bool shown = false;  // among those that a message lists
};

struct Dimension {
  std::string_view what;     // "a weight"
  std::string_view example;  // "540 kg"
  std::span<const Unit> units;
};

[[nodiscard]] const Dimension& weight();       // base unit kg
[[nodiscard]] const Dimension& feed_amount();  // base unit kg
[[nodiscard]] const Dimension& body_length();  // base unit cm
[[nodiscard]] const Dimension& duration();     // base unit min
[[nodiscard]] const Dimension& percentage();   // base unit %
[[nodiscard]] const Dimension& age();          // base unit months
[[nodiscard]] const Dimension& water_ratio();  // parts by weight to one part of feed

/// A number and whatever stands behind it, blanks dropped.
struct NumberAndRest {
  double number = 0.0;
  std::string number_text;
  std::string rest;
};
[[nodiscard]] Reading<NumberAndRest> read_leading_number(std::string_view raw);

/// A number that stands alone, such as a condition score.
[[nodiscard]] Reading<double> read_bare_number(std::string_view text);

/// Number and unit, in the base unit of `dimension`.
[[nodiscard]] Reading<double> read_amount(std::string_view text, const Dimension& dimension,
                                          Sign sign);

/// The factor of a unit by name; a letter of the wrong case is forgiven.
[[nodiscard]] std::optional<double> factor_of(std::string_view unit, const Dimension& dimension);

/// Why a unit does not fit, and what to write instead.
[[nodiscard]] Complaint unit_complaint(std::string_view number, std::string_view unit,
                                       const Dimension& dimension);

/// Degrees Celsius from `-5 C` or `23 F`.
[[nodiscard]] Reading<double> read_temperature(std::string_view text);

/// Nothing when `value` has the sign wanted.
[[nodiscard]] std::optional<Complaint> sign_complaint(double value, std::string_view written,
                                                      Sign sign);

}  // namespace haymow
