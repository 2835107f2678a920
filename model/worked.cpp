#include "model/worked.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace haymow {
namespace {

std::string without_trailing_zeros(std::string text) {
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

/// Shortest text that reads back as the same number; an exponent only below a
/// millionth, where the noughts would be harder to read than the exponent.
std::string every_digit(double value) {
  std::string text = fmt::format("{}", value);
  const std::size_t exponent = text.find("e-0");
  if (exponent == std::string::npos) return text;
  if (std::abs(value) < 1e-6) return text.erase(exponent + 2, 1);  // 1e-09 reads as 1e-9
  return without_trailing_zeros(fmt::format("{:.10f}", value));
}

std::string with_unit(std::string number, std::string_view unit) {
  if (unit.empty()) return number;
  return std::move(number) + " " + std::string(unit);
}

std::string in_product(const Worked& part) {
  return part.is_sum ? "(" + part.text + ")" : part.text;
}

bool is_compound(const Worked& part) {
  return part.is_sum || part.text.find(" x ") != std::string::npos ||
         part.text.find(" / ") != std::string::npos;
}

/// A step both sides lean on is written once, where it first came up.
std::vector<std::string> steps_of(const Worked& a, const Worked& b) {
  std::vector<std::string> steps = a.steps;
  for (const std::string& line : b.steps) {
    if (std::find(steps.begin(), steps.end(), line) == steps.end()) steps.push_back(line);
  }
  return steps;
}

Worked finished(const std::string& name, const Worked& sum, const std::string& shown) {
  Worked next{sum.value, shown, false, sum.steps};
  next.steps.push_back(name + sum.text + " = " + shown);
  return next;
}

}  // namespace

std::string five_figures(double value) {
  if (value == 0.0) return "0";
  constexpr int figures = 5;
  const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
  const int decimals = std::max(0, figures - 1 - magnitude);
  return without_trailing_zeros(fmt::format("{:.{}f}", value, decimals));
}

Worked figure(double value, std::string_view unit) {
  return {value, with_unit(every_digit(value), unit), false, {}};
}

Worked amount(double value, std::string_view unit) {
  return {value, with_unit(five_figures(value), unit), false, {}};
}

Worked operator+(const Worked& a, const Worked& b) {
  return {a.value + b.value, a.text + " + " + b.text, true, steps_of(a, b)};
}

Worked operator-(const Worked& a, const Worked& b) {
  return {a.value - b.value, a.text + " - " + in_product(b), true, steps_of(a, b)};
}

Worked operator*(const Worked& a, const Worked& b) {
  return {a.value * b.value, in_product(a) + " x " + in_product(b), false, steps_of(a, b)};
}

Worked operator/(const Worked& a, const Worked& b) {
  const std::string divisor = is_compound(b) ? "(" + b.text + ")" : b.text;
  return {a.value / b.value, in_product(a) + " / " + divisor, false, steps_of(a, b)};
}

Worked power(const Worked& base, double exponent) {
  return {std::pow(base.value, exponent), base.text + " ^ " + every_digit(exponent), false,
          base.steps};
}

Worked exponential(const Worked& exponent) {
  return {std::exp(exponent.value), "exp(" + exponent.text + ")", false, exponent.steps};
}

Worked with_remark(const Worked& sum, std::string_view words) {
  return {sum.value, sum.text + " [" + std::string(words) + "]", sum.is_sum, sum.steps};
}

Worked following(const Worked& earlier, const Worked& later) {
  return {later.value, later.text, later.is_sum, steps_of(earlier, later)};
}

Worked step(std::string_view name, const Worked& sum, std::string_view unit) {
  return finished(std::string(name) + ": ", sum, with_unit(five_figures(sum.value), unit));
}

Worked result(const Worked& sum, std::string_view unit, int decimals) {
  return finished("", sum, with_unit(fmt::format("{:.{}f}", sum.value, decimals), unit));
}

std::string written(const Worked& sum, std::string_view unit, int decimals) {
  const Worked last = result(sum, unit, decimals);
  return fmt::format("{}", fmt::join(last.steps, "; "));
}

}  // namespace haymow
