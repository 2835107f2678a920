// Laws that hold for the ration of every horse in every stable, tried on many
// drawn from the feed table.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "model/explanation.h"
#include "model/no_ration.h"
#include "model/practical.h"
#include "model/share_stock.h"
#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/model/any_stable.h"

namespace haymow::ration_laws_test {
namespace {

// Costs of two programs solved apart agree to this, relative.
constexpr double cost_tolerance = 1e-7;

// Ten times the simplex method's own tolerance of a reduced cost, 1e-7: below it
// two prices a kilogram are the same to it.
constexpr double least_price_step = 1e-6;

struct Solved {
  RationQuestion question;
  Formulation formulation;
  Solution solution;
};

Solved solved(RationQuestion question) {
  Solved out;
  out.formulation = formulate(question);
  out.solution = solve(out.formulation.program);
  out.question = std::move(question);
  return out;
}

RationQuestion any_question() { return *rc::gen::exec(any_stable::question); }

Solved any_found() {
  Solved out = solved(any_question());
  RC_PRE(out.solution.status == Status::optimal);
  return out;
}

Solved any_without_ration() {
  Solved out = solved(any_question());
  RC_PRE(out.solution.status == Status::infeasible);
  return out;
}

bool same_cost(double a, double b) {
  return std::abs(a - b) <= cost_tolerance * std::max(1.0, std::abs(b));
}

// --- prices ---

RC_GTEST_PROP(RationLaws, ADearerFeedIsNeverUsedMore, ()) {
  const Solved before = any_found();
  const auto feed = *rc::gen::inRange<std::size_t>(0, before.question.offers.size());
  RationQuestion dearer = before.question;
  dearer.offers[feed].price_per_kg =
      dearer.offers[feed].price_per_kg * any_stable::between(1.1, 3.0);
  const Solved after = solved(dearer);
  RC_ASSERT(after.solution.status == Status::optimal);
  const double was = before.solution.columns[feed];
  RC_ASSERT(after.solution.columns[feed] <= was + 1e-6 * std::max(1.0, was));
  RC_ASSERT(after.solution.cost >= before.solution.cost * (1.0 - cost_tolerance));
}

RC_GTEST_PROP(RationLaws, TwiceThePricesIsTwiceTheCost, ()) {
  const Solved before = any_found();
  RationQuestion doubled = before.question;
  for (Offer& offer : doubled.offers) offer.price_per_kg = 2.0 * offer.price_per_kg;
  const Solved after = solved(doubled);
  RC_ASSERT(after.solution.status == Status::optimal);
  RC_ASSERT(same_cost(after.solution.cost, 2.0 * before.solution.cost));
}

RC_GTEST_PROP(RationLaws, TheOrderOfFeedsDoesNotChangeTheCost, ()) {
  const Solved before = solved(any_question());
  RationQuestion shuffled = before.question;
  std::rotate(shuffled.offers.begin(),
              shuffled.offers.begin() + *rc::gen::inRange<std::ptrdiff_t>(
                                            0, static_cast<std::ptrdiff_t>(shuffled.offers.size())),
              shuffled.offers.end());
  if (*rc::gen::arbitrary<bool>()) std::reverse(shuffled.offers.begin(), shuffled.offers.end());
  const Solved after = solved(shuffled);
  RC_ASSERT(after.solution.status == before.solution.status);
  RC_ASSERT(same_cost(after.solution.cost, before.solution.cost));
}

// --- limits ---

// For time's sake: over a hundred stables every limit has its turn some thirty times.
bool one_in_three() { return *rc::gen::inRange(0, 3) == 0; }

double looser(const std::string& id, double number) {
  if (id.ends_with("/max")) return number == 0.0 ? 0.1 : number * 1.1;
  return number * 0.9;
}

RC_GTEST_PROP(RationLaws, ALooserLimitNeverCostsMore, ()) {
  const Solved before = any_found();
  for (std::size_t i = 0; i < before.question.limits.size(); ++i) {
    if (!one_in_three()) continue;
    RationQuestion question = before.question;
    Limit& limit = question.limits[i];
    limit.number = looser(limit.id, limit.number);
    const Solved after = solved(question);
    RC_ASSERT(after.solution.status == Status::optimal);
    RC_ASSERT(after.solution.cost <= before.solution.cost * (1.0 + cost_tolerance));
  }
}

RC_GTEST_PROP(RationLaws, ASmallerNeedNeverCostsMore, ()) {
  const Solved before = any_found();
  for (std::size_t i = 0; i < before.question.needs.rows.size(); ++i) {
    if (!one_in_three()) continue;
    RationQuestion question = before.question;
    Requirement& need = question.needs.rows[i];
    if (need.floor) need.floor = *need.floor * 0.9;
    const Solved after = solved(question);
    RC_ASSERT(after.solution.status == Status::optimal);
    RC_ASSERT(after.solution.cost <= before.solution.cost * (1.0 + cost_tolerance));
  }
}

RC_GTEST_PROP(RationLaws, EveryForcedRowIsKept, ()) {
  const Solved found = any_found();
  RC_ASSERT(broken_rows(found.formulation.rows, found.solution.columns).empty());
}

// --- certificates ---

RC_GTEST_PROP(RationLaws, EveryAnswerCertifies, ()) {
  const Solved found = any_found();
  RC_ASSERT(certify(found.formulation.program, found.solution).holds());
}

// A tenth more or less of any feed that matters to the bill.
RC_GTEST_PROP(RationLaws, ACertificateRefusesAPerturbedAnswer, ()) {
  const Solved found = any_found();
  const auto columns = found.formulation.program.columns();
  for (std::size_t j = 0; j < columns.size(); ++j) {
    const double cost = columns[j].cost * found.solution.columns[j];
    if (cost < 0.01 * found.solution.cost) continue;
    for (const double factor : {0.9, 1.1}) {
      Solution perturbed = found.solution;
      perturbed.columns[j] *= factor;
      RC_ASSERT(!certify(found.formulation.program, perturbed).holds());
    }
  }
}

// --- what a feed is worth ---

RC_GTEST_PROP(RationLaws, WhatAFeedIsPaidForAddsUpToItsCost, ()) {
  const Solved found = any_found();
  const Explanation explanation = explain(found.question, found.formulation, found.solution);
  RC_ASSERT(!explanation.worth.empty());
  for (const FeedWorth& worth : explanation.worth) {
    double paid = 0.0;
    for (const Payment& payment : worth.payments) paid += payment.per_kg;
    const double cost = found.question.offers[worth.offer].cost_per_kg_eaten().in_units();
    // Each payment left out is below 1e-7.
    RC_ASSERT(std::abs(paid - cost) <= 1e-5);
  }
}

Solved at_price(const Solved& found, std::size_t offer, double price) {
  RationQuestion question = found.question;
  question.offers[offer].price_per_kg = Money{price};
  return solved(question);
}

RC_GTEST_PROP(RationLaws, AFeedEntersBelowItsEntryPriceAndNotAboveIt, ()) {
  const Solved found = any_found();
  const Explanation explanation = explain(found.question, found.formulation, found.solution);
  for (const EntryPrice& entry : explanation.unused) {
    if (!entry.enters_at) {
      // Not even as a gift: it saves nothing.
      const Solved given = at_price(found, entry.offer, 0.0);
      RC_ASSERT(given.solution.status == Status::optimal);
      RC_ASSERT(same_cost(given.solution.cost, found.solution.cost));
      continue;
    }
    const double price = entry.enters_at->in_units();
    // A thousandth either way, but no less than the solver tells apart.
    const double step = std::max(0.001 * price, least_price_step);
    if (price <= step) continue;
    const Solved below = at_price(found, entry.offer, price - step);
    RC_ASSERT(below.solution.status == Status::optimal);
    RC_ASSERT(below.solution.columns[entry.offer] > 1e-9);
    const Solved above = at_price(found, entry.offer, price + step);
    RC_ASSERT(above.solution.status == Status::optimal);
    RC_ASSERT(above.solution.columns[entry.offer] < least_portion.in_kg());
    RC_ASSERT(same_cost(above.solution.cost, found.solution.cost));
  }
}

// --- the ration to weigh out ---

RC_GTEST_PROP(RationLaws, ThePracticalRationKeepsEveryRowAndCostsNoLess, ()) {
  const Solved found = any_found();
  const double bound = certify(found.formulation.program, found.solution).lower_bound;
  const auto practical = practical_ration(found.question, found.formulation, bound);
  RC_TAG(practical ? "practical" : "none in whole steps");
  if (!practical) return;
  RC_ASSERT(broken_rows(found.formulation.rows, practical->amounts).empty());
  RC_ASSERT(practical->ration.cost.in_units() >= found.solution.cost * (1.0 - cost_tolerance));
  int buckets = 0;
  for (const Portion& portion : practical->ration.portions) {
    const Feed& feed = found.question.offers[portion.offer].feed;
    const Weighing weighing = practical->weighings[portion.offer];
    const double steps = portion.put_out / weighing.step;
    RC_ASSERT(std::abs(steps - std::round(steps)) < 1e-6);
    RC_ASSERT(portion.put_out.in_kg() >= weighing.least.in_kg() - 1e-9);
    buckets += feed.is_bucket_feed() ? 1 : 0;
  }
  RC_ASSERT(buckets <= practical->choices.bucket_feeds);
}

// --- when there is none ---

LinearProgram with_rows(const Formulation& formulation, const std::vector<RowMeaning>& rows,
                        const std::string& without) {
  LinearProgram program;
  for (const Column& column : formulation.program.columns()) program.add_column(column);
  for (const Row& row : formulation.program.rows()) {
    const bool named = std::any_of(rows.begin(), rows.end(),
                                   [&](const RowMeaning& r) { return r.id == row.name; });
    if (named && row.name != without) program.add_row(row);
  }
  return program;
}

RC_GTEST_PROP(RationLaws, AConflictAloneCannotHoldAndHoldsWithoutAnyMember, ()) {
  const Solved none = any_without_ration();
  const NoRation why = explain_no_ration(none.question, none.formulation, {});
  RC_ASSERT(why.conflict_is_minimal);
  RC_ASSERT(why.proof_strength > certificate_tolerance);
  RC_ASSERT(!why.conflict.empty());
  const auto status_without = [&](const std::string& id) {
    return solve(with_rows(none.formulation, why.conflict, id)).status;
  };
  RC_ASSERT(status_without("") == Status::infeasible);
  for (const RowMeaning& row : why.conflict) {
    RC_ASSERT(status_without(row.id) == Status::optimal);
  }
}

RC_GTEST_PROP(RationLaws, TheNearestRationMissesWhatItSaysAndNothingElse, ()) {
  const Solved none = any_without_ration();
  const NoRation why = explain_no_ration(none.question, none.formulation, {});
  RC_ASSERT(!why.misses.empty());
  for (const Broken& miss : why.misses) {
    const bool short_of = miss.value < miss.row.bound;
    RC_ASSERT(short_of == (miss.row.side == Side::lower));
  }
}

// The question after a mend, written apart from the program's own way.
RationQuestion mended(RationQuestion question, const Mend& mend) {
  if (mend.kind == Mend::Kind::add_feed) {
    // Bounded as a stock is: a wish for `soya bean meal` would bound `soya bean
    // meal, 44` with it.
    question.stock_a_day.resize(question.offers.size());
    for (const Addition& addition : mend.additions) {
      Offer offer;
      offer.name = addition.feed.name;
      offer.feed = addition.feed;
      question.offers.push_back(offer);
      question.stock_a_day.emplace_back(addition.amount);
    }
    return question;
  }
  const RowMeaning& row = *mend.row;
  if (mend.kind == Mend::Kind::vet) {
    // As the keeper would: an instruction in the file.
    question.horse.instructions.push_back({row.limit->id, mend.to, "the vet, 1 November", {}});
    question.limits = limits_for(question.horse);
  } else if (row.limit) {
    for (Limit& limit : question.limits) {
      if (limit.id == row.limit->id) limit.number = mend.to;
    }
  } else if (row.family == RowFamily::need) {
    for (Requirement& need : question.needs.rows) {
      if (need.nutrient == row.nutrient) need.ceiling = mend.to;
    }
  } else if (row.family == RowFamily::wish) {
    std::vector<Wish> wishes;
    for (Wish wish : question.horse.wishes) {
      if (wish.what == row.wish && wish.kind == row.wish_kind) {
        const bool raised = row.side == Side::upper;
        if (wish.kind == WishKind::exactly) {
          // The side that is not mended stays where it was.
          Wish other = wish;
          other.kind = raised ? WishKind::at_least : WishKind::at_most;
          wishes.push_back(other);
        }
        wish.kind = raised ? WishKind::at_most : WishKind::at_least;
        wish.amount = KgAsFed{mend.to};
      }
      wishes.push_back(wish);
    }
    question.horse.wishes = std::move(wishes);
  }
  return question;
}

// Two changes one after the other: an instruction draws up the limits anew, so first.
RationQuestion mended_by_all(RationQuestion question, const Mend& mend) {
  if (mend.kind != Mend::Kind::together) return mended(std::move(question), mend);
  for (const bool vet : {true, false}) {
    for (const Mend& part : mend.parts) {
      if ((part.kind == Mend::Kind::vet) == vet) question = mended(std::move(question), part);
    }
  }
  return question;
}

RC_GTEST_PROP(RationLaws, EveryMendGivesARationAtTheCostTold, ()) {
  const Solved none = any_without_ration();
  // Some of the table, for time's sake.
  std::vector<Feed> known;
  for (const Feed& feed : feed_table()) {
    if (*rc::gen::inRange(0, 16) == 0) known.push_back(feed);
  }
  for (const Mend& mend : explain_no_ration(none.question, none.formulation, known).mends) {
    const Solved after = solved(mended_by_all(none.question, mend));
    RC_ASSERT(after.solution.status == Status::optimal);
    RC_ASSERT(certify(after.formulation.program, after.solution).holds());
    RC_ASSERT(same_cost(after.solution.cost, mend.cost.in_units()));
  }
}

// --- a stock for several horses ---

std::vector<RationQuestion> any_yard(double least_stock_kg, double most_stock_kg) {
  std::vector<Offer> offers = any_stable::offers();
  for (Offer& offer : offers) {
    if (*rc::gen::arbitrary<bool>()) {
      offer.on_hand = KgAsFed{any_stable::between(least_stock_kg, most_stock_kg)};
    }
  }
  std::vector<RationQuestion> questions;
  const int horses = *rc::gen::inRange(1, 5);
  questions.reserve(static_cast<std::size_t>(horses));
  for (int i = 0; i < horses; ++i) {
    questions.push_back(any_stable::question_for(any_stable::horse(), offers));
  }
  return questions;
}

RC_GTEST_PROP(RationLaws, SharesNeverHandOutMoreThanThereIs, ()) {
  const std::vector<RationQuestion> questions = any_yard(0.0, 4000.0);
  const Days season{any_stable::between(10.0, 200.0)};
  const StockShares shares = share_stock(questions, season);
  RC_ASSERT(shares.a_day.size() == questions.size());
  const std::vector<Offer>& offers = questions.front().offers;
  std::vector<double> handed_out(offers.size(), 0.0);
  for (std::size_t h = 0; h < questions.size(); ++h) {
    RationQuestion fed = questions[h];
    const bool alone = solved(fed).solution.status == Status::optimal;
    fed.stock_a_day = shares.a_day[h];
    const Solved with_share = solved(fed);
    // A split that claims to be the cheapest feeds every horse that can be fed.
    if (shares.cheapest && alone) RC_ASSERT(with_share.solution.status == Status::optimal);
    // What the rations take out of the barn, and what the shares would allow.
    for (std::size_t f = 0; f < offers.size(); ++f) {
      if (!offers[f].on_hand) continue;
      if (!shares.a_day[h].empty()) {
        RC_ASSERT(shares.a_day[h][f].has_value());
        handed_out[f] += shares.a_day[h][f]->in_kg();
      } else if (with_share.solution.status == Status::optimal) {
        handed_out[f] += with_share.solution.columns[f] / (1.0 - offers[f].waste);
      }
    }
  }
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (!offers[f].on_hand) continue;
    const double a_day = *offers[f].on_hand / season.in_days() / KgAsFed{1.0};
    RC_ASSERT(handed_out[f] <= a_day * (1.0 + 1e-6) + 1e-6);
  }
}

RC_GTEST_PROP(RationLaws, AnEndlessStockChangesNothing, ()) {
  const std::vector<RationQuestion> questions = any_yard(1e6, 2e6);
  const StockShares shares = share_stock(questions, Days{100.0});
  RC_ASSERT(shares.cheapest);
  for (const auto& share : shares.a_day) RC_ASSERT(share.empty());
}

}  // namespace
}  // namespace haymow::ration_laws_test
