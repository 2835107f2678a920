#include "model/who_first.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow {
namespace {

constexpr double no_hay_kg = 1e-6;
constexpr double shown_kg = 0.01;  // a day: less is no feed that takes a place
// So much above the least that there is a ration there to the solver as well.
constexpr double placing = 1e-7;

struct OneRation {
  double least = 0.0;  // kg eaten a day
  double most = 0.0;
  double saves = 0.0;  // money a day
  std::optional<RowMeaning> demand;
  std::vector<double> with;  // kg eaten a day, one an offer
  std::vector<double> without;
};

std::optional<Solution> certified_division(const LinearProgram& program) {
  Solution solution = solve(program);
  if (solution.status != Status::optimal || !certify(program, solution).holds()) {
    return std::nullopt;
  }
  return solution;
}

bool is_forage(FeedGroup group) {
  return group == FeedGroup::hay || group == FeedGroup::haylage || group == FeedGroup::straw ||
         group == FeedGroup::dried_forage;
}

LinearProgram without_other_stocks(const SeasonQuestion& question, LinearProgram program,
                                   std::size_t offer) {
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    if (f == offer || question.supply[f].can_be_bought) continue;
    if (is_forage(question.offers[f].feed.group)) {
      program.set_column_bounds(static_cast<int>(f), 0.0, 0.0);
    }
  }
  return program;
}

// The row that would let the feed go down fastest, for the size of its bound.
std::optional<RowMeaning> demand_of(const Formulation& formulation, const Solution& least) {
  double best = no_hay_kg;
  std::optional<RowMeaning> row;
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    const Row& asked = formulation.program.rows()[i];
    const double bound = least.row_duals[i] > 0.0 ? asked.lower : asked.upper;
    const double force = std::abs(least.row_duals[i]) *
                         (std::isfinite(bound) ? std::max(1.0, std::abs(bound)) : 1.0);
    if (force <= best) continue;
    best = force;
    row = formulation.rows[i];
  }
  return row;
}

std::optional<OneRation> one_ration(const Formulation& formulation, LinearProgram program,
                                    std::size_t offer) {
  const int column = static_cast<int>(offer);
  program.set_cost(column, 0.0);
  const auto free_of_charge = certified_division(program);
  if (!free_of_charge) return std::nullopt;
  LinearProgram fewest = program;
  for (int c = 0; c < program.column_count(); ++c) fewest.set_cost(c, c == column ? 1.0 : 0.0);
  const auto least = certified_division(fewest);
  if (!least) return std::nullopt;
  OneRation out;
  out.least = std::max(0.0, least->columns[offer]);
  out.most = free_of_charge->columns[offer];
  if (out.least < no_hay_kg) out.least = 0.0;
  if (out.least > 0.0) out.demand = demand_of(formulation, *least);
  const double lower = program.columns()[offer].lower;
  program.set_column_bounds(column, lower,
                            std::max(lower, out.least + placing * std::max(1.0, out.least)));
  const auto sparing = certified_division(program);
  if (!sparing) return std::nullopt;
  out.saves = std::max(0.0, sparing->cost - free_of_charge->cost);
  out.with = free_of_charge->columns;
  out.without = sparing->columns;
  return out;
}

std::optional<OneRation> answer_of(const SeasonQuestion& question, std::size_t ration,
                                   std::size_t offer) {
  const Formulation formulation = formulate(question.rations[ration]);
  auto bought =
      one_ration(formulation, without_other_stocks(question, formulation.program, offer), offer);
  return bought ? std::move(bought) : one_ration(formulation, formulation.program, offer);
}

std::vector<Instead> instead_of(const SeasonQuestion& question, std::size_t offer,
                                const OneRation& ration) {
  std::vector<Instead> out;
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    const double more = ration.without[f] - ration.with[f];
    if (f != offer && more > shown_kg) {
      out.push_back({f, more / question.offers[f].losses().eaten_of_put_out()});
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Instead& a, const Instead& b) { return a.kg > b.kg; });
  return out;
}

bool goes_before(const WorthToHorse& a, const WorthToHorse& b) {
  const auto share = [](const WorthToHorse& w) {
    return w.most_kg > no_hay_kg ? std::round(1e3 * w.least_kg / w.most_kg) : 0.0;
  };
  if (share(a) != share(b)) return share(a) > share(b);
  const auto saves = [](const WorthToHorse& w) {
    return w.saves_per_kg ? w.saves_per_kg->in_units() : 0.0;
  };
  return saves(a) > saves(b);
}

}  // namespace

std::optional<std::vector<WorthToHorse>> who_first(const SeasonQuestion& question,
                                                   std::size_t offer) {
  std::map<std::size_t, OneRation> known;
  const double of_put_out = question.offers[offer].losses().eaten_of_put_out();
  std::vector<WorthToHorse> out;
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    WorthToHorse worth;
    worth.horse = h;
    std::map<std::size_t, int> days;
    double saved = 0.0;
    for (std::size_t w = 0; w < question.weeks.size(); ++w) {
      const std::size_t r = question.horses[h].ration_of_week[w];
      if (!known.contains(r)) {
        auto answer = answer_of(question, r, offer);
        if (!answer) return std::nullopt;
        known.emplace(r, std::move(*answer));
      }
      const OneRation& ration = known.at(r);
      const int d = question.weeks[w].days;
      days[r] += d;
      worth.least_kg += d * ration.least / of_put_out;
      worth.most_kg += d * ration.most / of_put_out;
      saved += d * ration.saves;
    }
    if (worth.most_kg - worth.least_kg > no_hay_kg) {
      worth.saves_per_kg = Money{saved / (worth.most_kg - worth.least_kg)};
    }
    const auto usual = std::max_element(
        days.begin(), days.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    worth.demand = known.at(usual->first).demand;
    worth.instead = instead_of(question, offer, known.at(usual->first));
    out.push_back(std::move(worth));
  }
  std::stable_sort(out.begin(), out.end(), goes_before);
  return out;
}

}  // namespace haymow
