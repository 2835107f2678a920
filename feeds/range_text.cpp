#include "feeds/range_text.h"

#include <fmt/format.h>

#include "feeds/plain_text.h"

namespace haymow {

Reading<RangeText> read_range_text(std::string_view text, std::string_view example) {
  constexpr std::string_view joint = " to ";
  const std::string spaced = single_spaced(text);
  const std::size_t at = spaced.find(joint);
  if (at == std::string::npos || spaced.find(joint, at + 1) != std::string::npos) {
    return Reading<RangeText>::refused(
        {fmt::format("`{}` is not a range", spaced),
         fmt::format("write the least and the most with `to` between them, such as `{}`", example),
         ""});
  }
  RangeText range{spaced.substr(0, at), spaced.substr(at + joint.size())};
  const auto least = read_leading_number(range.least);
  const auto most = read_leading_number(range.most);
  // A date has no number that stands alone.
  if (least.value && most.value && least.value->rest.empty() && !most.value->rest.empty()) {
    range.least += " " + most.value->rest;
  }
  return Reading<RangeText>::of(std::move(range));
}

}  // namespace haymow
