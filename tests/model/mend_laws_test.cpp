// What is said of any clash, checked again without the code that said it: every mend
// put into the program by hand and solved, every step of the chain by asking for its
// opposite.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "feeds/feed_table.h"
#include "model/no_ration.h"
#include "solver/solve.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"

namespace haymow::mend_laws_test {
namespace {

// A good deal of forage and no energy above the need: seldom possible together. Some
// keepers wish for little of their first feed, too.
RationQuestion tight_question() {
  RationQuestion question = *rc::gen::exec(any_stable::question);
  for (Limit& limit : question.limits) {
    if (limit.id == "forage/min") limit.number = any_stable::between(1.5, 2.2);
  }
  for (Requirement& need : question.needs.rows) {
    if (need.nutrient == Nutrient::energy) need.ceiling = need.floor;
  }
  if (question.horse.wishes.empty() && *rc::gen::arbitrary<bool>()) {
    question.horse.wishes.push_back(
        {WishKind::at_most, question.offers[0].name, KgAsFed{any_stable::between(0.5, 4.0)}, {}});
  }
  return question;
}

// A few of the table, so that a run is short.
std::vector<Feed> some_known_feeds() {
  std::vector<Feed> feeds;
  for (const char* name : {"oat straw", "meadow hay, average", "balancer pellet"}) {
    if (const Feed* feed = find_feed(name)) feeds.push_back(*feed);
  }
  return feeds;
}

int index_of(const Formulation& formulation, const std::string& id) {
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    if (formulation.rows[i].id == id) return static_cast<int>(i);
  }
  return -1;
}

// part - bound / scale x whole against 0; for a plain row part against the bound.
Row row_with(const RowMeaning& meaning, Side side, double bound, std::string name) {
  Row row{std::move(name), -unlimited, unlimited, meaning.part};
  double against = bound;
  if (!meaning.whole.empty()) {
    for (const Term& w : meaning.whole) {
      row.terms.push_back({w.column, -bound / meaning.scale * w.coefficient});
    }
    against = 0.0;
  }
  (side == Side::lower ? row.lower : row.upper) = against;
  // A column may stand in both.
  std::vector<Term> sums;
  for (const Term& t : row.terms) {
    const auto it =
        std::find_if(sums.begin(), sums.end(), [&](const Term& s) { return s.column == t.column; });
    if (it == sums.end()) {
      sums.push_back(t);
    } else {
      it->coefficient += t.coefficient;
    }
  }
  row.terms = std::move(sums);
  return row;
}

// The program with each change of `mend` in the place of its row.
LinearProgram with_changes(const Formulation& formulation, const std::vector<Mend>& changes) {
  LinearProgram program = formulation.program;
  for (const Mend& change : changes) {
    const RowMeaning& row = *change.row;
    const double per_number =
        row.limit && row.limit->number != 0.0 ? row.bound / row.limit->number : 1.0;
    program.set_row_bounds(index_of(formulation, row.id), -unlimited, unlimited);
    program.add_row(row_with(row, row.side, change.to * per_number, row.id + "\nmoved"));
  }
  return program;
}

RC_GTEST_PROP(MendLaws, EveryMendSolvesToTheCostThatIsTold, ()) {
  const RationQuestion question = tight_question();
  const Formulation formulation = formulate(question);
  RC_PRE(solve(formulation.program).status == Status::infeasible);
  const NoRation none = explain_no_ration(question, formulation, some_known_feeds());
  std::size_t singles = 0;
  std::size_t pairs = 0;
  for (const Mend& mend : none.mends) {
    if (mend.kind == Mend::Kind::add_feed) {
      if (mend.additions.size() == 1) ++singles;
      RationQuestion more = question;
      for (const Addition& addition : mend.additions) {
        more.offers.push_back(unpriced(addition.feed));
        if (!more.stock_a_day.empty()) more.stock_a_day.emplace_back();
      }
      LinearProgram program = formulate(more).program;
      for (std::size_t k = 0; k < mend.additions.size(); ++k) {
        program.set_column_bounds(static_cast<int>(question.offers.size() + k), 0.0,
                                  mend.additions[k].amount.in_kg());
      }
      const Solution again = solve(program);
      RC_ASSERT(again.status == Status::optimal);
      RC_ASSERT(std::abs(again.cost - mend.cost.in_units()) < 1e-6);
      continue;
    }
    const bool pair = mend.kind == Mend::Kind::together;
    ++(pair ? pairs : singles);
    const std::vector<Mend> changes = pair ? mend.parts : std::vector<Mend>{mend};
    RC_ASSERT(changes.size() == (pair ? 2U : 1U));
    const Solution again = solve(with_changes(formulation, changes));
    RC_ASSERT(again.status == Status::optimal);
    RC_ASSERT(std::abs(again.cost - mend.cost.in_units()) < 1e-6);
    // Neither of two changes is enough alone, at the figure told.
    if (!pair) continue;
    for (const Mend& part : mend.parts) {
      RC_ASSERT(solve(with_changes(formulation, {part})).status == Status::infeasible);
    }
  }
  // Two changes are told only where no single one mends it.
  RC_ASSERT(pairs == 0 || singles == 0);
  RC_TAG(pairs > 0 ? "two changes" : (singles > 0 ? "single changes" : "none"));
}

RC_GTEST_PROP(MendLaws, AClashIsOneAndIsMinimalWhenItIsCalledSo, ()) {
  const RationQuestion question = tight_question();
  const Formulation formulation = formulate(question);
  RC_PRE(solve(formulation.program).status == Status::infeasible);
  const NoRation none = explain_no_ration(question, formulation, {});
  // The demands alone, but for one left out.
  const auto without = [&](std::size_t left_out) {
    LinearProgram program;
    for (const Column& column : formulation.program.columns()) program.add_column(column);
    for (std::size_t k = 0; k < none.conflict.size(); ++k) {
      if (k == left_out) continue;
      const auto row = static_cast<std::size_t>(index_of(formulation, none.conflict[k].id));
      program.add_row(formulation.program.rows()[row]);
    }
    return solve(program).status;
  };
  RC_ASSERT(without(none.conflict.size()) == Status::infeasible);
  if (!none.conflict_is_minimal) return;
  for (std::size_t k = 0; k < none.conflict.size(); ++k) {
    RC_ASSERT(without(k) != Status::infeasible);
  }
}

// Each "so": with the facts told so far the quantity cannot be better by a
// hundred-thousandth, and can be as good as that but for a hundred-thousandth.
RC_GTEST_PROP(MendLaws, EveryStepFollowsFromTheFactsBeforeIt, ()) {
  const RationQuestion question = tight_question();
  const Formulation formulation = formulate(question);
  RC_PRE(solve(formulation.program).status == Status::infeasible);
  const NoRation none = explain_no_ration(question, formulation, {});
  RC_ASSERT(none.derivation.has_value());
  const Derivation& told = *none.derivation;
  LinearProgram facts;
  for (const Column& column : formulation.program.columns()) facts.add_column(column);
  // A share is one of something.
  if (!told.clash.whole.empty()) facts.add_row({"some", 1e-3, unlimited, told.clash.whole});
  const auto reaches = [&](double value) {
    LinearProgram program = facts;
    program.add_row(row_with(told.clash, told.clash.side, value, "reaches\n"));
    return solve(program).status == Status::optimal;
  };
  const double better = told.clash.side == Side::upper ? -1.0 : 1.0;
  for (const DerivationStep& step : told.steps) {
    const auto row = static_cast<std::size_t>(index_of(formulation, step.fact.id));
    facts.add_row(formulation.program.rows()[row]);
    if (step.least_of_them) {
      LinearProgram less = facts;
      Row sum{"less\n", -unlimited, (1.0 - 1e-5) * step.least_of_them->in_kg(), {}};
      for (const std::size_t offer : step.only) sum.terms.push_back({static_cast<int>(offer), 1.0});
      if (sum.upper > 0.0) {
        less.add_row(std::move(sum));
        RC_ASSERT(solve(less).status == Status::infeasible);
      }
    }
    if (!step.implied) continue;
    const double room = 1e-5 * std::max(1.0, std::abs(step.implied->value));
    RC_ASSERT(!reaches(step.implied->value + better * room));
    RC_ASSERT(reaches(step.implied->value - better * room));
  }
  // The contradiction: what is asked is better than what is left.
  RC_ASSERT(!reaches(told.clash.bound));
}

}  // namespace
}  // namespace haymow::mend_laws_test
