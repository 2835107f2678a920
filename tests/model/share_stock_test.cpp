#include "model/share_stock.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/solve.h"
#include "tests/model/hand_made.h"

namespace haymow::share_stock_test {
namespace {

using hand_made::feed_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using testing::Each;
using testing::IsEmpty;
using testing::SizeIs;

// All dry; 10 MJ a kilogram each, so a horse that needs 100 MJ eats 10 kg.
const Feed hay = feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}});
const Feed haylage = feed_of("haylage", FeedGroup::haylage, 1000.0, {{Nutrient::energy, 10.0}});
const Feed cubes = feed_of("cubes", FeedGroup::compound, 1000.0, {{Nutrient::energy, 10.0}});

Offer stocked(const Feed& feed, double price, double on_hand_kg, double waste = 0.0) {
  Offer offer = offer_of(feed, price, waste);
  offer.on_hand = KgAsFed{on_hand_kg};
  offer.own = true;
  return offer;
}

RationQuestion eater(const std::vector<Offer>& offers, double kg, double energy_mj) {
  return question_of(kg, offers, {need_of(Nutrient::energy, energy_mj)});
}

double shared_out(const StockShares& shares, std::size_t offer) {
  double total = 0.0;
  for (const auto& horse : shares.a_day) {
    if (!horse.empty() && horse[offer]) total += horse[offer]->in_kg();
  }
  return total;
}

// Two horses eat 20 kg of hay a day; 100 days take 2000 kg.
TEST(ShareStock, AStockThatLastsIsLeftFree) {
  const std::vector<Offer> offers{stocked(hay, 0.1, 2000.0), offer_of(haylage, 0.5)};
  const StockShares shares =
      share_stock({eater(offers, 500.0, 100.0), eater(offers, 500.0, 100.0)}, Days{100.0});
  EXPECT_TRUE(shares.cheapest);
  EXPECT_THAT(shares.a_day, SizeIs(2));
  EXPECT_THAT(shares.a_day, Each(IsEmpty()));
}

// The same hay for 125 days: 16 kg a day, the other 4 kg are haylage.
TEST(ShareStock, AShortStockIsHandedOutInFullAndNotBeyond) {
  const std::vector<Offer> offers{stocked(hay, 0.1, 2000.0), offer_of(haylage, 0.5)};
  const StockShares shares =
      share_stock({eater(offers, 500.0, 100.0), eater(offers, 500.0, 100.0)}, Days{125.0});
  EXPECT_TRUE(shares.cheapest);
  EXPECT_NEAR(shared_out(shares, 0), 16.0, 1e-6);
  EXPECT_FALSE(shares.a_day[0][1].has_value());
}

// Waste leaves the barn too: 20 kg eaten of hay that is wasted by a fifth are
// 25 kg put out, so 2000 kg last 80 days and not 100.
TEST(ShareStock, StockIsCountedAsPutOut) {
  const std::vector<Offer> offers{stocked(hay, 0.1, 2000.0, 0.2), offer_of(haylage, 0.5)};
  const std::vector<RationQuestion> both{eater(offers, 500.0, 100.0), eater(offers, 500.0, 100.0)};
  EXPECT_THAT(share_stock(both, Days{80.0}).a_day, Each(IsEmpty()));
  EXPECT_NEAR(shared_out(share_stock(both, Days{100.0}), 0), 20.0, 1e-6);
}

// 10 kg of hay a day. One horse may have cubes instead at 0.2, the other, which
// must have long forage, only haylage at 0.9. So the hay goes to the second:
//   first: 10 kg cubes = 2.0, second: 10 kg hay = 1.0; by weight it were 1.5 + 5.0.
TEST(ShareStock, HayGoesWhereItIsWorthMost) {
  const std::vector<Offer> offers{stocked(hay, 0.1, 1000.0), offer_of(haylage, 0.9),
                                  offer_of(cubes, 0.2)};
  RationQuestion grazer = eater(offers, 500.0, 100.0);
  grazer.horse.wishes = {{WishKind::none, "cubes", {}, {}}};
  const StockShares shares = share_stock({eater(offers, 500.0, 100.0), grazer}, Days{100.0});
  ASSERT_TRUE(shares.cheapest);
  EXPECT_EQ(shares.a_day[0][0]->in_kg(), 0.0);  // none, rather than a hair
  EXPECT_NEAR(shares.a_day[1][0]->in_kg(), 10.0, 1e-6);
}

// Nothing but 15 kg of hay a day for two horses that need 10 kg each.
TEST(ShareStock, WhatCannotFeedAllIsSplitByBodyweight) {
  const std::vector<Offer> offers{stocked(hay, 0.1, 1500.0)};
  const StockShares shares =
      share_stock({eater(offers, 600.0, 100.0), eater(offers, 300.0, 100.0)}, Days{100.0});
  EXPECT_FALSE(shares.cheapest);
  EXPECT_NEAR(shares.a_day[0][0]->in_kg(), 10.0, 1e-9);
  EXPECT_NEAR(shares.a_day[1][0]->in_kg(), 5.0, 1e-9);
}

// The stock as a row: a horse is held to its share and still has a ration.
TEST(ShareStock, EveryHorseHasARationWithinItsShare) {
  const std::vector<Offer> offers{stocked(hay, 0.1, 1500.0), offer_of(haylage, 0.5)};
  std::vector<RationQuestion> both{eater(offers, 600.0, 100.0), eater(offers, 300.0, 60.0)};
  const StockShares shares = share_stock(both, Days{100.0});
  ASSERT_TRUE(shares.cheapest);
  double cost = 0.0;
  for (std::size_t h = 0; h < both.size(); ++h) {
    both[h].stock_a_day = shares.a_day[h];
    const Solution solution = solve(formulate(both[h]).program);
    ASSERT_EQ(solution.status, Status::optimal);
    cost += solution.cost;
  }
  EXPECT_NEAR(cost, 15.0 * 0.1 + 1.0 * 0.5, 1e-6);
}

// A horse that has no ration with an endless barn (its keeper wants more than it
// may have) is not held to a stock: the barn is not why. The rest share it all.
TEST(ShareStock, AHorseWithoutARationTakesNothingFromTheOthers) {
  const std::vector<Offer> offers{stocked(hay, 0.1, 1500.0), offer_of(haylage, 0.5)};
  RationQuestion none = eater(offers, 500.0, 100.0);
  none.horse.wishes = {{WishKind::at_least, "hay", KgAsFed{5.0}, {}},
                       {WishKind::none, "hay", {}, {}}};
  const StockShares shares =
      share_stock({eater(offers, 500.0, 100.0), none, eater(offers, 500.0, 100.0)}, Days{100.0});
  EXPECT_TRUE(shares.cheapest);
  EXPECT_LE(shared_out(shares, 0), 15.0 + 1e-6);
  EXPECT_NEAR(shares.a_day[0][0]->in_kg() + shares.a_day[2][0]->in_kg(), 15.0, 1e-6);
  EXPECT_THAT(shares.a_day[1], IsEmpty());
}

TEST(ShareStock, NoHorsesShareNothing) {
  EXPECT_THAT(share_stock({}, Days{100.0}).a_day, IsEmpty());
}

}  // namespace
}  // namespace haymow::share_stock_test
