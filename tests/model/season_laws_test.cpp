// Laws that hold for every season, tried on drawn yards of table feeds with fixed seeds.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "model/season_orders.h"
#include "model/season_plan.h"
#include "model/season_program.h"
#include "model/season_relaxation.h"
#include "model/season_supply.h"
#include "solver/solve.h"
#include "solver/write_program.h"
#include "tests/bench/season_yard.h"
#include "tests/solver/foreign_solvers.h"

namespace haymow::season_laws_test {
namespace {

constexpr double cost_tolerance = 1e-7;
constexpr double limit_seconds = 60.0;

class SeasonLaws : public testing::TestWithParam<unsigned> {
 protected:
  static constexpr bench::YardSize size{3, 8, 12};
  SeasonQuestion yard = bench::season_yard(GetParam(), size);

  static double cost_of(const SeasonQuestion& question, Merging merging = Merging::alike) {
    const SeasonRelaxation relaxed =
        relax_season(question, season_parts(question, merging), SeasonClock(limit_seconds));
    if (relaxed.status == SeasonStatus::none) return unlimited;
    EXPECT_EQ(relaxed.status, SeasonStatus::found);
    EXPECT_TRUE(relaxed.certificate.holds());
    return relaxed.answer.solution.cost;
  }
  static void expect_no_more(double cost, double than) {
    EXPECT_LE(cost, than + cost_tolerance * std::max(1.0, std::abs(than)));
  }
  static void expect_same(double cost, double other) {
    expect_no_more(cost, other);
    expect_no_more(other, cost);
  }
};

INSTANTIATE_TEST_SUITE_P(Seeds, SeasonLaws, testing::Range(1U, 7U));

TEST_P(SeasonLaws, TheCostIsThatOfOtherSolversOnTheWrittenProgram) {
  using namespace foreign_solvers;
  const SeasonParts parts = season_parts(yard);
  const double cost = cost_of(yard);
  ASSERT_LT(cost, unlimited);
  const Folder folder;
  const std::string path = folder.write(
      "season.mps", to_free_mps(season_program(yard, parts, weekly_spells(yard, parts)).program));
  int asked = 0;
  for (const auto& [name, optimum] :
       {std::pair{"clp", has("clp") ? clp_optimum(path) : std::nullopt},
        std::pair{"glpsol",
                  has("glpsol") ? glpsol_optimum(folder, "--freemps", path) : std::nullopt}}) {
    if (!optimum) continue;
    ++asked;
    EXPECT_NEAR(*optimum, cost, 1e-6 * cost) << name;
  }
  if (asked == 0) GTEST_SKIP() << "neither clp nor glpsol is installed";
}

TEST_P(SeasonLaws, MoreHayNeverCostsMore) {
  // Cheaper than any that is bought, or it need not be used.
  const double before = cost_of(yard);
  SeasonQuestion more = yard;
  more.supply[0].can_be_had = std::nullopt;
  more.offers.push_back(more.offers[0]);
  more.offers.back().name = "hay from a neighbour";
  more.offers.back().on_hand = KgAsFed{400.0};
  more.supply.push_back(more.supply[0]);
  more.supply.back().can_be_bought = false;
  more.supply.back().store = std::nullopt;
  for (RationQuestion& ration : more.rations) ration.offers = more.offers;
  expect_no_more(cost_of(more), before);
}

TEST_P(SeasonLaws, ALongerSeasonNeverCostsLess) {
  double before = 0.0;
  for (std::size_t weeks = 3; weeks <= size.weeks; ++weeks) {
    SeasonQuestion shorter = yard;
    shorter.weeks.resize(weeks);
    for (FeedSupply& supply : shorter.supply) supply.price_per_kg.resize(weeks);
    for (SeasonHorse& horse : shorter.horses) horse.ration_of_week.resize(weeks);
    const double cost = cost_of(shorter);
    expect_no_more(before, cost);
    before = cost;
  }
}

TEST_P(SeasonLaws, AWeekInTwoPartsCostsTheSameWherePricesAndNeedsStay) {
  SeasonQuestion constant = yard;
  for (FeedSupply& supply : constant.supply) {
    std::fill(supply.price_per_kg.begin(), supply.price_per_kg.end(), supply.price_per_kg[0]);
    supply.keeps = std::nullopt;  // which is counted in whole weeks
    supply.store = std::nullopt;  // and what fits is what a week takes
  }
  for (SeasonHorse& horse : constant.horses) {
    std::fill(horse.ration_of_week.begin(), horse.ration_of_week.end(), horse.ration_of_week[0]);
  }
  SeasonQuestion parted = constant;
  SeasonWeek& week = parted.weeks[3];
  SeasonWeek rest{week.first_day + 3, 4, week.month};
  week.days = 3;
  parted.weeks.insert(parted.weeks.begin() + 4, rest);
  for (FeedSupply& s : parted.supply) s.price_per_kg.push_back(s.price_per_kg[0]);
  for (SeasonHorse& h : parted.horses) h.ration_of_week.push_back(h.ration_of_week[0]);
  expect_same(cost_of(parted), cost_of(constant));
}

TEST_P(SeasonLaws, HorsesAlikeCostTheSamePlannedAsOne) {
  SeasonQuestion alike = yard;
  for (int twin = 0; twin < 2; ++twin) {
    alike.horses.push_back(alike.horses[0]);
    alike.horses.back().name = "twin " + std::to_string(twin + 1);
  }
  ASSERT_EQ(season_parts(alike).herds.size(), 3U);
  expect_same(cost_of(alike), cost_of(alike, Merging::none));
}

TEST_P(SeasonLaws, LongSpellsAreStartedFromAndNeverDearer) {
  // Whatever the start, the weekly program's own optimum comes out.
  const SeasonParts parts = season_parts(yard);
  const SeasonProgram weekly = season_program(yard, parts, weekly_spells(yard, parts));
  expect_same(solve(weekly.program).cost, cost_of(yard));
}

// --- whole packs ---

class SeasonPackLaws : public SeasonLaws {
 protected:
  SeasonPackLaws() {
    for (std::size_t f = 0; f < yard.offers.size(); ++f) {
      FeedSupply& supply = yard.supply[f];
      supply.pack = KgAsFed{yard.offers[f].feed.is_long_forage() ? 18.0 : 20.0};
      if (f % 3 == 0) supply.delivery = DeliveryTerms{Money{15.0}, KgAsFed{500.0}};
      if (f % 4 == 1) supply.cheaper = {{KgAsFed{200.0}, supply.price_per_kg[0] * 0.1}};
    }
    yard.budget.assign(yard.months.size(), Money{10'000.0});
  }
};

INSTANTIATE_TEST_SUITE_P(Seeds, SeasonPackLaws, testing::Range(1U, 7U));

TEST_P(SeasonPackLaws, AreWholeAndFeasibleAndNoCheaperThanTheBound) {
  const SeasonPlan plan = plan_season(yard);
  ASSERT_EQ(plan.status, SeasonStatus::found);
  EXPECT_TRUE(plan.in_whole_packs);
  EXPECT_GE(plan.cost.in_units(), plan.lower_bound.in_units() * (1.0 - 1e-9));
  EXPECT_LE(plan.cost.in_units(), plan.lower_bound.in_units() * 1.25);
  for (const OrderLine& line : plan.orders) {
    const double packs = line.amount / *yard.supply[line.offer].pack;
    EXPECT_NEAR(packs, std::round(packs), 1e-9);
    EXPECT_EQ(line.packs, std::lround(packs));
  }
}

TEST_P(SeasonPackLaws, TheBooksBalanceAndNothingIsNegative) {
  const SeasonPlan plan = plan_season(yard);
  ASSERT_EQ(plan.status, SeasonStatus::found);
  double cost = 0.0;
  for (const OrderLine& line : plan.orders) cost += (line.goods + line.delivery).in_units();
  for (std::size_t f = 0; f < yard.offers.size(); ++f) {
    double ordered = 0.0;
    double bought = 0.0;
    double largest = 1.0;
    for (const OrderLine& line : plan.orders) {
      if (line.offer == f) ordered += line.amount.in_kg();
    }
    for (std::size_t w = 0; w < yard.weeks.size(); ++w) {
      const StockWeek& week = plan.stock[f][w];
      bought += week.bought;
      largest = std::max({largest, week.opening, week.bought});
      EXPECT_NEAR(week.opening + week.bought,
                  week.lost + week.put_out + week.spoiled + week.closing, 1e-9 * largest);
      EXPECT_GE(std::min({week.opening, week.bought, week.lost, week.put_out, week.spoiled,
                          week.closing}),
                0.0);
      if (w > 0) {
        EXPECT_EQ(week.opening, plan.stock[f][w - 1].closing);
      }
      double eaten = 0.0;
      for (const auto& horse : plan.eaten) eaten += horse[w][f] * yard.weeks[w].days;
      EXPECT_NEAR(week.put_out, yard.offers[f].put_out(KgAsFed{eaten}).in_kg(), 1e-9 * largest);
    }
    EXPECT_NEAR(ordered, bought, 1e-9 * largest);
    if (yard.offers[f].on_hand) {
      const double left = plan.stock[f].back().closing;
      EXPECT_LE(left, opening_kg(yard.offers[f]) + bought + 1e-6);
    }
  }
  EXPECT_LE(cost, plan.cost.in_units() + 1e-6);
}

TEST_P(SeasonPackLaws, EveryHorseIsFedByTheRowsOfItsRation) {
  const SeasonPlan plan = plan_season(yard);
  ASSERT_EQ(plan.status, SeasonStatus::found);
  const SeasonParts parts = season_parts(yard);
  for (std::size_t h = 0; h < yard.horses.size(); ++h) {
    for (std::size_t w = 0; w < yard.weeks.size(); ++w) {
      const std::size_t ration = yard.horses[h].ration_of_week[w];
      for (const RowMeaning& row : parts.formulations[ration].rows) {
        EXPECT_TRUE(row.kept(plan.eaten[h][w])) << row.id << " in week " << w;
      }
    }
  }
}

TEST_P(SeasonPackLaws, RoomAndBudgetAreKept) {
  yard.budget[0] = Money{plan_season(yard).cost.in_units() * 0.7};
  const SeasonPlan plan = plan_season(yard);
  if (plan.status == SeasonStatus::none) GTEST_SKIP() << "so little money feeds nobody";
  ASSERT_EQ(plan.status, SeasonStatus::found);
  double spent = 0.0;
  for (const OrderLine& line : plan.orders) {
    if (yard.weeks[line.week].month == 0) spent += (line.goods + line.delivery).in_units();
  }
  EXPECT_LE(spent, yard.budget[0]->in_units() * (1.0 + 1e-9));
  for (std::size_t s = 0; s < yard.stores.size(); ++s) {
    const double room = room_of(yard, s, false).value();
    for (std::size_t w = 0; w < yard.weeks.size(); ++w) {
      double held = 0.0;
      for (std::size_t f = 0; f < yard.offers.size(); ++f) {
        if (yard.supply[f].store != s) continue;
        const StockWeek& week = plan.stock[f][w];
        // The first week's opening is told before the store's loss, the others after.
        const double kept = w == 0 ? 1.0 : 1.0 - yard.offers[f].storage_loss;
        held += week.opening / kept + week.bought;
      }
      EXPECT_LE(held, room * (1.0 + 1e-9));
    }
  }
}

TEST_P(SeasonPackLaws, TheSameYardHasTheSamePlan) {
  const SeasonPlan one = plan_season(yard);
  const SeasonPlan two = plan_season(yard);
  EXPECT_EQ(one.cost, two.cost);
  EXPECT_EQ(one.eaten, two.eaten);
}

}  // namespace
}  // namespace haymow::season_laws_test
