#include "model/feed_value.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "solver/sensitivity.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// A hair, relative: far above the solver's tolerance of a price (1e-7 of money a
// kilogram), far below any step of a price list.
constexpr double hair = 1e-5;
// Less than this for a kilogram is the arithmetic's: a tenth of a gram.
constexpr double least_change = 1e-4;
constexpr double least_payment = 1e-7;  // money a kilogram, as in explanation.cpp

class Valuer {
 public:
  Valuer(const RationQuestion& question, const Formulation& formulation, std::size_t offer)
      : question_(question),
        formulation_(formulation),
        offer_(offer),
        column_(static_cast<int>(offer)) {}

  [[nodiscard]] std::optional<FeedValue> value() const {
    FeedValue out;
    out.offer = offer_;
    const auto cost = cost_at_which_it_leaves();
    if (!cost) {
      if (!solved_at(0.0)) return std::nullopt;
      out.use = FeedUse::at_any_price;
      return out;
    }
    out.fed_below = question_.offers[offer_].price_for(Money{*cost});
    if (out.fed_below.in_units() > least_payment) {
      describe_entry(out, *cost);
      return out;
    }
    out.use = FeedUse::at_no_price;
    out.fed_below = Money{};
    if (const auto given = solved_at(cost_as_a_gift())) out.payments = payments(*given);
    return out;
  }

 private:
  // What a kilogram eaten costs when it is given, but has to be fetched.
  [[nodiscard]] double cost_as_a_gift() const {
    const Offer& offer = question_.offers[offer_];
    return (offer.delivery_per_kg / offer.losses().eaten_of_bought()).in_units();
  }

  [[nodiscard]] std::optional<Solution> solved_at(double cost) const {
    LinearProgram program = formulation_.program;
    program.set_cost(column_, cost);
    return optimum(program);
  }

  static std::optional<Solution> optimum(const LinearProgram& program) {
    Solution solution = solve(program);
    if (solution.status == Status::infeasible) return std::nullopt;
    if (solution.status != Status::optimal) {
      throw std::runtime_error("the worth of a feed could not be computed: solver " +
                               std::string(name_of(solution.status)));
    }
    return solution;
  }

  // Of a kilogram eaten; absent when there is no ration without it. Without it first:
  // the prices of that answer say at which cost it surely stays out, and from there
  // the one-sided price at the margin is exact, degenerate or not.
  [[nodiscard]] std::optional<double> cost_at_which_it_leaves() const {
    LinearProgram without = formulation_.program;
    without.set_column_bounds(column_, 0.0, 0.0);
    const auto out = optimum(without);
    if (!out) return std::nullopt;
    double paid = 0.0;
    for (const Payment& p : all_payments(*out)) paid += p.per_kg;
    LinearProgram dear = formulation_.program;
    dear.set_cost(column_, std::max(0.0, paid) + 1.0);
    const auto stays_out = optimum(dear);
    if (!stays_out) return std::nullopt;
    return entry_cost(dear, *stays_out, column_).value_or(-unlimited);
  }

  [[nodiscard]] std::vector<Payment> all_payments(const Solution& solution) const {
    std::vector<Payment> all;
    const auto rows = formulation_.program.rows();
    for (std::size_t i = 0; i < rows.size(); ++i) {
      double paid = 0.0;
      for (const Term& t : rows[i].terms) {
        if (t.column == column_) paid += solution.row_duals[i] * t.coefficient;
      }
      if (paid != 0.0) all.push_back({i, paid});
    }
    return all;
  }

  [[nodiscard]] std::vector<Payment> payments(const Solution& solution) const {
    std::vector<Payment> told = all_payments(solution);
    std::erase_if(told, [](const Payment& p) { return std::abs(p.per_kg) < least_payment; });
    std::stable_sort(told.begin(), told.end(),
                     [](const Payment& a, const Payment& b) { return a.per_kg > b.per_kg; });
    return told;
  }

  void describe_entry(FeedValue& out, double cost) const {
    const double step = hair * std::max(cost, 0.01);
    const auto in = solved_at(cost - step);
    const auto without = solved_at(cost + step);
    if (!in || !without) return;
    out.payments = payments(*in);
    const double entered = in->columns[offer_] - without->columns[offer_];
    if (entered <= 0.0) return;
    for (std::size_t j = 0; j < question_.offers.size(); ++j) {
      const double change = (in->columns[j] - without->columns[j]) / entered;
      if (j != offer_ && std::abs(change) >= least_change) {
        out.makes_way.push_back({j, KgAsFed{change}});
      }
    }
    std::stable_sort(out.makes_way.begin(), out.makes_way.end(),
                     [](const AmountChange& a, const AmountChange& b) { return a.by < b.by; });
  }

  const RationQuestion& question_;
  const Formulation& formulation_;
  std::size_t offer_;
  int column_;
};

}  // namespace

std::optional<FeedValue> feed_value(const RationQuestion& question, const Formulation& formulation,
                                    std::size_t offer) {
  if (offer >= question.offers.size()) {
    throw std::invalid_argument("the worth is asked of a feed that is not on offer");
  }
  return Valuer(question, formulation, offer).value();
}

RationQuestion with_supposed(RationQuestion question, const Feed& feed) {
  question.offers.push_back(unpriced(feed));
  if (!question.stock_a_day.empty()) question.stock_a_day.emplace_back();
  if (!question.stock_in_steps.empty()) question.stock_in_steps.emplace_back();
  return question;
}

}  // namespace haymow
