#include "scenarios/report_need_rulers.h"

#include <fmt/format.h>

#include <algorithm>

#include "scenarios/report_parts.h"

namespace haymow {
namespace {

// From here up a figure is as good as known for everything that is fed.
constexpr double as_good_as_all = 0.995;

std::string remark_on(const Supply& supply) {
  std::string remark;
  if (supply.known_share < as_good_as_all) {
    remark = fmt::format("known for {:.0f} % of the dry matter", 100.0 * supply.known_share);
  }
  if (!supply.forced) remark += remark.empty() ? "reported, not forced" : "; reported, not forced";
  return remark;
}

}  // namespace

Section need_rulers(const HorseAnswer& answer) {
  Section section{"Needs, from the least to the most", {}, {}};
  for (const Supply& s : ration_to_feed(answer).supplies) {
    if (!s.floor && !s.ceiling) continue;
    const NutrientTraits& traits = traits_of(s.nutrient);
    section.pictures.rulers.push_back({std::string(traits.name), std::string(traits.unit),
                                       traits.decimals, s.supplied, s.floor, s.ceiling,
                                       remark_on(s)});
  }
  return section;
}

Section money_by_feed(const HorseAnswer& answer, const Wording& words) {
  Section section{"Where the money goes", {}, {}};
  for (const Portion& p : ration_to_feed(answer).portions) {
    const double cost = p.cost.in_units();
    if (cost <= 0.0) continue;
    section.pictures.bars.push_back(
        {answer.question.offers[p.offer].name, words.money(cost) + " a day", cost});
  }
  std::stable_sort(section.pictures.bars.begin(), section.pictures.bars.end(),
                   [](const Bar& a, const Bar& b) { return a.value > b.value; });
  return section;
}

}  // namespace haymow
