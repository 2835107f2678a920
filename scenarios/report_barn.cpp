#include "scenarios/report_barn.h"

#include <fmt/format.h>

#include <cmath>

#include "scenarios/barn_in_steps.h"

namespace haymow {

std::string barn_sentence(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                          std::size_t offer, const Wording& words) {
  if (!scenario.stable.season) return "";
  const auto over = over_the_barn(answers, offer, *scenario.stable.season);
  if (!over) return "";
  const Offer& stock = scenario.stable.offers[offer];
  const double days = scenario.stable.season->in_days();
  const double in_barn = stock.stock_to_put_out()->in_kg();
  const double days_short = days - in_barn / (over->in_kg() + in_barn / days);
  return fmt::format(
      "In whole steps the yard puts out {} {} a day more than the barn has for the season: it "
      "runs out {} early. Have {} more, or put out a little less on the last days.",
      words.weighed(over->in_kg()), stock.name,
      days_short < 1.0 ? "less than a day" : fmt::format("{:.0f} days", std::ceil(days_short)),
      words.weighed(over->in_kg() * days));
}

}  // namespace haymow
