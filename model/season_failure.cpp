#include "model/season_failure.h"

#include <algorithm>
#include <cmath>

#include "model/season_parts.h"
#include "model/season_program.h"
#include "model/season_relaxation.h"
#include "solver/conflict.h"
#include "solver/solve.h"

namespace haymow {
namespace {

bool is_of_the_pace(SeasonRowKind kind) {
  return kind == SeasonRowKind::rise || kind == SeasonRowKind::change ||
         kind == SeasonRowKind::concentrates_added;
}

// Feasible, infeasible, or not known.
std::optional<bool> has_plan(const SeasonQuestion& question, const SeasonParts& parts,
                             const SeasonClock& clock) {
  const SpellAnswer answer =
      solve_spells(question, parts, weekly_spells(question, parts), {}, clock);
  if (answer.solution.status == Status::optimal) return true;
  if (answer.solution.status == Status::infeasible) return false;
  return std::nullopt;
}

// The rows of the yard are facts: there is no more hay or room than there is. What may be
// missed are the rations, each by its own measure, and if `pace` how fast feeds change.
Nearest nearest_plan(const SeasonProgram& program, bool pace, const SeasonClock& clock) {
  std::vector<double> weights;
  for (std::size_t i = 0; i < program.rows.size(); ++i) {
    const Row& row = program.program.rows()[i];
    const double bound = std::isfinite(row.lower) ? row.lower : row.upper;
    const double size = std::max(1.0, std::abs(bound));
    const bool may =
        pace ? is_of_the_pace(program.rows[i].kind) : program.rows[i].kind == SeasonRowKind::ration;
    weights.push_back(may ? 1.0 / size : unlimited);
  }
  SolveOptions solving;
  solving.stop = clock.watch().stop;
  return nearest_to(program.program, weights, solving);
}

std::vector<SeasonMiss> misses_of(const SeasonQuestion& question, const SeasonParts& parts,
                                  const SeasonProgram& program, const Nearest& nearest) {
  std::vector<SeasonMiss> misses;
  for (const Miss& miss : nearest.misses) {
    if (miss.bound.of != Bound::Of::row) continue;
    const SeasonRow& row = program.rows[static_cast<std::size_t>(miss.bound.index)];
    SeasonMiss out{row.week, parts.herds[row.herd].horses, std::nullopt, std::nullopt, miss.amount};
    if (row.kind == SeasonRowKind::ration) {
      const std::size_t horse = out.horses.front();
      const std::size_t ration = question.horses[horse].ration_of_week[row.week];
      out.row = parts.formulations[ration].rows[row.row];
    } else if (row.kind == SeasonRowKind::rise) {
      out.offer = row.offer;
    }
    misses.push_back(std::move(out));
  }
  std::stable_sort(misses.begin(), misses.end(),
                   [](const SeasonMiss& a, const SeasonMiss& b) { return a.week < b.week; });
  return misses;
}

}  // namespace

SeasonQuestion first_weeks(const SeasonQuestion& question, std::size_t weeks) {
  SeasonQuestion cut = question;
  cut.weeks.resize(weeks);
  for (FeedSupply& supply : cut.supply) supply.price_per_kg.resize(weeks);
  for (SeasonHorse& horse : cut.horses) {
    horse.ration_of_week.resize(weeks);
    if (!horse.change_days.empty()) horse.change_days.resize(weeks);
  }
  return cut;
}

std::optional<SeasonFailure> explain_season_failure(const SeasonQuestion& question,
                                                    const SeasonOptions& options) {
  const SeasonClock clock(options);
  const SeasonParts parts = season_parts(question);
  if (has_plan(question, parts, clock) != false) return std::nullopt;
  // Of so many weeks there is a plan, of so many none.
  std::size_t plan = 0;
  std::size_t none = question.weeks.size();
  SeasonFailure failure;
  while (none - plan > 1 && !failure.cut_short) {
    const std::size_t middle = (plan + none) / 2;
    const auto has = has_plan(first_weeks(question, middle), parts, clock);
    failure.cut_short = !has;
    if (has) (*has ? plan : none) = middle;
  }
  failure.first_week = none - 1;
  if (failure.cut_short) return failure;
  const SeasonQuestion cut = first_weeks(question, none);
  const SeasonProgram program = season_program(cut, parts, weekly_spells(cut, parts));
  Nearest nearest = nearest_plan(program, true, clock);
  failure.only_the_pace = nearest.solution.status == Status::optimal;
  if (!failure.only_the_pace) nearest = nearest_plan(program, false, clock);
  failure.misses = misses_of(cut, parts, program, nearest);
  return failure;
}

}  // namespace haymow
