#include "model/season_mends.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/season_parts.h"
#include "model/season_program.h"
#include "model/season_relaxation.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Pairs of more horses than this are not tried one by one.
constexpr std::size_t most_to_pair = 8;
// Nobody buys less than half a kilogram of forage. Common practice, no source.
constexpr double at_least_kg = 0.5;
// A plan is looked for with so much more, kg, since at the least of all there is only one.
constexpr double placing_kg = 0.01;

bool is_short_forage(const SeasonQuestion& question, std::size_t f) {
  const FeedGroup group = question.offers[f].feed.group;
  const bool forage = group == FeedGroup::hay || group == FeedGroup::haylage ||
                      group == FeedGroup::straw || group == FeedGroup::dried_forage;
  return forage && (!question.supply[f].can_be_bought || question.supply[f].can_be_had);
}

// As if more could be had.
SeasonQuestion with_more(SeasonQuestion question, std::size_t f, std::optional<KgAsFed> most) {
  question.supply[f].can_be_bought = true;
  question.supply[f].can_be_had = most;
  return question;
}

KgAsFed to_be_had(const FeedSupply& supply) {
  return supply.can_be_bought ? supply.can_be_had.value_or(KgAsFed{0.0}) : KgAsFed{0.0};
}

// The least that has to be bought of a feed in one week so that there is a plan.
std::optional<double> least_bought(const SeasonQuestion& question, const SeasonParts& parts,
                                   std::size_t f, std::size_t week, const SeasonClock& clock) {
  SeasonProgram season =
      season_program(question, parts, weekly_spells(question, parts), {}, ImpliedRows::leave_out);
  for (int c = 0; c < season.program.column_count(); ++c) season.program.set_cost(c, 0.0);
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    season.program.set_cost(season.buy[f][w], 1.0);
    if (w != week) season.program.set_column_bounds(season.buy[f][w], 0.0, 0.0);
  }
  const Solution solution = solve(season.program, clock.solving(true));
  if (solution.status != Status::optimal) return std::nullopt;
  if (!certify(season.program, solution).holds()) return std::nullopt;
  return solution.cost;
}

std::optional<Money> least_cost(const SeasonQuestion& question, const SeasonClock& clock) {
  SeasonOptions options;
  options.time_limit_seconds = clock.left_seconds();
  options.packs = Packs::any;
  options.watch.stop = clock.watch().stop;
  const SeasonPlan plan = plan_season(question, options);
  if (plan.status != SeasonStatus::found) return std::nullopt;
  return plan.lower_bound;
}

std::optional<MoreFeed> more_of(const SeasonQuestion& question, std::size_t f,
                                std::size_t first_week, const SeasonClock& clock) {
  const SeasonQuestion endless = with_more(question, f, std::nullopt);
  const SeasonParts parts = season_parts(endless);
  const double before = to_be_had(question.supply[f]).in_kg();
  // In one delivery, as late as will do: a change of feed may need it before it is short.
  for (std::size_t w = first_week + 1; w-- > 0;) {
    const auto least = least_bought(endless, parts, f, w, clock);
    if (!least) continue;
    MoreFeed more;
    more.offer = f;
    more.by_week = w;
    double kg = std::max(0.0, *least - before);
    if (kg < at_least_kg) return std::nullopt;
    if (const auto& pack = question.supply[f].pack) {
      more.packs = static_cast<int>(std::ceil(kg / pack->in_kg() - 1e-9));
      kg = std::max(kg, *more.packs * pack->in_kg());
    }
    more.amount = KgAsFed{kg};
    const auto cost = least_cost(with_more(question, f, KgAsFed{before + kg + placing_kg}), clock);
    if (!cost) return std::nullopt;
    more.cost = *cost;
    return more;
  }
  return std::nullopt;
}

SeasonQuestion without(SeasonQuestion question, const std::vector<std::size_t>& horses) {
  for (std::size_t i = horses.size(); i-- > 0;) {
    question.horses.erase(question.horses.begin() + static_cast<std::ptrdiff_t>(horses[i]));
  }
  return question;
}

void try_without(const SeasonQuestion& question, std::vector<std::size_t> horses,
                 const SeasonClock& clock, std::vector<FewerHorses>& out) {
  if (horses.size() >= question.horses.size()) return;
  const auto cost = least_cost(without(question, horses), clock);
  if (cost) out.push_back({std::move(horses), *cost});
}

std::vector<FewerHorses> fewer_horses(const SeasonQuestion& question, const SeasonClock& clock) {
  std::vector<FewerHorses> out;
  const std::size_t horses = question.horses.size();
  for (std::size_t h = 0; h < horses; ++h) try_without(question, {h}, clock, out);
  if (out.empty() && horses <= most_to_pair) {
    for (std::size_t a = 0; a < horses; ++a) {
      for (std::size_t b = a + 1; b < horses; ++b) try_without(question, {a, b}, clock, out);
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const FewerHorses& a, const FewerHorses& b) { return a.cost < b.cost; });
  return out;
}

}  // namespace

SeasonMends season_mends(const SeasonQuestion& question, const SeasonFailure& failure,
                         const SeasonOptions& options) {
  const SeasonClock clock(options);
  SeasonMends out;
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    if (!is_short_forage(question, f)) continue;
    auto more = more_of(question, f, failure.first_week, clock);
    if (more) out.more_feed.push_back(std::move(*more));
  }
  std::stable_sort(out.more_feed.begin(), out.more_feed.end(),
                   [](const MoreFeed& a, const MoreFeed& b) { return a.cost < b.cost; });
  SeasonOptions rest = options;
  rest.time_limit_seconds = clock.left_seconds();
  bool cut_short = false;
  out.faster = faster_change(question, rest, cut_short);
  rest.time_limit_seconds = clock.left_seconds();
  bool looser_cut_short = false;
  out.looser = loosened_limits(question, rest, looser_cut_short);
  out.fewer = fewer_horses(question, clock);
  out.cut_short = cut_short || looser_cut_short || clock.left_seconds() <= 0.0;
  return out;
}

}  // namespace haymow
