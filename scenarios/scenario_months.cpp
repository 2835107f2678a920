#include "scenarios/scenario_months.h"

#include "feeds/plain_text.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

constexpr std::size_t letters_of_short_month = 3;

std::optional<int> month_named(std::string_view word) {
  for (int m = 1; m <= months_in_year; ++m) {
    const std::string_view name = month_name(m);
    if (same_text(name, word) || same_text(name.substr(0, letters_of_short_month), word)) return m;
  }
  return std::nullopt;
}

}  // namespace

std::optional<int> month_in(const std::string& word, const YamlNode& node, Findings& findings) {
  if (const auto month = month_named(word)) return month;
  std::vector<std::string> names;
  for (int m = 1; m <= months_in_year; ++m) names.push_back(lower_case(month_name(m)));
  findings.error(node.span,
                 {fmt::format("`{}` is not a month", word), near_or_all(word, names), ""});
  return std::nullopt;
}

std::vector<int> span_of_months(const YamlNode& key, Findings& findings) {
  const std::string text = single_spaced(key.text);
  const auto to = text.find(" to ");
  const auto first = month_in(text.substr(0, to), key, findings);
  if (!first) return {};
  const auto last = to == std::string::npos ? first : month_in(text.substr(to + 4), key, findings);
  if (!last) return {};
  std::vector<int> months{*first};
  while (months.back() != *last) months.push_back(months.back() % months_in_year + 1);
  return months;
}

}  // namespace haymow
