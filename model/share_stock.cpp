#include "model/share_stock.h"

#include <algorithm>
#include <string>

#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow {
namespace {

using Amounts = std::vector<std::vector<double>>;  // [horse][offer], kg as fed eaten

double put_out(const Offer& offer, double eaten) { return offer.put_out(KgAsFed{eaten}).in_kg(); }

// The most a day of each stock, for the whole yard; nothing where it is endless.
std::vector<std::optional<KgAsFed>> yard_a_day(const std::vector<Offer>& offers, Days season) {
  std::vector<std::optional<KgAsFed>> most;
  most.reserve(offers.size());
  for (const Offer& offer : offers) {
    const auto stock = offer.stock_to_put_out();
    most.push_back(stock ? std::optional(*stock / season.in_days()) : std::nullopt);
  }
  return most;
}

bool lasts(const std::vector<Offer>& offers, const std::vector<std::optional<KgAsFed>>& most,
           const Amounts& eaten, const std::vector<double>& season_shares) {
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (!most[f]) continue;
    double total = 0.0;
    for (std::size_t h = 0; h < eaten.size(); ++h) {
      if (!eaten[h].empty()) total += season_shares[h] * put_out(offers[f], eaten[h][f]);
    }
    if (total > most[f]->in_kg() * (1.0 + 1e-9)) return false;
  }
  return true;
}

// A hair above the split, so that rounding cannot make it impossible; a share that is
// no more than rounding is none.
KgAsFed with_a_hair(double kg) { return KgAsFed{kg < 1e-6 ? 0.0 : kg * (1.0 + 1e-9) + 1e-9}; }

// All horses' programs side by side, with one row for each stock across them. What
// is fed on some of the days only counts for so much of the season.
std::optional<Amounts> cheapest_split(const std::vector<Formulation>& formulations,
                                      const Amounts& alone, const std::vector<Offer>& offers,
                                      const std::vector<std::optional<KgAsFed>>& most,
                                      const std::vector<double>& season_shares) {
  LinearProgram yard;
  std::vector<int> first_column(formulations.size(), -1);
  for (std::size_t h = 0; h < formulations.size(); ++h) {
    if (alone[h].empty()) continue;  // no ration even with an endless barn: told elsewhere
    const std::string prefix = std::to_string(h) + "/";
    first_column[h] = yard.column_count();
    for (Column column : formulations[h].program.columns()) {
      column.name = prefix + column.name;
      column.cost *= season_shares[h];
      yard.add_column(std::move(column));
    }
    for (Row row : formulations[h].program.rows()) {
      row.name = prefix + row.name;
      for (Term& t : row.terms) t.column += first_column[h];
      yard.add_row(std::move(row));
    }
  }
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (!most[f]) continue;
    Row stock{"stock/" + offers[f].name, -unlimited, most[f]->in_kg(), {}};
    for (std::size_t h = 0; h < formulations.size(); ++h) {
      if (first_column[h] < 0) continue;
      stock.terms.push_back(
          {first_column[h] + static_cast<int>(f), season_shares[h] * put_out(offers[f], 1.0)});
    }
    yard.add_row(std::move(stock));
  }
  const Solution solution = solve(yard);
  if (solution.status != Status::optimal || !certify(yard, solution).holds()) return std::nullopt;
  Amounts split(formulations.size());
  for (std::size_t h = 0; h < formulations.size(); ++h) {
    if (first_column[h] < 0) continue;
    const auto begin = solution.columns.begin() + first_column[h];
    split[h].assign(begin, begin + formulations[h].program.column_count());
  }
  return split;
}

}  // namespace

StockShares share_stock(const std::vector<RationQuestion>& questions, Days season,
                        const std::vector<Days>& days) {
  StockShares shares;
  shares.a_day.resize(questions.size());
  if (questions.empty()) return shares;
  std::vector<Offer> offers = questions.front().offers;
  if (questions.front().grass) offers.pop_back();  // nobody stores it
  std::vector<double> season_shares(questions.size(), 1.0);
  for (std::size_t h = 0; h < days.size(); ++h) season_shares[h] = days[h] / season;
  const auto most = yard_a_day(offers, season);

  std::vector<Formulation> formulations;
  Amounts alone;
  double bodyweight_kg = 0.0;
  for (const RationQuestion& question : questions) {
    formulations.push_back(formulate(question));
    alone.push_back(solve(formulations.back().program).columns);
    bodyweight_kg += season_shares[alone.size() - 1] * question.horse.bodyweight.in_kg();
  }
  if (lasts(offers, most, alone, season_shares)) return shares;

  std::optional<Amounts> split;
  if (questions.size() <= most_horses_split_exactly) {
    split = cheapest_split(formulations, alone, offers, most, season_shares);
  }
  shares.cheapest = split.has_value();
  for (std::size_t h = 0; h < questions.size(); ++h) {
    // No ration even with an endless barn: the split has handed out the stock to
    // the others, and a share of it would not be why this one goes without.
    if (split && (*split)[h].empty()) continue;
    const double by_weight = questions[h].horse.bodyweight.in_kg() / bodyweight_kg;
    for (std::size_t f = 0; f < offers.size(); ++f) {
      std::optional<KgAsFed> share;
      if (most[f]) {
        share = split ? with_a_hair(put_out(offers[f], (*split)[h][f])) : *most[f] * by_weight;
      }
      shares.a_day[h].push_back(share);
    }
  }
  return shares;
}

}  // namespace haymow
