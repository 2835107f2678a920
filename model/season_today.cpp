#include "model/season_today.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "model/season_parts.h"
#include "model/season_program.h"
#include "model/season_relaxation.h"
#include "solver/solve.h"

namespace haymow {
namespace {

bool is_fed_as_told(const SeasonQuestion& question, const Herd& herd) {
  return question.horses[herd.horses.front()].fed_before.has_value();
}

void raise_bound(LinearProgram& program, int column, double by) {
  if (column < 0 || by <= 0.0) return;
  const Column& c = program.columns()[static_cast<std::size_t>(column)];
  program.set_column_bounds(column, c.lower, c.upper + by);
}

// Today's feeding may be more than any ration: the bounds that nothing ever reaches are
// moved out of its way.
void make_room(const SeasonQuestion& question, SeasonProgram& season, std::size_t feed, double kg) {
  const double kept = 1.0 - question.offers[feed].storage_loss;
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    raise_bound(season.program, season.buy[feed][w], kg / kept);
    raise_bound(season.program, season.store[feed][w], kg);
    raise_bound(season.program, season.spoil[feed][w], kg);
  }
}

void fix_herd(const SeasonQuestion& question, const Herd& herd, std::size_t h, std::size_t weeks,
              SeasonProgram& season) {
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    double eaten = 0.0;
    for (const std::size_t horse : herd.horses) eaten += (*question.horses[horse].fed_before)[f];
    double put_out = 0.0;
    for (std::size_t w = 0; w < weeks; ++w) {
      season.program.set_column_bounds(season.eat[h][w] + static_cast<int>(f), eaten, eaten);
      put_out += eaten * question.weeks[w].days / question.offers[f].losses().eaten_of_put_out();
    }
    make_room(question, season, f, put_out);
  }
}

// What a ration asks is no matter of the weeks in which it is not fed.
void let_go_of_rations(const std::vector<bool>& fixed, std::size_t weeks, SeasonProgram& season) {
  for (std::size_t i = 0; i < season.rows.size(); ++i) {
    const SeasonRow& row = season.rows[i];
    if (row.kind != SeasonRowKind::ration || row.week >= weeks || !fixed[row.herd]) continue;
    season.program.set_row_bounds(static_cast<int>(i), -unlimited, unlimited);
  }
}

SeasonProgram program_as_today(const SeasonQuestion& question, const SeasonParts& parts,
                               std::size_t weeks) {
  SeasonProgram season =
      season_program(question, parts, weekly_spells(question, parts), {}, ImpliedRows::leave_out);
  std::vector<bool> fixed;
  for (std::size_t h = 0; h < parts.herds.size(); ++h) {
    fixed.push_back(is_fed_as_told(question, parts.herds[h]));
    if (fixed.back()) fix_herd(question, parts.herds[h], h, weeks, season);
  }
  let_go_of_rations(fixed, weeks, season);
  return season;
}

// Every row may be missed at a price, so that there are duals; those prove that the
// program as it is has no answer.
double no_answer_proof(const LinearProgram& program, const SolveOptions& options) {
  LinearProgram elastic;
  for (Column column : program.columns()) {
    column.cost = 0.0;
    elastic.add_column(std::move(column));
  }
  for (Row row : program.rows()) {
    const double bound = std::isfinite(row.lower) ? row.lower : row.upper;
    const double weight = std::isfinite(bound) ? 1.0 / std::max(1.0, std::abs(bound)) : 1.0;
    for (const double sign : {1.0, -1.0}) {
      if (!std::isfinite(sign > 0.0 ? row.lower : row.upper)) continue;
      const std::string name = (sign > 0.0 ? "short of " : "beyond ") + row.name;
      row.terms.push_back({elastic.add_column({name, 0.0, unlimited, weight}), sign});
    }
    elastic.add_row(std::move(row));
  }
  const Solution solution = solve(elastic, options);
  if (solution.status != Status::optimal) return 0.0;
  return infeasibility_proof(program, solution.row_duals);
}

FedAsToday trial(const SeasonQuestion& question, const SeasonParts& parts, std::size_t weeks,
                 const SeasonClock& clock) {
  FedAsToday out;
  out.weeks = weeks;
  const SeasonProgram season = program_as_today(question, parts, weeks);
  const Solution solution = solve(season.program, clock.solving(true));
  if (solution.status == Status::optimal) {
    out.certificate = certify(season.program, solution);
    out.fits = out.certificate.holds();
    out.cost = Money{solution.cost};
  } else if (solution.status == Status::infeasible) {
    out.proof = no_answer_proof(season.program, clock.solving(true));
  }
  return out;
}

}  // namespace

bool FedAsToday::is_known() const { return fits || proof > certificate_tolerance; }

FedAsToday feed_as_today(const SeasonQuestion& question, std::size_t weeks,
                         const SeasonOptions& options) {
  return trial(question, season_parts(question), weeks, SeasonClock(options));
}

std::optional<LatestChange> latest_change(const SeasonQuestion& question,
                                          const SeasonOptions& options) {
  const bool any = std::any_of(question.horses.begin(), question.horses.end(),
                               [](const SeasonHorse& h) { return h.fed_before.has_value(); });
  if (!any) return std::nullopt;
  const SeasonClock clock(options);
  const SeasonParts parts = season_parts(question);
  LatestChange out;
  FedAsToday all = trial(question, parts, question.weeks.size(), clock);
  if (!all.is_known()) return std::nullopt;
  if (all.fits) return LatestChange{std::move(all), std::nullopt};
  out.misses = std::move(all);
  out.fits = trial(question, parts, 0, clock);
  if (!out.fits.fits) return std::nullopt;
  while (out.misses->weeks - out.fits.weeks > 1) {
    FedAsToday middle = trial(question, parts, (out.fits.weeks + out.misses->weeks) / 2, clock);
    if (!middle.is_known()) return std::nullopt;
    if (middle.fits) {
      out.fits = std::move(middle);
    } else {
      out.misses = std::move(middle);
    }
  }
  return out;
}

int first_day_of_change(const SeasonQuestion& question, const FedAsToday& trial) {
  if (trial.weeks == 0) return 0;
  const SeasonWeek& last = question.weeks[trial.weeks - 1];
  return last.first_day + last.days / 2;
}

}  // namespace haymow
