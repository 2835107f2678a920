// Values by months in a scenario file: `{april to september: 12 h, october to march:
// 4 h}`. A key is a month or a span of months, over the end of the year too.
#pragma once

#include <fmt/format.h>

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "model/grazing.h"
#include "model/pasture.h"

namespace haymow {

/// One value a month, January first; absent: nothing is said of that month.
template <class T>
using ByMonth = std::array<std::optional<T>, months_in_year>;

/// 1 to 12; in full or by three letters. Another word is reported.
[[nodiscard]] std::optional<int> month_in(const std::string& word, const YamlNode& node,
                                          Findings& findings);

/// "april", "april to september"; empty, and reported, where it is neither.
[[nodiscard]] std::vector<int> span_of_months(const YamlNode& key, Findings& findings);

/// The values of a group by months; a month with two is reported. `read` is given each
/// entry of the group and reports what is wrong with it.
template <class T>
ByMonth<T> read_by_month(const YamlEntry& entry,
                         const std::function<std::optional<T>(const YamlEntry&)>& read,
                         Findings& findings) {
  ByMonth<T> values;
  for (const YamlEntry& part : entry.value.entries) {
    const std::vector<int> months = span_of_months(part.key, findings);
    const auto value = read(part);
    for (const int month : months) {
      auto& place = values.at(static_cast<std::size_t>(month - 1));
      if (place && value) {
        findings.error(part.key.span,
                       {fmt::format("`{}` has {} twice", entry.key.text, month_name(month)),
                        "give every month one value, as in `{april to september: 12 h, october to "
                        "march: 4 h}`",
                        ""});
        return values;
      }
      place = value;
    }
  }
  return values;
}

}  // namespace haymow
