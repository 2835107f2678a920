#include "model/season_relaxation.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "model/season_blocks.h"
#include "model/season_pricing.h"
#include "model/season_start.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Two plans of one cost, relative: a penny in thirty thousand pounds. More than the gap that
// herds are solved to (season_blocks.cpp), and less than the certificate's.
constexpr double same_cost = 3e-7;
// Amounts this near are one amount to the solver, kg a day.
constexpr double same_amount = 1e-8;
// From so many rows on the primal method is faster (measured).
constexpr int many_rows = 300;
// Spells this short, where there is no plan in long ones, are the better start of the weekly
// program: 12 s and not 60 and more for 30 horses (measured; one of two weeks took longer).
constexpr std::size_t few_weeks = 4;

// Spells that end where the ration's question changes, and after so many weeks.
Spells natural_spells(const SeasonQuestion& question, const SeasonParts& parts,
                      std::size_t most_weeks) {
  Spells spells;
  for (const Herd& herd : parts.herds) {
    const auto& rations = question.horses[herd.horses.front()].ration_of_week;
    std::vector<Spell> of_herd{{0, 0}};
    for (std::size_t w = 1; w < rations.size(); ++w) {
      if (rations[w] == rations[w - 1] && w - of_herd.back().first < most_weeks) {
        of_herd.back().last = w;
      } else {
        of_herd.push_back({w, w});
      }
    }
    spells.push_back(std::move(of_herd));
  }
  return spells;
}

// The multipliers of a program without implied rows, which have none.
std::vector<double> duals_of_all_rows(const SeasonProgram& weekly, const SpellAnswer& thinned) {
  std::vector<double> duals(weekly.rows.size(), 0.0);
  std::size_t next = 0;
  for (std::size_t i = 0; i < duals.size() && next < thinned.program.rows.size(); ++i) {
    if (weekly.rows[i] == thinned.program.rows[next]) {
      duals[i] = thinned.solution.row_duals[next++];
    }
  }
  return duals;
}

// Weeks of the same question that the weekly answer feeds alike, as spells.
Spells spells_of(const SeasonQuestion& question, const SeasonParts& parts,
                 const SpellAnswer& weekly) {
  Spells spells;
  for (std::size_t h = 0; h < parts.herds.size(); ++h) {
    const auto& rations = question.horses[parts.herds[h].horses.front()].ration_of_week;
    std::vector<Spell> of_herd{{0, 0}};
    for (std::size_t w = 1; w < rations.size(); ++w) {
      const auto before = weekly.solution.columns.begin() + weekly.program.eat[h][w - 1];
      const auto now = weekly.solution.columns.begin() + weekly.program.eat[h][w];
      const bool alike =
          rations[w] == rations[w - 1] &&
          std::equal(before, before + static_cast<std::ptrdiff_t>(question.offers.size()), now,
                     [](double x, double y) {
                       return std::abs(x - y) <= same_amount * std::max(1.0, std::abs(x));
                     });
      if (alike) {
        of_herd.back().last = w;
      } else {
        of_herd.push_back({w, w});
      }
    }
    spells.push_back(std::move(of_herd));
  }
  return spells;
}

bool costs_no_more(const SpellAnswer& answer, double cost) {
  return answer.solution.status == Status::optimal &&
         answer.solution.cost <= cost + same_cost * std::max(1.0, std::abs(cost));
}

SolveOptions options_for(const SeasonProgram& program, const SeasonClock& clock) {
  return clock.solving(program.program.row_count() >= many_rows);
}

// From the corner of `steady`, which most weeks never leave.
SpellAnswer solve_weeks(const SeasonQuestion& question, const SeasonParts& parts,
                        const SpellAnswer& steady, const SeasonClock& clock) {
  SpellAnswer out{
      season_program(question, parts, weekly_spells(question, parts), {}, ImpliedRows::leave_out),
      {}};
  if (pays_by_herds(parts)) {
    out.solution =
        solve_by_herds(out.program, clock, guess_weeks(question, parts, out.program, steady));
    return out;
  }
  std::optional<Basis> start;
  if (steady.solution.status == Status::optimal) {
    start = weekly_start(question, parts, out.program, steady);
  }
  SolveOptions options = clock.solving(true);
  options.start = start ? &*start : nullptr;
  out.solution = solve(out.program.program, options);
  return out;
}

// The weekly answer over the spells that it feeds alike. One in blocks is that as it stands:
// to solve it again has taken longer than all before (300 horses, measured).
SpellAnswer in_spells(const SeasonQuestion& question, const SeasonParts& parts,
                      const SpellAnswer& weekly, const SeasonClock& clock) {
  const Spells spells = spells_of(question, parts, weekly);
  if (!pays_by_herds(parts)) return solve_spells(question, parts, spells, {}, clock);
  SpellAnswer out{season_program(question, parts, spells, {}, ImpliedRows::leave_out), {}};
  out.solution = as_spells(question, parts, out.program, weekly);
  out.solution.cost = weekly.solution.cost;
  return out;
}

// The bound that is left when the weekly program was not solved to its end.
double bound_without_weeks(const SeasonQuestion& question, const SeasonParts& parts,
                           const SeasonProgram& weekly, const SpellAnswer& steady) {
  Solution point;
  point.status = Status::optimal;
  point.columns.assign(weekly.program.columns().size(), 0.0);  // only the bound counts
  point.row_duals = price_weeks_without_answer(question, parts, weekly);
  double bound = std::max(0.0, certify(weekly.program, point).lower_bound);
  if (steady.solution.status == Status::optimal) {
    point.row_duals = price_weeks(question, parts, weekly, steady);
    bound = std::max(bound, certify(weekly.program, point).lower_bound);
  }
  return bound;
}

}  // namespace

double SeasonClock::left_seconds() const {
  if (watch_.stopped()) return 0.0;
  const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start_;
  return std::max(0.0, seconds_ - spent.count());
}

SolveOptions SeasonClock::solving(bool primal_first) const {
  SolveOptions options;
  options.time_limit_seconds = left_seconds();
  options.primal_first = primal_first;
  options.stop = watch_.stop;
  return options;
}

SpellAnswer solve_spells(const SeasonQuestion& question, const SeasonParts& parts,
                         const Spells& spells, const SeasonChoices& choices,
                         const SeasonClock& clock) {
  SpellAnswer out{season_program(question, parts, spells, choices, ImpliedRows::leave_out), {}};
  if (pays_by_herds(parts)) {
    out.solution = solve_by_herds(out.program, clock);
  } else {
    out.solution = solve(out.program.program, options_for(out.program, clock));
  }
  return out;
}

SeasonRelaxation relax_season(const SeasonQuestion& question, const SeasonParts& parts,
                              const SeasonClock& clock) {
  clock.watch().at(SeasonStep::steady);
  SpellAnswer steady = solve_spells(
      question, parts, natural_spells(question, parts, question.weeks.size()), {}, clock);
  if (steady.solution.status == Status::infeasible && pays_by_herds(parts)) {
    // What takes some weeks to change cannot change between two long spells.
    steady = solve_spells(question, parts, natural_spells(question, parts, few_weeks), {}, clock);
  }
  clock.watch().at(SeasonStep::weeks);
  SpellAnswer weeks = solve_weeks(question, parts, steady, clock);
  SeasonRelaxation out;
  if (weeks.solution.status == Status::infeasible) out.status = SeasonStatus::none;
  const bool stopped = weeks.solution.status == Status::limit_reached;
  if (!stopped && weeks.solution.status != Status::optimal) return out;

  if (stopped) {
    const SeasonProgram weekly = season_program(question, parts, weekly_spells(question, parts));
    out.status = SeasonStatus::limit_reached;
    out.certificate.lower_bound = bound_without_weeks(question, parts, weekly, steady);
    out.answer = weeks.solution.usable() ? std::move(weeks) : std::move(steady);
    return out;
  }
  const double cost = weeks.solution.cost;
  if (!costs_no_more(steady, cost)) steady = in_spells(question, parts, weeks, clock);
  // A large yard's program takes as much memory as its solve: no second one beside it.
  weeks.program.program = LinearProgram();
  const SeasonProgram weekly = season_program(question, parts, weekly_spells(question, parts));
  const std::vector<double> duals = duals_of_all_rows(weekly, weeks);
  const auto certified = [&](const SpellAnswer& answer) {
    Solution point = as_weekly(question, parts, weekly, answer);
    point.row_duals = duals;
    return certify(weekly.program, point);
  };
  if (costs_no_more(steady, cost)) out.certificate = certified(steady);
  if (out.certificate.holds()) {
    out.answer = std::move(steady);
  } else {
    out.certificate = certified(weeks);
    weeks.program.program =
        season_program(question, parts, weekly_spells(question, parts), {}, ImpliedRows::leave_out)
            .program;
    out.answer = std::move(weeks);
  }
  out.status = out.certificate.holds() ? SeasonStatus::found : SeasonStatus::failed;
  return out;
}

}  // namespace haymow
