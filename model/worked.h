// A sum worked on paper: a number together with the line of arithmetic that
// gives it, so that what is shown to the keeper is what was computed. Coefficients
// keep every digit; amounts and steps are shown to five figures, while the value
// inside keeps full precision.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace haymow {

struct Worked {
  double value = 0.0;
  std::string text;                // "0.04 g/kg x 500 kg"
  bool is_sum = false;             // has a + or - at the top, so a product must bracket it
  std::vector<std::string> steps;  // finished lines that come before: "milk a day: ... = 16.3 kg"
};

/// A coefficient, shown with every digit it has.
[[nodiscard]] Worked figure(double value, std::string_view unit = "");
/// A measured amount, shown to five figures.
[[nodiscard]] Worked amount(double value, std::string_view unit);

[[nodiscard]] Worked operator+(const Worked& a, const Worked& b);
[[nodiscard]] Worked operator-(const Worked& a, const Worked& b);
[[nodiscard]] Worked operator*(const Worked& a, const Worked& b);
[[nodiscard]] Worked operator/(const Worked& a, const Worked& b);
/// `base` must be a single figure or amount.
[[nodiscard]] Worked power(const Worked& base, double exponent);
[[nodiscard]] Worked exponential(const Worked& exponent);

/// The same number with words in square brackets behind it.
[[nodiscard]] Worked with_remark(const Worked& sum, std::string_view words);
/// `later`, with the lines of `earlier` written before its own.
[[nodiscard]] Worked following(const Worked& earlier, const Worked& later);
/// Finishes the line "name: text = value unit"; from here on only the result is shown.
[[nodiscard]] Worked step(std::string_view name, const Worked& sum, std::string_view unit);
/// Finishes the line "text = value unit" with a fixed number of decimals.
[[nodiscard]] Worked result(const Worked& sum, std::string_view unit, int decimals);
/// All lines in order, the last ending "= value unit"; joined by "; ".
[[nodiscard]] std::string written(const Worked& sum, std::string_view unit, int decimals);

/// `value` to five significant figures, without an exponent or trailing zeros.
[[nodiscard]] std::string five_figures(double value);

}  // namespace haymow
