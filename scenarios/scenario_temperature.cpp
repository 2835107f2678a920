#include "scenarios/scenario_temperature.h"

#include <fmt/format.h>

#include <utility>

#include "feeds/map_reader.h"

namespace haymow {
namespace {

// Colder or warmer than any stable (common practice, no source).
constexpr double coldest_c = -60.0;
constexpr double warmest_c = 50.0;

}  // namespace

std::optional<double> temperature_in(const YamlNode& node, std::string_view what,
                                     Findings& findings) {
  const auto text = text_of(node, what, findings);
  if (!text) return std::nullopt;
  Reading<double> reading = read_temperature(*text);
  if (reading.complaint && reading.complaint->help.empty()) {
    reading.complaint->help = "write a temperature such as `-5 C`";
  }
  const auto celsius = accepted(std::move(reading), node, findings);
  if (celsius && (*celsius < coldest_c || *celsius > warmest_c)) {
    findings.error(node.span,
                   {fmt::format("`{}` is outside {:.0f} to {:.0f} C", *text, coldest_c, warmest_c),
                    "write a mean temperature of day and night such as `-5 C`", ""});
    return std::nullopt;
  }
  return celsius;
}

}  // namespace haymow
