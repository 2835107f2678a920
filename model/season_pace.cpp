#include "model/season_pace.h"

#include <algorithm>
#include <utility>

#include "model/change_plan.h"
#include "model/change_step.h"
#include "model/season_parts.h"
#include "model/season_relaxation.h"
#include "model/season_supply.h"

namespace haymow {
namespace {

// What is eaten of the offers in a week, and in the one before: kg a day.
struct Step {
  const RationQuestion& ration;
  const std::vector<double>& now;
  const std::vector<double>& before;
};

// The rows of season_herd_rows.cpp, read of a finished plan.
bool is_too_fast(const Step& step, std::size_t offers, double days) {
  double dry = 0.0;
  double fresh_dry = 0.0;
  double concentrates = 0.0;
  for (std::size_t f = 0; f < step.ration.offers.size(); ++f) {
    const Offer& offer = step.ration.offers[f];
    dry += offer.feed.dry_matter_share() * step.now[f];
    if (f >= offers) continue;  // grass
    const double up = std::max(0.0, step.now[f] - step.before[f]);
    fresh_dry += offer.feed.dry_matter_share() * up;
    if (is_concentrate(step.ration, f)) concentrates += up / offer.losses().eaten_of_put_out();
  }
  const double slack = 1e-6;  // as RowMeaning::kept
  const double share = std::min(1.0, days / usual_change_days);
  return fresh_dry > share * dry + slack || concentrates > most_added_a_day_kg * days + slack;
}

std::vector<FasterIn> too_fast_in(const SeasonQuestion& question, const SeasonPlan& plan) {
  std::vector<FasterIn> out;
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    const SeasonHorse& horse = question.horses[h];
    for (std::size_t w = 0; w < question.weeks.size(); ++w) {
      if (w == 0 && !horse.fed_before) continue;
      const Step step{question.rations[horse.ration_of_week[w]], plan.eaten[h][w],
                      w == 0 ? *horse.fed_before : plan.eaten[h][w - 1]};
      if (is_too_fast(step, question.offers.size(), days_to_change(question, w))) {
        out.push_back({h, w});
      }
    }
  }
  return out;
}

std::vector<FasterIn> everywhere(const SeasonQuestion& question) {
  std::vector<FasterIn> out;
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    for (std::size_t w = 0; w < question.weeks.size(); ++w) out.push_back({h, w});
  }
  return out;
}

}  // namespace

SeasonQuestion with_faster_change(SeasonQuestion question, int days,
                                  const std::vector<FasterIn>& where) {
  for (const FasterIn& in : where) {
    auto& of_week = question.horses[in.horse].change_days;
    if (of_week.empty()) of_week.assign(question.weeks.size(), usual_change_days);
    of_week[in.week] = days;
  }
  return question;
}

std::optional<FasterChange> faster_change(const SeasonQuestion& question,
                                          const SeasonOptions& options, bool& cut_short) {
  const SeasonClock clock(options);
  const auto planned = [&](int days, const std::vector<FasterIn>& where) {
    SeasonOptions solving;
    solving.time_limit_seconds = clock.left_seconds();
    solving.packs = Packs::any;
    SeasonPlan plan = plan_season(with_faster_change(question, days, where), solving);
    cut_short = cut_short || plan.status == SeasonStatus::limit_reached;
    return plan.status == SeasonStatus::found ? std::optional(std::move(plan)) : std::nullopt;
  };
  const std::vector<FasterIn> all = everywhere(question);
  // Slower is harder: over so many days there is a plan, over so many none.
  int fast = 1;
  int slow = usual_change_days;
  auto plan = planned(fast, all);
  if (!plan) return std::nullopt;
  while (slow - fast > 1) {
    const int middle = (fast + slow) / 2;
    auto trial = planned(middle, all);
    if (cut_short) return std::nullopt;
    (trial ? fast : slow) = middle;
    if (trial) plan = std::move(trial);
  }
  FasterChange out;
  out.days = fast;
  out.where = too_fast_in(question, *plan);
  if (out.where.empty()) return std::nullopt;
  const auto told = planned(fast, out.where);
  if (!told) return std::nullopt;
  out.cost = told->lower_bound;
  return out;
}

}  // namespace haymow
