#include "model/season_pricing.h"

#include <algorithm>
#include <map>
#include <memory>
#include <utility>

#include "model/season_supply.h"
#include "solver/solve.h"

namespace haymow {
namespace {

std::size_t ration_of(const SeasonQuestion& question, const SeasonParts& parts, std::size_t herd,
                      std::size_t week) {
  return question.horses[parts.herds[herd].horses.front()].ration_of_week[week];
}

// Each ration's program, solved for one set of prices after another.
class RationPricer {
 public:
  explicit RationPricer(const SeasonParts& parts)
      : parts_(parts), solved_(parts.formulations.size()) {}

  const std::vector<double>& cheapest(std::size_t ration, const std::vector<double>& prices) {
    Solved& last = solved_[ration];
    if (!last.solver) {
      last.solver = std::make_unique<WarmSolver>(parts_.formulations[ration].program);
    } else if (last.prices == prices) {
      return last.duals;
    }
    for (std::size_t f = 0; f < prices.size(); ++f) {
      last.solver->set_cost(static_cast<int>(f), prices[f]);
    }
    last.prices = prices;
    last.duals = last.solver->solve().row_duals;
    // Without an answer there are no multipliers; zeros are valid and say little.
    last.duals.resize(parts_.formulations[ration].rows.size(), 0.0);
    return last.duals;
  }

 private:
  struct Solved {
    std::unique_ptr<WarmSolver> solver;
    std::vector<double> prices;
    std::vector<double> duals;
  };
  const SeasonParts& parts_;
  std::vector<Solved> solved_;
};

class WeekPricer {
 public:
  WeekPricer(const SeasonQuestion& question, const SeasonParts& parts, const SeasonProgram& weekly)
      : question_(question), parts_(parts), weekly_(weekly) {
    duals_.assign(weekly.rows.size(), 0.0);
  }

  std::vector<double> price() {
    find_prices();
    RationPricer pricer(parts_);
    std::map<std::pair<std::size_t, std::size_t>, std::vector<double>> duals_of_week;
    for (std::size_t h = 0; h < parts_.herds.size(); ++h) {
      for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
        duals_of_week[{h, w}] = pricer.cheapest(ration_of(question_, parts_, h, w), prices_[h][w]);
      }
    }
    for (std::size_t i = 0; i < weekly_.rows.size(); ++i) {
      const SeasonRow& row = weekly_.rows[i];
      if (row.kind == SeasonRowKind::ration) {
        duals_[i] = duals_of_week[{row.herd, row.week}][row.row];
      }
    }
    return std::move(duals_);
  }

  std::vector<double>& duals() { return duals_; }

 private:
  // What the rows that are priced already make of a kilogram a day: the reduced cost of
  // each column of feed without its ration.
  void find_prices() {
    std::vector<double> reduced(weekly_.program.columns().size(), 0.0);
    for (std::size_t i = 0; i < weekly_.rows.size(); ++i) {
      if (duals_[i] == 0.0) continue;
      for (const Term& t : weekly_.program.rows()[i].terms) {
        reduced[static_cast<std::size_t>(t.column)] -= t.coefficient * duals_[i];
      }
    }
    for (std::size_t h = 0; h < parts_.herds.size(); ++h) {
      prices_.emplace_back();
      for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
        const std::size_t offers =
            question_.rations[ration_of(question_, parts_, h, w)].offers.size();
        const auto from = reduced.begin() + weekly_.eat[h][w];
        prices_[h].emplace_back(from, from + static_cast<std::ptrdiff_t>(offers));
      }
    }
  }

  const SeasonQuestion& question_;
  const SeasonParts& parts_;
  const SeasonProgram& weekly_;
  std::vector<double> duals_;
  /// [herd][week]: what a kilogram a day of each offer of the ration costs there.
  std::vector<std::vector<std::vector<double>>> prices_;
};

bool of_ration(const SeasonRow& row) { return row.kind == SeasonRowKind::ration; }

}  // namespace

std::vector<double> price_weeks(const SeasonQuestion& question, const SeasonParts& parts,
                                const SeasonProgram& weekly, const SpellAnswer& answer) {
  WeekPricer pricer(question, parts, weekly);
  // The rows of both come in one order; those of the spells alone are fewer.
  std::size_t next = 0;
  const auto& rows = answer.program.rows;
  for (std::size_t i = 0; i < weekly.rows.size(); ++i) {
    if (of_ration(weekly.rows[i])) continue;
    while (next < rows.size() && of_ration(rows[next])) ++next;
    if (next == rows.size() || !(rows[next] == weekly.rows[i])) continue;
    pricer.duals()[i] = answer.solution.row_duals[next++];
  }
  return pricer.price();
}

std::vector<double> price_weeks_without_answer(const SeasonQuestion& question,
                                               const SeasonParts& parts,
                                               const SeasonProgram& weekly) {
  WeekPricer pricer(question, parts, weekly);
  // A feed is worth no more than in the cheapest week so far, and nothing for certain
  // where some is on hand or none can be had.
  std::vector<double> cheapest(question.offers.size(), unlimited);
  for (std::size_t i = 0; i < weekly.rows.size(); ++i) {
    const SeasonRow& row = weekly.rows[i];
    if (row.kind != SeasonRowKind::balance) continue;
    const Offer& offer = question.offers[row.offer];
    if (opening_kg(offer) > 0.0 || !question.supply[row.offer].can_be_bought) continue;
    const double price = least_cost_per_kg(question, row.offer, row.week).in_units();
    cheapest[row.offer] = std::min(cheapest[row.offer], price / (1.0 - offer.storage_loss));
    pricer.duals()[i] = cheapest[row.offer];
  }
  return pricer.price();
}

Solution as_weekly(const SeasonQuestion& question, const SeasonParts& parts,
                   const SeasonProgram& weekly, const SpellAnswer& answer) {
  Solution out;
  out.status = Status::optimal;
  out.columns.assign(weekly.program.columns().size(), 0.0);
  std::copy_n(answer.solution.columns.begin(), weekly.yard_columns, out.columns.begin());
  for (std::size_t h = 0; h < weekly.eat.size(); ++h) {
    for (std::size_t s = 0; s < answer.program.eat[h].size(); ++s) {
      const Spell& spell = answer.program.spells[h][s];
      const std::size_t ration = ration_of(question, parts, h, spell.first);
      const auto from = answer.solution.columns.begin() + answer.program.eat[h][s];
      for (std::size_t w = spell.first; w <= spell.last; ++w) {
        std::copy_n(from, question.rations[ration].offers.size(),
                    out.columns.begin() + weekly.eat[h][w]);
      }
      if (answer.program.up[h][s] < 0) continue;
      std::copy_n(answer.solution.columns.begin() + answer.program.up[h][s], question.offers.size(),
                  out.columns.begin() + weekly.up[h][spell.first]);
    }
  }
  return out;
}

Solution as_spells(const SeasonQuestion& question, const SeasonParts& parts,
                   const SeasonProgram& spelled, const SpellAnswer& weekly) {
  Solution out;
  out.status = Status::optimal;
  out.columns.assign(spelled.program.columns().size(), 0.0);
  const auto copy = [&](int from, std::size_t count, int to) {
    std::copy_n(weekly.solution.columns.begin() + from, count, out.columns.begin() + to);
  };
  copy(0, static_cast<std::size_t>(spelled.yard_columns), 0);
  for (std::size_t h = 0; h < spelled.eat.size(); ++h) {
    for (std::size_t s = 0; s < spelled.eat[h].size(); ++s) {
      const std::size_t week = spelled.spells[h][s].first;
      const std::size_t ration = ration_of(question, parts, h, week);
      copy(weekly.program.eat[h][week], question.rations[ration].offers.size(), spelled.eat[h][s]);
      if (spelled.up[h][s] < 0 || weekly.program.up[h][week] < 0) continue;
      copy(weekly.program.up[h][week], question.offers.size(), spelled.up[h][s]);
    }
  }
  return out;
}

}  // namespace haymow
