#include "scenarios/season_doubt.h"

#include <utility>

#include "scenarios/scenario_dates.h"
#include "scenarios/season.h"

namespace haymow {
namespace {

// With a hundred, what is enough in nine of ten lies between the 84th and the 96th of them,
// 19 times of 20, and a yard of two horses waits some seconds (docs/explanation/season.md).
constexpr int usual_draws = 100;

}  // namespace

std::optional<SeasonDoubt> season_doubt(const Scenario& scenario) {
  SeasonDoubt doubt;
  doubt.days_more = scenario.may_end;
  doubt.draws = usual_draws;
  doubt.feeds = scenario.feed_doubts;
  if (!doubt.days_more && doubt.feeds.empty()) return std::nullopt;
  return doubt;
}

SeasonOfDraw season_of_draw(const Scenario& scenario) {
  return [&scenario](const DrawnSeason& drawn) {
    Scenario turned = scenario;
    turned.until = days_after(*turned.until, drawn.days_more);
    for (const DrawnFeed& feed : drawn.feeds) {
      Feed& made = turned.stable.offers.at(feed.offer).feed;
      made = with_quality(std::move(made), feed.energy, feed.crude_protein);
    }
    return season_question(turned);
  };
}

}  // namespace haymow
