#include "model/whole_step_program.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/meal_shares.h"

namespace haymow {
namespace {

class StepWriter {
 public:
  StepWriter(const RationQuestion& question, const Formulation& formulation,
             const StepChoices& choices)
      : question_(question), formulation_(formulation), choices_(choices) {}

  WholeStepProgram write() {
    const std::size_t count = question_.offers.size();
    for (std::size_t j = 0; j < count; ++j) {
      out_.weighings.push_back(weighing_of(question_, j, choices_.fineness, choices_.portions));
      const Column& column = formulation_.program.columns()[j];
      program().add_column(
          {column.name, 0.0, most_steps(j), column.cost * eaten_a_step_kg(j), true});
    }
    for (std::size_t i = 0; i < formulation_.rows.size(); ++i) add_rule(i);
    for (std::size_t j = 0; j < count; ++j) add_switch(j);
    add_bucket();
    if (choices_.meals == MealRows::exact) add_meals();
    if (choices_.meals == MealRows::margin) {
      for (const RowMeaning& row : formulation_.rows) add_margin(row);
    }
    return std::move(out_);
  }

 private:
  LinearProgram& program() { return out_.program; }
  [[nodiscard]] double eaten_a_step_kg(std::size_t j) const {
    return question_.offers[j].eaten(out_.weighings[j].step).in_kg();
  }
  [[nodiscard]] int switch_of(std::size_t j) const {
    return static_cast<int>(question_.offers.size() + j);
  }

  // The most steps of an offer that any ration could hold: nothing is eaten
  // beyond the intake ceiling, or beyond what the formulation allows.
  [[nodiscard]] double most_steps(std::size_t j) const {
    const Limit* intake = find_limit(question_.limits, "intake/max");
    const double per_cent = intake != nullptr ? intake->number : 5.0;
    const KgDryMatter most{question_.horse.bodyweight.in_kg() * per_cent / 100.0};
    const double allowed = formulation_.program.columns()[j].upper / eaten_a_step_kg(j);
    return std::min(std::ceil(question_.offers[j].feed.as_fed(most).in_kg() / eaten_a_step_kg(j)),
                    std::floor(allowed + 1e-9));
  }

  void add_rule(std::size_t i) {
    Row stepped = formulation_.program.rows()[i];
    const RowMeaning& meaning = formulation_.rows[i];
    if (meaning.family == RowFamily::stock) {
      const std::size_t offer = *meaning.offer;
      if (offer < question_.stock_in_steps.size() && question_.stock_in_steps[offer]) {
        stepped.upper = question_.stock_in_steps[offer]->in_kg();
      }
      if (choices_.above_share) stepped.upper += out_.weighings[offer].step.in_kg();
      // A hair, since the barn is counted in what was put out before.
      stepped.upper = std::max(0.0, stepped.upper) + 1e-9;
    }
    for (Term& t : stepped.terms) {
      t.coefficient *= eaten_a_step_kg(static_cast<std::size_t>(t.column));
    }
    program().add_row(std::move(stepped));
  }

  // least u <= n <= most u.
  void add_switch(std::size_t j) {
    const int n = static_cast<int>(j);
    const std::string& name = question_.offers[j].name;
    const int used = program().add_column({"use " + name, 0.0, 1.0, 0.0, true});
    const Weighing& weighing = out_.weighings[j];
    const double least = std::max(1.0, std::round(weighing.least / weighing.step));
    program().add_row({"least " + name, 0.0, unlimited, {{n, 1.0}, {used, -least}}});
    program().add_row({"most " + name, -unlimited, 0.0, {{n, 1.0}, {used, -most_steps(j)}}});
  }

  void add_bucket() {
    Row bucket{"bucket feeds", -unlimited, static_cast<double>(choices_.bucket_feeds), {}};
    for (std::size_t j = 0; j < question_.offers.size(); ++j) {
      if (question_.offers[j].feed.is_bucket_feed()) bucket.terms.push_back({switch_of(j), 1.0});
    }
    program().add_row(std::move(bucket));
  }

  // n_j = sum over the meals of k_jm, and in each meal sum of a_j k_jm <= limit.
  // Meals alike are put in order of size, or every answer would come M! times.
  void add_meals() {
    const auto meals = static_cast<std::size_t>(question_.meals);
    std::vector<std::vector<int>> in_meal(question_.offers.size());
    for (std::size_t j = 0; j < question_.offers.size(); ++j) {
      if (!question_.offers[j].feed.is_bucket_feed()) continue;
      Row day{"meals of " + question_.offers[j].name, 0.0, 0.0, {{static_cast<int>(j), -1.0}}};
      for (std::size_t m = 0; m < meals; ++m) {
        in_meal[j].push_back(
            program().add_column({fmt::format("{} meal {}", question_.offers[j].name, m + 1), 0.0,
                                  most_steps(j), 0.0, true}));
        day.terms.push_back({in_meal[j][m], 1.0});
      }
      program().add_row(std::move(day));
    }
    for (const RowMeaning& row : formulation_.rows) {
      if (!is_of_meal(row)) continue;
      for (std::size_t m = 0; m < meals; ++m) {
        Row limit{fmt::format("{} meal {}", row.id, m + 1),
                  -unlimited,
                  row.bound * largest_meal_share(question_),
                  {}};
        Row order{fmt::format("order {} {}", row.id, m + 1), -unlimited, 0.0, {}};
        for (const Term& t : row.part) {
          const auto j = static_cast<std::size_t>(t.column);
          const double a_step = t.coefficient * eaten_a_step_kg(j);
          limit.terms.push_back({in_meal[j][m], a_step});
          if (m + 1 == meals || row.id != "meal_size/max") continue;
          order.terms.push_back({in_meal[j][m], a_step});
          order.terms.push_back({in_meal[j][m + 1], -a_step});
        }
        program().add_row(std::move(limit));
        if (!order.terms.empty()) program().add_row(std::move(order));
      }
    }
  }

  static bool is_of_meal(const RowMeaning& row) {
    return row.id == "starch_meal/max" || row.id == "meal_size/max";
  }

  // Rounding a feed's share of a meal up to whole steps adds less than a step:
  // with M meals alike at most (M - 1) / M of one. So
  //   largest share * sum of a_j n_j + that part * sum of a_j u_j <= limit a meal
  // leaves room for any way of rounding.
  void add_margin(const RowMeaning& row) {
    if (!is_of_meal(row)) return;
    const double share = largest_meal_share(question_);
    const bool alike = std::abs(share * question_.meals - 1.0) < 1e-9;
    const double rounding = alike ? 1.0 - share : 1.0;
    Row margin{"margin " + row.id, -unlimited, row.bound * share, {}};
    for (const Term& t : row.part) {
      const auto j = static_cast<std::size_t>(t.column);
      const double a_step = t.coefficient * eaten_a_step_kg(j);
      margin.terms.push_back({t.column, share * a_step});
      if (rounding > 0.0) margin.terms.push_back({switch_of(j), rounding * a_step});
    }
    program().add_row(std::move(margin));
  }

  const RationQuestion& question_;
  const Formulation& formulation_;
  const StepChoices& choices_;
  WholeStepProgram out_;
};

}  // namespace

WholeStepProgram whole_step_program(const RationQuestion& question, const Formulation& formulation,
                                    const StepChoices& choices) {
  return StepWriter(question, formulation, choices).write();
}

}  // namespace haymow
