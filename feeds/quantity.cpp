#include "feeds/quantity.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <vector>

#include "feeds/plain_text.h"
#include "model/units.h"

namespace haymow {
namespace {

constexpr double kg_per_tonne = 1000.0;
constexpr double kg_per_short_ton = 2000.0 * kg_per_lb;  // by definition

constexpr std::array weight_units{
    Unit{"kg", 1.0, true},         Unit{"g", 0.001, true},
    Unit{"lb", kg_per_lb, true},   Unit{"oz", kg_per_oz, true},
    Unit{"t", kg_per_tonne, true}, Unit{"short ton", kg_per_short_ton, true},
    Unit{"lbs", kg_per_lb},        Unit{"tonne", kg_per_tonne},
    Unit{"tonnes", kg_per_tonne},  Unit{"short tons", kg_per_short_ton},
};
constexpr std::array length_units{
    Unit{"cm", 1.0, true},     Unit{"m", 100.0, true},      Unit{"in", cm_per_inch, true},
    Unit{"inch", cm_per_inch}, Unit{"inches", cm_per_inch},
};
constexpr std::array duration_units{
    Unit{"min", 1.0, true}, Unit{"h", 60.0, true}, Unit{"minutes", 1.0},
    Unit{"minute", 1.0},    Unit{"hours", 60.0},   Unit{"hour", 60.0},
};
constexpr std::array percent_units{
    Unit{"%", 1.0, true},
    Unit{"percent", 1.0},
    Unit{"per cent", 1.0},
};
constexpr std::array age_units{Unit{"months", 1.0, true}, Unit{"month", 1.0}};
// A litre of water weighs a kilogram, to far better than a bucket is filled.
constexpr std::array water_units{Unit{"parts", 1.0, true}, Unit{"l per kg", 1.0, true},
                                 Unit{"part", 1.0}, Unit{"l/kg", 1.0}};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Length of the run of digits that starts at `at`.
std::size_t digits_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && is_digit(text[end])) ++end;
  return end - at;
}

Reading<NumberAndRest> refused_number(std::string message, std::string help) {
  return Reading<NumberAndRest>::refused({std::move(message), std::move(help), ""});
}

/// `4,5`, `1,000`, `1_000`, `1'000` or `1 000`: which is meant?
std::optional<Complaint> separator_complaint(std::string_view text, std::size_t end) {
  if (end + 1 >= text.size() || !is_digit(text[end + 1])) return std::nullopt;
  const char sign = text[end];
  if (sign != ',' && sign != '_' && sign != '\'' && sign != ' ') return std::nullopt;
  const std::size_t digits = digits_at(text, end + 1);
  const std::string_view whole = text.substr(0, end);
  const std::string_view part = text.substr(end + 1, digits);
  const std::string_view rest = text.substr(end + 1 + digits);
  const std::string found = ticked(text.substr(0, end + 1 + digits));
  if (sign == ',' && digits != 3) {
    return Complaint{fmt::format("{} has a decimal comma", found),
                     fmt::format("write a decimal point: `{}.{}{}`", whole, part, rest), ""};
  }
  std::string help = fmt::format("write the digits together: `{}{}{}`", whole, part, rest);
  if (sign == ',') help += fmt::format(", or a decimal point: `{}.{}{}`", whole, part, rest);
  return Complaint{fmt::format("{} has a sign between its digits", found), help, ""};
}

/// The text with the typographer's minus sign (U+2212) made a hyphen.
std::string with_plain_minus(std::string_view text) {
  constexpr std::string_view minus = "\xe2\x88\x92";
  std::string result = single_spaced(text);
  if (result.compare(0, minus.size(), minus) == 0) result.replace(0, minus.size(), "-");
  return result;
}

std::string shown_units(const Dimension& dimension) {
  std::vector<std::string> names;
  for (const Unit& unit : dimension.units) {
    if (unit.shown) names.emplace_back(unit.name);
  }
  return either_of(names);
}

}  // namespace

const Dimension& weight() {
  static constexpr Dimension dimension{"a weight", "540 kg", weight_units};
  return dimension;
}
const Dimension& feed_amount() {
  static constexpr Dimension dimension{"a weight", "2 kg", weight_units};
  return dimension;
}
const Dimension& body_length() {
  static constexpr Dimension dimension{"a length", "188 cm", length_units};
  return dimension;
}
const Dimension& duration() {
  static constexpr Dimension dimension{"a time", "45 min", duration_units};
  return dimension;
}
const Dimension& percentage() {
  static constexpr Dimension dimension{"a share", "8 %", percent_units};
  return dimension;
}
const Dimension& age() {
  static constexpr Dimension dimension{"an age", "12 months", age_units};
  return dimension;
}
const Dimension& water_ratio() {
  static constexpr Dimension dimension{"an amount of water", "4 parts", water_units};
  return dimension;
}

Reading<NumberAndRest> read_leading_number(std::string_view raw) {
  const std::string text = with_plain_minus(raw);
  const std::size_t start = (!text.empty() && (text[0] == '-' || text[0] == '+')) ? 1 : 0;
  const std::size_t whole = digits_at(text, start);
  if (whole == 0) {
    const bool point = start < text.size() && text[start] == '.' && digits_at(text, start + 1) > 0;
    if (point) {
      return refused_number(
          ticked(text) + " starts with a point",
          fmt::format("write `{}0{}`", text.substr(0, start), text.substr(start)));
    }
    return refused_number(ticked(text) + " does not start with a number", "");
  }
  std::size_t end = start + whole;
  if (whole > 1 && text[start] == '0') {
    const std::size_t zeros = std::min(text.find_first_not_of('0', start) - start, whole - 1);
    return refused_number(
        ticked(text.substr(0, end)) + " starts with a zero",
        fmt::format("write `{}{}`", text.substr(0, start), text.substr(start + zeros)));
  }
  if (const auto complaint = separator_complaint(text, end)) {
    return Reading<NumberAndRest>::refused(*complaint);
  }
  if (end < text.size() && text[end] == '.') {
    const std::size_t decimals = digits_at(text, end + 1);
    if (decimals == 0) {
      return refused_number(ticked(text.substr(0, end + 1)) + " ends with a point",
                            fmt::format("write `{}{}`", text.substr(0, end), text.substr(end + 1)));
    }
    end += 1 + decimals;
    if (const auto complaint = separator_complaint(text, end)) {
      return Reading<NumberAndRest>::refused(*complaint);
    }
  }
  const std::string digits = text.substr(0, end);
  const std::string rest(trimmed(std::string_view(text).substr(end)));
  const char next = end < text.size() ? text[end] : ' ';
  const char after = end + 1 < text.size() ? text[end + 1] : ' ';
  const bool power =
      (next == 'e' || next == 'E') && (is_digit(after) || after == '+' || after == '-');
  const bool hexadecimal = (next == 'x' || next == 'X') && digits == "0";
  if (power || hexadecimal || next == '.' || next == '_') {
    return refused_number(ticked(text) + " is not a plain number",
                          "write it in decimal digits, such as `1000` or `0.5`");
  }
  // The digits are checked above, so strtod sees plain decimals in any locale
  // whose decimal sign is a point; the program never leaves the "C" locale.
  const double number = std::strtod(digits.c_str(), nullptr);
  if (!std::isfinite(number) || std::fabs(number) > 1e12) {
    return refused_number(ticked(digits.substr(0, 20)) + " is too large a number", "");
  }
  return Reading<NumberAndRest>::of({number, digits, rest});
}

Reading<double> read_bare_number(std::string_view text) {
  Reading<NumberAndRest> leading = read_leading_number(text);
  if (leading.complaint) return Reading<double>::refused(std::move(*leading.complaint));
  if (leading.value->rest.empty()) return Reading<double>::of(leading.value->number);
  return Reading<double>::refused(
      {fmt::format("`{}` has something behind the number", single_spaced(text)),
       fmt::format("write `{}` alone", leading.value->number_text), ""});
}

std::optional<double> factor_of(std::string_view unit, const Dimension& dimension) {
  for (const Unit& known : dimension.units) {
    if (same_text(unit, known.name)) return known.factor;
  }
  return std::nullopt;
}

Complaint unit_complaint(std::string_view number, std::string_view unit,
                         const Dimension& dimension) {
  const std::string units = shown_units(dimension);
  if (unit.empty()) {
    return {fmt::format("`{}` has no unit; {} is in {}", number, dimension.what, units),
            fmt::format("write the unit behind the number, such as `{}`", dimension.example), ""};
  }
  const std::string low = lower_case(unit);
  if (low == "ton" || low == "tons") {
    return {
        fmt::format("`{}` can mean 1000 kg or 2000 lb", unit),
        fmt::format("write `{0} tonne{1}` or `{0} short ton{1}`", number, number == "1" ? "" : "s"),
        ""};
  }
  return {fmt::format("`{}` is not a unit of {}; it is in {}", unit,
                      dimension.what.substr(dimension.what.find(' ') + 1), units),
          fmt::format("write {} such as `{}`", dimension.what, dimension.example), ""};
}

std::optional<Complaint> sign_complaint(double value, std::string_view written, Sign sign) {
  if (value < 0.0 && sign != Sign::any) {
    return Complaint{fmt::format("`{}` is below zero", single_spaced(written)), "", ""};
  }
  if (value == 0.0 && sign == Sign::positive) {
    return Complaint{fmt::format("`{}` is zero; expected more", single_spaced(written)), "", ""};
  }
  return std::nullopt;
}

Reading<double> read_amount(std::string_view text, const Dimension& dimension, Sign sign) {
  Reading<NumberAndRest> leading = read_leading_number(text);
  if (leading.complaint) {
    Complaint complaint = std::move(*leading.complaint);
    if (complaint.help.empty()) {
      complaint.help = fmt::format("write {} such as `{}`", dimension.what, dimension.example);
    }
    return Reading<double>::refused(std::move(complaint));
  }
  const NumberAndRest& found = *leading.value;
  const auto factor = factor_of(found.rest, dimension);
  if (!factor) {
    return Reading<double>::refused(unit_complaint(found.number_text, found.rest, dimension));
  }
  if (auto complaint = sign_complaint(found.number, text, sign)) {
    complaint->help = fmt::format("write {} such as `{}`", dimension.what, dimension.example);
    return Reading<double>::refused(std::move(*complaint));
  }
  return Reading<double>::of(found.number * *factor);
}

Reading<double> read_temperature(std::string_view text) {
  static constexpr std::array units{Unit{"C", 1.0, true}, Unit{"F", 1.0, true}};
  static constexpr Dimension dimension{"a temperature", "-5 C", units};
  Reading<NumberAndRest> leading = read_leading_number(text);
  if (leading.complaint) return Reading<double>::refused(std::move(*leading.complaint));
  std::string unit = leading.value->rest;
  constexpr std::string_view degree = "\xc2\xb0";
  if (unit.compare(0, degree.size(), degree) == 0) unit.erase(0, degree.size());
  const double number = leading.value->number;
  if (same_text(unit, "C")) return Reading<double>::of(number);
  if (same_text(unit, "F")) return Reading<double>::of((number - 32.0) / 1.8);
  return Reading<double>::refused(unit_complaint(leading.value->number_text, unit, dimension));
}

}  // namespace haymow
