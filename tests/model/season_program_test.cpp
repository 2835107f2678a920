// The rows of a season, each tried on a yard small enough to reckon on paper.
#include "model/season_program.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/model/hand_yard.h"

namespace haymow::season_program_test {
namespace {

using namespace hand_made;

struct Solved {
  SeasonProgram program;
  Solution solution;

  [[nodiscard]] double at(const std::string& column) const {
    for (std::size_t j = 0; j < solution.columns.size(); ++j) {
      if (program.program.columns()[j].name == column) return solution.columns[j];
    }
    throw std::out_of_range(column);
  }
  [[nodiscard]] bool has_row(const std::string& name) const {
    const auto rows = program.program.rows();
    return std::any_of(rows.begin(), rows.end(), [&](const Row& r) { return r.name == name; });
  }
};

Solved solved(const SeasonQuestion& yard, const SeasonChoices& choices = {},
              Merging merging = Merging::alike) {
  const SeasonParts parts = season_parts(yard, merging);
  Solved out{season_program(yard, parts, weekly_spells(yard, parts), choices), {}};
  out.solution = solve(out.program.program);
  if (out.solution.status == Status::optimal) {
    EXPECT_TRUE(certify(out.program.program, out.solution).holds());
  }
  return out;
}

TEST(SeasonProgram, BuysWhatIsEatenAndLostOnTheWay) {
  Offer hay = fed("hay", 0.2);
  hay.waste = 0.1;
  hay.storage_loss = 0.05;
  const Solved season = solved(yard_of(2, 9.0, 14, {hay}));
  // 2 horses x 9 kg x 14 days / (0.9 x 0.95), at 0.20.
  EXPECT_NEAR(season.solution.cost, 0.2 * 252.0 / (0.9 * 0.95), 1e-9);
}

TEST(SeasonProgram, ChargesWhatWasOnHandAsItGoesAndNotWhatIsLeft) {
  Offer hay = fed("hay", 0.2);
  hay.on_hand = KgAsFed{1000.0};
  hay.storage_loss = 0.1;
  const Solved season = solved(yard_of(1, 9.0, 28, {hay}));
  // 252 kg eaten were 280 kg in the stack.
  EXPECT_NEAR(season.solution.cost, 0.2 * 280.0, 1e-9);
  EXPECT_NEAR(season.at("store/hay/w4"), 900.0 - 252.0, 1e-9);
}

TEST(SeasonProgram, GivesNothingBackForHayBoughtAtTheEndInPlaceOfWhatWasOnHand) {
  Offer hay = fed("hay", 1.0);
  hay.on_hand = KgAsFed{63.0};
  SeasonQuestion yard = yard_of(1, 9.0, 14, {hay});
  yard.supply[0].can_be_bought = true;
  set_price(yard, 0, 1, 0.1);
  // The first week from the barn, the second bought: 63 at 1.00 and 63 at 0.10. To buy
  // 63 more in the second week and call them what was on hand would cost less.
  EXPECT_NEAR(solved(yard).solution.cost, 63.0 + 6.3, 1e-9);
}

TEST(SeasonProgram, BuysEarlyWhereItIsCheaperAsFarAsThereIsRoom) {
  SeasonQuestion yard = yard_of(1, 10.0, 28, {fed("hay", 1.0)});
  for (std::size_t w = 2; w < 4; ++w) set_price(yard, 0, w, 2.0);
  EXPECT_NEAR(solved(yard).solution.cost, 280.0, 1e-9);
  yard.stores = {{"barn", KgAsFed{100.0}, std::nullopt}};
  yard.supply[0].store = 0;
  // Full on the first day of week 2: 100, of which 30 are left for the dear weeks.
  EXPECT_NEAR(solved(yard).solution.cost, 170.0 + 2.0 * 110.0, 1e-9);
}

TEST(SeasonProgram, MeasuresRoomByTheVolumeOfTheBales) {
  SeasonQuestion yard = yard_of(1, 10.0, 14, {fed("hay", 1.0)});
  yard.stores = {{"barn", std::nullopt, 0.8}};
  yard.supply[0].store = 0;
  yard.supply[0].cubic_metres_per_kg = 0.01;
  set_price(yard, 0, 1, 3.0);
  EXPECT_NEAR(solved(yard).solution.cost, 80.0 + 3.0 * 60.0, 1e-9);
}

TEST(SeasonProgram, KeepsNothingLongerThanItIsGood) {
  SeasonQuestion yard = yard_of(1, 10.0, 28, {fed("haylage", 1.0)});
  for (std::size_t w = 1; w < 4; ++w) set_price(yard, 0, w, 2.0);
  yard.supply[0].keeps = Days{21.0};
  // Three weeks' worth bought in the first, the fourth week's later.
  EXPECT_NEAR(solved(yard).solution.cost, 210.0 + 140.0, 1e-9);
}

TEST(SeasonProgram, StockOnHandSpoilsTooAndIsThenPaidFor) {
  Offer haylage = fed("haylage", 1.0);
  haylage.on_hand = KgAsFed{500.0};
  SeasonQuestion yard = yard_of(1, 10.0, 28, {haylage});
  yard.supply[0].can_be_bought = true;
  yard.supply[0].keeps = Days{14.0};
  const Solved season = solved(yard);
  EXPECT_NEAR(season.solution.cost, 500.0 + 140.0, 1e-9);
  EXPECT_NEAR(season.at("spoil/haylage/w1") + season.at("spoil/haylage/w2"), 360.0, 1e-9);
}

TEST(SeasonProgram, KeepsTheBudgetOfAMonth) {
  SeasonQuestion yard = yard_of(1, 10.0, 56, {fed("hay", 1.0), fed("haylage", 3.0)});
  for (std::size_t w = 4; w < 8; ++w) set_price(yard, 0, w, 2.0);
  EXPECT_NEAR(solved(yard).solution.cost, 560.0, 1e-9);
  yard.budget = {Money{300.0}, std::nullopt};
  EXPECT_NEAR(solved(yard).solution.cost, 300.0 + 2.0 * 260.0, 1e-9);
  yard.budget = {Money{100.0}, Money{100.0}};
  EXPECT_EQ(solved(yard).solution.status, Status::infeasible);
}

TEST(SeasonProgram, TakesNoMoreThanTheMarketHas) {
  SeasonQuestion yard = yard_of(1, 10.0, 14, {fed("hay", 1.0), fed("haylage", 3.0)});
  yard.supply[0].can_be_had = KgAsFed{50.0};
  EXPECT_NEAR(solved(yard).solution.cost, 50.0 + 3.0 * 90.0, 1e-9);
}

TEST(SeasonProgram, ReckonsQuantityAndDeliveryAtTheirBest) {
  SeasonQuestion yard = yard_of(1, 10.0, 14, {fed("hay", 1.0)});
  yard.supply[0].cheaper = {{KgAsFed{100.0}, Money{0.1}}, {KgAsFed{5000.0}, Money{0.5}}};
  yard.supply[0].can_be_had = KgAsFed{1000.0};
  yard.supply[0].delivery = DeliveryTerms{Money{50.0}, KgAsFed{500.0}};
  // 5 t can never be ordered: the market has 1 t. 0.90 and 50 / 500 a kilogram.
  EXPECT_NEAR(solved(yard).solution.cost, 140.0, 1e-9);
}

// --- change ---

// Hay at first, then haylage must be fed: it alone meets the need of the second ration.
SeasonQuestion turning_yard(int weeks_before, int weeks_after) {
  const auto energy_and_protein = [](const std::string& name, double protein, double price) {
    return offer_of(feed_of(name, FeedGroup::hay, 1000.0,
                            {{Nutrient::energy, 10.0}, {Nutrient::crude_protein, protein}}),
                    price);
  };
  SeasonQuestion yard =
      empty_yard(7 * (weeks_before + weeks_after),
                 {energy_and_protein("plain", 0.0, 1.0), energy_and_protein("rich", 100.0, 2.0)});
  const std::size_t before = add_ration(yard, 10.0);
  const std::size_t after = add_ration(yard, 10.0);
  yard.rations[after].needs.rows.push_back(need_of(Nutrient::crude_protein, 1000.0));
  add_horse(yard, "Juniper", before);
  for (int w = weeks_before; w < weeks_before + weeks_after; ++w) {
    yard.horses[0].ration_of_week[static_cast<std::size_t>(w)] = after;
  }
  return yard;
}

TEST(SeasonProgram, TurnsHalfOfTheFeedInAWeekWhichIsTwoWeeksForAll) {
  const Solved season = solved(turning_yard(3, 2));
  EXPECT_NEAR(season.at("eat/Juniper/rich/w2"), 0.0, 1e-7);
  EXPECT_NEAR(season.at("eat/Juniper/rich/w3"), 5.0, 1e-7);
  EXPECT_NEAR(season.at("eat/Juniper/rich/w4"), 10.0, 1e-7);
}

TEST(SeasonProgram, ChangesFromWhatWasFedBefore) {
  SeasonQuestion yard = yard_of(1, 10.0, 28, {fed("hay", 2.0), fed("haylage", 1.0)});
  yard.horses[0].fed_before = std::vector<double>{10.0, 0.0};
  const Solved season = solved(yard);
  // A quarter on the first day, half more with the second week, then the rest.
  EXPECT_NEAR(season.at("eat/horse 1/haylage/w1"), 2.5, 1e-7);
  EXPECT_NEAR(season.at("eat/horse 1/haylage/w2"), 7.5, 1e-7);
  EXPECT_NEAR(season.at("eat/horse 1/haylage/w3"), 10.0, 1e-7);
}

TEST(SeasonProgram, RaisesConcentratesByAQuarterOfAKilogramADay) {
  const Offer oats =
      offer_of(feed_of("oats", FeedGroup::cereal, 1000.0, {{Nutrient::energy, 10.0}}), 0.1);
  SeasonQuestion yard = yard_of(1, 10.0, 21, {fed("hay", 1.0), oats});
  yard.horses[0].fed_before = std::vector<double>{10.0, 0.0};
  const Solved season = solved(yard);
  EXPECT_NEAR(season.at("eat/horse 1/oats/w1"), 0.25 * 3.5, 1e-7);
  EXPECT_NEAR(season.at("eat/horse 1/oats/w2"), 0.25 * 10.5, 1e-7);
  EXPECT_NEAR(season.at("eat/horse 1/oats/w3"), 0.25 * 17.5, 1e-7);
}

// --- herds ---

TEST(SeasonProgram, PlansHorsesOfOneMeasureAsOne) {
  SeasonQuestion yard = empty_yard(28, {fed("hay", 1.0), fed("haylage", 1.1)});
  add_horse(yard, "small", add_ration(yard, 6.0));
  add_horse(yard, "large", add_ration(yard, 12.0));
  add_horse(yard, "other", add_ration(yard, 6.0));
  yard.rations[2].needs.rows.push_back(need_of(Nutrient::crude_protein, 0.0));
  const SeasonParts parts = season_parts(yard);
  ASSERT_EQ(parts.herds.size(), 2U);
  EXPECT_EQ(parts.herds[0].horses, (std::vector<std::size_t>{0, 1}));
  EXPECT_DOUBLE_EQ(parts.herds[0].size, 3.0);
  EXPECT_DOUBLE_EQ(parts.herds[0].share[1], 2.0 / 3.0);
  EXPECT_NEAR(solved(yard).solution.cost, solved(yard, {}, Merging::none).solution.cost, 1e-9);
}

TEST(SeasonProgram, RefusesSpellsThatMixRations) {
  const SeasonQuestion yard = turning_yard(3, 2);
  const SeasonParts parts = season_parts(yard);
  EXPECT_THROW((void)season_program(yard, parts, {{{0, 4}}}), std::invalid_argument);
  EXPECT_THROW((void)season_program(yard, parts, {{{0, 2}}}), std::invalid_argument);
  EXPECT_NO_THROW((void)season_program(yard, parts, {{{0, 2}, {3, 4}}}));
}

TEST(SeasonProgram, RefusesAQuestionThatDoesNotFitTogether) {
  SeasonQuestion yard = yard_of(1, 10.0, 28, {fed("hay")});
  yard.supply[0].price_per_kg.pop_back();
  EXPECT_THROW((void)season_parts(yard), std::invalid_argument);
}

}  // namespace
}  // namespace haymow::season_program_test
