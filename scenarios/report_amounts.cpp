#include "scenarios/report_amounts.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "scenarios/report_parts.h"

namespace haymow {
namespace {

constexpr double days_in_month = 365.25 / 12.0;

}  // namespace

Section amounts_section(const HorseAnswer& answer, const Wording& words) {
  const Ration& ration = ration_to_feed(answer);
  Section section{"What to feed", Table{}, {}};
  Table& table = *section.table;
  const std::string each =
      ration.meals == 1 ? "in one meal" : fmt::format("in each of {}", ration.meals);
  table.headings = {"feed", "a day", each, "dry matter", "cost"};
  for (const Portion& p : ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (answer.question.grazes(p.offer)) {
      table.rows.push_back({offer.name, "grazed", "", words.mass(p.dry_matter.in_kg()), ""});
      continue;
    }
    const bool bucket = offer.feed.is_bucket_feed();
    table.rows.push_back({offer.name, words.mass(p.put_out.in_kg()),
                          bucket ? words.mass(p.put_out.in_kg() / ration.meals) : "as forage",
                          words.mass(p.dry_matter.in_kg()), words.money(p.cost.in_units())});
  }
  table.rows.push_back({"in all", "", "", words.mass(ration.dry_matter.in_kg()),
                        words.money(ration.cost.in_units())});

  const double bodyweight = answer.question.horse.bodyweight.in_kg();
  section.sentences.push_back(fmt::format(
      "Forage is {:.0f} % of the dry matter and {:.2f} % of bodyweight; starch {:.0f} g a meal; "
      "{} a month.",
      100.0 * ration.forage_share(), 100.0 * ration.forage.in_kg() / bodyweight,
      ration.starch_per_meal_g, words.money_with_code(ration.cost.in_units() * days_in_month)));
  if (answer.practical) {
    const double extra = (ration.cost - answer.ration->cost).in_units();
    std::string sentence = fmt::format(
        "Amounts are in steps a person can weigh; without steps the least cost is {}, {} less",
        words.money(answer.ration->cost.in_units()), words.money(std::max(extra, 0.0)));
    std::vector<std::string> besides;
    for (const Portion& p : answer.ration->portions) {
      if (fed(answer, p.offer)) continue;
      besides.push_back(fmt::format("{} {}", words.mass(p.put_out.in_kg()),
                                    answer.question.offers[p.offer].name));
    }
    if (!besides.empty()) sentence += fmt::format(", with {}", listed(besides));
    section.sentences.push_back(sentence + ".");
    if (!answer.practical->within_gap) {
      section.sentences.emplace_back(
          "The search for cheaper steps was cut short: these keep every limit but may not be the "
          "cheapest.");
    }
  } else {
    section.sentences.emplace_back(
        "No ration in whole steps of the scale keeps every limit: weigh these amounts exactly.");
  }
  return section;
}

}  // namespace haymow
