// Whole packs of several feeds at once, held to every way of buying them counted out.
#include "model/season_totals.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/model/hand_yard.h"

namespace haymow::season_totals_test {
namespace {

using namespace hand_made;

constexpr int days = 70;
constexpr double kg_a_day = 10.0;
constexpr double eaten_kg = days * kg_a_day;

std::optional<SeasonTotals> totals_of(const SeasonQuestion& yard) {
  const SeasonParts parts = season_parts(yard);
  const Spells steady{{{0, yard.weeks.size() - 1}}};
  return cheapest_totals(yard, parts, steady, {}, SeasonClock(60.0));
}

double cost_of_packs(const SeasonQuestion& yard, const SeasonTotals& totals) {
  double cost = 0.0;
  for (std::size_t f = 0; f < totals.size(); ++f) {
    cost += totals[f].value_or(KgAsFed{0.0}).in_kg() * yard.offers[f].price_per_kg.in_units();
  }
  return cost;
}

// One kind of feed is as good as another here: every number of packs that is enough.
double cheapest_counted_out(const SeasonQuestion& yard, std::size_t f, double still_kg) {
  if (still_kg <= 1e-9) return 0.0;
  if (f == yard.offers.size()) return unlimited;
  const double pack = yard.supply[f].pack->in_kg();
  double best = unlimited;
  for (int n = 0; n <= static_cast<int>(std::ceil(still_kg / pack)); ++n) {
    const double cost = n * pack * yard.offers[f].price_per_kg.in_units();
    best = std::min(best, cost + cheapest_counted_out(yard, f + 1, still_kg - n * pack));
  }
  return best;
}

TEST(SeasonTotals, AreTheCheapestOfAllWaysToBuyThePacks) {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    std::mt19937 draw(seed);
    std::uniform_int_distribution<int> kg(40, 320);
    std::uniform_real_distribution<double> price(1.0, 1.3);
    SeasonQuestion yard = yard_of(
        1, kg_a_day, days, {fed("a", price(draw)), fed("b", price(draw)), fed("c", price(draw))});
    for (FeedSupply& supply : yard.supply) supply.pack = KgAsFed{1.0 * kg(draw)};
    const auto totals = totals_of(yard);
    ASSERT_TRUE(totals.has_value()) << "seed " << seed;
    double in_all = 0.0;
    for (std::size_t f = 0; f < totals->size(); ++f) {
      ASSERT_TRUE((*totals)[f].has_value());
      const double packs = *(*totals)[f] / *yard.supply[f].pack;
      EXPECT_NEAR(packs, std::round(packs), 1e-9);
      in_all += (*totals)[f]->in_kg();
    }
    EXPECT_GE(in_all, eaten_kg - 1e-6);
    const double least = cheapest_counted_out(yard, 0, eaten_kg);
    EXPECT_NEAR(cost_of_packs(yard, *totals), least, 1e-3 * least) << "seed " << seed;
    // A plan that is to be ordered week by week is as cheap.
    const SeasonPlan plan = plan_season(yard);
    EXPECT_EQ(plan.status, SeasonStatus::found);
    EXPECT_LE(plan.cost.in_units(), least * (1.0 + 1e-3)) << "seed " << seed;
  }
}

TEST(SeasonTotals, AreNoneWhereNothingComesInPacksOrTheYardIsLarge) {
  EXPECT_FALSE(totals_of(yard_of(1, kg_a_day, days, {fed("hay")})).has_value());
  std::vector<Offer> many;
  for (int f = 0; f < 120; ++f) many.push_back(fed("feed " + std::to_string(f)));
  SeasonQuestion yard = yard_of(1, kg_a_day, days, std::move(many));
  for (FeedSupply& supply : yard.supply) supply.pack = KgAsFed{20.0};
  EXPECT_FALSE(totals_of(yard).has_value());
}

}  // namespace
}  // namespace haymow::season_totals_test
