#include "scenarios/report_json_grazing.h"

#include <algorithm>
#include <utility>

#include "model/grazing.h"
#include "scenarios/report_json_exact.h"

namespace haymow {
namespace {

Json ration_of(const Ration& ration, const std::vector<Offer>& offers) {
  return {{"cost_per_day", ration.cost.in_units()}, {"feeds", feeds_of(ration, offers)}};
}

Json end_of(const GrassEnd& end, const std::vector<Offer>& offers) {
  Json hay = Json::array();
  for (const HayChange& change : end.hay) {
    hay.push_back(
        {{"feed", offers[change.offer].name}, {"kg_put_out_more", change.put_out.in_kg()}});
  }
  return {{"kg_dry_matter", end.grass.in_kg()},
          {"hay_left_kg_dry_matter", end.hay_left.in_kg()},
          {"misses", broken_of(end.misses)},
          {"hay_changes", std::move(hay)},
          {"instead", end.instead ? ration_of(*end.instead, offers) : Json(nullptr)}};
}

Json grass_of(const HorseAnswer& answer) {
  const Horse& horse = answer.question.horse;
  if (!horse.grazing || !answer.spell.month) return nullptr;
  const int month = *answer.spell.month;
  const auto& turnout = horse.grazing->in(month);
  if (!turnout) return nullptr;
  const GrassIntake intake = grass_eaten(horse, month);
  return {
      {"month", month},
      {"feed", grass_feed_of(month)},
      {"turnout_hours", turnout->hours},
      {"sward", name_of(turnout->sward)},
      {"muzzle", turnout->muzzle},
      {"low_kg_dry_matter", intake.low.in_kg()},
      {"expected_kg_dry_matter", intake.expected.in_kg()},
      {"high_kg_dry_matter", intake.high.in_kg()},
      {"limited_by", name_of(intake.limit)},
      {"at_low", answer.grass ? end_of(answer.grass->low, answer.question.offers) : Json(nullptr)},
      {"at_high",
       answer.grass ? end_of(answer.grass->high, answer.question.offers) : Json(nullptr)}};
}

void add_month(Json& months, const HorseAnswer& answer, const MonthOfSeason& month) {
  Json out{{"year", month.year},
           {"month", month.month},
           {"days", month.days.in_days()},
           {"status", name_of(answer.status)},
           {"grazing", grass_of(answer)}};
  if (answer.status == AnswerStatus::found) {
    out["meals"] = answer.question.meals;
    out.update(ration_of(*answer.ration, answer.question.offers));
    out["practical"] = answer.practical
                           ? ration_of(answer.practical->ration, answer.question.offers)
                           : Json(nullptr);
    out["certificate"] = certificate_of(answer.certificate);
  }
  if (answer.exact) out["exact"] = exact_of(answer);
  if (answer.no_ration) {
    out["conflict"] = Json::array();
    for (const RowMeaning& row : answer.no_ration->conflict) out["conflict"].push_back(row_of(row));
  }
  months.push_back(std::move(out));
}

}  // namespace

void add_grazing(Json& horse, const HorseAnswer& answer) {
  if (Json grass = grass_of(answer); !grass.is_null()) horse["grazing"] = std::move(grass);
  if (answer.other_spells.empty()) return;
  Json months = Json::array();
  for (const MonthOfSeason& month : answer.spell.months) add_month(months, answer, month);
  for (const HorseAnswer& other : answer.other_spells) {
    for (const MonthOfSeason& month : other.spell.months) add_month(months, other, month);
  }
  std::stable_sort(months.begin(), months.end(), [](const Json& a, const Json& b) {
    return std::pair(a["year"].get<int>(), a["month"].get<int>()) <
           std::pair(b["year"].get<int>(), b["month"].get<int>());
  });
  horse["months"] = std::move(months);
}

}  // namespace haymow
