#include "model/no_ration.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feeds/feed_table.h"
#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/model/hand_made.h"

namespace haymow::no_ration_test {
namespace {

using hand_made::feed_of;
using hand_made::ids_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;
using testing::UnorderedElementsAre;

NoRation why_none(const RationQuestion& question, std::vector<Feed> known_feeds = {}) {
  const Formulation formulation = formulate(question);
  EXPECT_EQ(solve(formulation.program).status, Status::infeasible);
  return explain_no_ration(question, formulation, known_feeds);
}

// The commonest honest conflict of a livery yard. An easy keeper of 500 kg needs
// 60 MJ and is to get 63 at most; 7.5 kg dry of good hay with 8.8 MJ give 66.
// Hay at 860 g of dry matter costs 0.20 a kg.
RationQuestion easy_keeper(double hay_mj = 8.8) {
  return question_of(
      500.0, {offer_of(feed_of("hay", FeedGroup::hay, 860.0, {{Nutrient::energy, hay_mj}}), 0.20)},
      {need_of(Nutrient::energy, 60.0, 63.0)},
      {limit_of("forage/min", 1.5), limit_of("straw_share/max", 30.0)});
}

const Feed straw = feed_of("straw", FeedGroup::straw, 900.0, {{Nutrient::energy, 7.3}});
const Feed late_hay = feed_of("late hay", FeedGroup::hay, 890.0, {{Nutrient::energy, 7.8}});
const Feed oats = feed_of("oats", FeedGroup::cereal, 870.0, {{Nutrient::energy, 13.4}});

TEST(NoRation, NamesTheClashOfForageAndEnergy) {
  const NoRation none = why_none(easy_keeper());
  EXPECT_THAT(ids_of(none.conflict), UnorderedElementsAre("energy/max", "forage/min"));
  EXPECT_TRUE(none.conflict_is_minimal);
  EXPECT_GT(none.proof_strength, certificate_tolerance);
}

TEST(NoRation, TellsTheContradictionByItsEnergy) {
  const NoRation none = why_none(easy_keeper());
  ASSERT_TRUE(none.derivation);
  EXPECT_EQ(none.derivation->clash.id, "energy/max");
  EXPECT_EQ(none.derivation->clash.bound, 63.0);
  EXPECT_NEAR(none.derivation->best.value, 66.0, 1e-6);  // 7.5 kg x 8.8 MJ
}

// Without the law the nearest ration: all the forage, and 3 MJ too many.
TEST(NoRation, TheNearestRationKeepsTheLaw) {
  const NoRation none = why_none(easy_keeper());
  EXPECT_NEAR(none.nearest.forage.in_kg(), 7.5, 1e-6);
  EXPECT_THAT(ids_of(none.misses), ElementsAre("energy/max"));
  EXPECT_NEAR(none.misses[0].value, 66.0, 1e-6);
}

// Less forage, for a vet to say: 63 / 8.8 = 7.159 kg, 1.4318 % of bodyweight, said
// with room as 1.41 %: 7.05 kg dry, 7.05 / 0.86 x 0.20 = 1.640. More energy, for the keeper
// to say: 66 MJ, 7.5 / 0.86 x 0.20 = 1.744.
TEST(NoRation, OffersTheCheapestChangeFirst) {
  const NoRation none = why_none(easy_keeper());
  ASSERT_THAT(none.mends, SizeIs(2));
  const Mend& forage = none.mends[0];
  EXPECT_EQ(forage.kind, Mend::Kind::vet);
  EXPECT_EQ(forage.row->id, "forage/min");
  EXPECT_NEAR(forage.to, 1.41, 1e-9);  // the edge, 1.432, less a hundredth, outward
  EXPECT_EQ(forage.unit, "% of bodyweight");
  EXPECT_NEAR(forage.cost.in_units(), 7.05 / 0.86 * 0.20, 1e-6);
  const Mend& energy = none.mends[1];
  EXPECT_EQ(energy.kind, Mend::Kind::keeper);
  EXPECT_EQ(energy.row->id, "energy/max");
  EXPECT_NEAR(energy.to, 66.7, 1e-9);  // 66.0 and a hundredth, outward to a tenth
  EXPECT_EQ(energy.unit, "MJ");
  EXPECT_NEAR(energy.cost.in_units(), 7.5 / 0.86 * 0.20, 1e-6);
}

// The keeper's own bag may bear a name of the table: it is not proposed twice.
TEST(NoRation, ProposesNoFeedUnderANameThatIsTaken) {
  RationQuestion question = easy_keeper();
  question.offers[0].name = straw.name;
  for (const Mend& mend : why_none(question, {straw, late_hay}).mends) {
    for (const Addition& addition : mend.additions) EXPECT_NE(addition.feed.name, straw.name);
  }
}

// 8.8 hay + 7.3 straw <= 63 with 7.5 kg dry: 2.0 kg of straw, 2.22 as fed, said as
// 2.3. Late hay with 7.8 MJ: 3.0 kg dry, 3.37 as fed, said as 3.4. Oats do not help.
TEST(NoRation, ProposesStrawOrLaterHay) {
  const NoRation none = why_none(easy_keeper(), {oats, late_hay, straw});
  ASSERT_THAT(none.mends, SizeIs(4));
  const Mend& with_straw = none.mends[2];
  EXPECT_EQ(with_straw.kind, Mend::Kind::add_feed);
  ASSERT_THAT(with_straw.additions, SizeIs(1));
  EXPECT_EQ(with_straw.additions[0].feed.name, "straw");
  EXPECT_NEAR(with_straw.additions[0].amount.in_kg(), 2.3, 1e-9);
  // 2.07 kg dry of straw leave 5.43 kg dry of hay to pay.
  EXPECT_NEAR(with_straw.cost.in_units(), 5.43 / 0.86 * 0.20, 1e-6);
  const Mend& with_late_hay = none.mends[3];
  ASSERT_THAT(with_late_hay.additions, SizeIs(1));
  EXPECT_EQ(with_late_hay.additions[0].feed.name, "late hay");
  EXPECT_NEAR(with_late_hay.additions[0].amount.in_kg(), 3.4, 1e-9);
  EXPECT_NEAR(with_late_hay.cost.in_units(), (7.5 - 3.4 * 0.89) / 0.86 * 0.20, 1e-6);
}

// With 9 MJ in the hay 2.65 kg of straw would be needed, 35 % of the forage.
TEST(NoRation, ProposesNoMoreStrawThanTheRulesAllow) {
  const NoRation none = why_none(easy_keeper(9.0), {straw, late_hay});
  for (const Mend& mend : none.mends) {
    for (const Addition& addition : mend.additions) EXPECT_NE(addition.feed.name, "straw");
  }
  EXPECT_THAT(none.mends, SizeIs(3));  // less forage, more energy, later hay
}

// With 14 MJ a kilogram, 63 MJ is 0.9 % of bodyweight: below what any vet may say.
TEST(NoRation, NeverLoosensALawBelowItsAbsoluteFigure) {
  const NoRation none = why_none(easy_keeper(14.0));
  ASSERT_THAT(none.mends, SizeIs(1));
  EXPECT_EQ(none.mends[0].row->id, "energy/max");
}

TEST(NoRation, NeverLoosensForageForAHorseWithUlcers) {
  RationQuestion question = easy_keeper();
  question.horse.health = {HealthState::gastric_ulcers};
  const NoRation none = why_none(question);
  ASSERT_THAT(none.mends, SizeIs(1));
  EXPECT_EQ(none.mends[0].row->id, "energy/max");
}

// Copper is in the powder only, and its maker allows 50 g, half of what it takes.
TEST(NoRation, NeverLoosensAMakersAmountOrANeed) {
  Feed powder = feed_of("powder", FeedGroup::supplement, 1000.0, {{Nutrient::copper, 1000.0}});
  powder.daily_most = DailyMost{KgAsFed{0.05}, std::nullopt};
  const NoRation none =
      why_none(question_of(500.0, {offer_of(powder, 5.0)}, {need_of(Nutrient::copper, 100.0)}));
  EXPECT_THAT(ids_of(none.conflict), UnorderedElementsAre("copper/min", "maker/powder/max"));
  EXPECT_THAT(none.mends, IsEmpty());
  ASSERT_TRUE(none.derivation);
  EXPECT_NEAR(none.derivation->best.value, 50.0, 1e-9);  // mg, of 100
}

// 10 kg eaten with a tenth wasted are 11.11 kg from the barn; there are 9 a day.
TEST(NoRation, AStockTooSmallIsMendedByBuying) {
  RationQuestion question = question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}}), 0.2, 0.1)},
      {need_of(Nutrient::energy, 100.0)});
  question.stock_a_day = {KgAsFed{9.0}};
  const NoRation none = why_none(question);
  EXPECT_THAT(ids_of(none.conflict), UnorderedElementsAre("energy/min", "stock/hay/max"));
  ASSERT_THAT(none.mends, SizeIs(1));
  EXPECT_EQ(none.mends[0].kind, Mend::Kind::buy_more);
  EXPECT_NEAR(none.mends[0].to, 11.3, 1e-9);  // 11.11 and a hundredth, outward
  EXPECT_EQ(none.mends[0].unit, "kg as fed");
}

// At most 8 kg of hay, where 10 are needed.
TEST(NoRation, AWishIsTheKeepersToChange) {
  RationQuestion question = question_of(
      500.0, {offer_of(feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}}), 0.2)},
      {need_of(Nutrient::energy, 100.0)});
  question.horse.wishes = {{WishKind::at_most, "hay", KgAsFed{8.0}, {}}};
  const NoRation none = why_none(question);
  EXPECT_THAT(ids_of(none.conflict), UnorderedElementsAre("energy/min", "wish/at most hay/max"));
  ASSERT_THAT(none.mends, SizeIs(1));
  EXPECT_EQ(none.mends[0].kind, Mend::Kind::keeper);
  EXPECT_NEAR(none.mends[0].to, 10.0, 0.1 + 1e-9);
  EXPECT_GE(none.mends[0].to, 10.0 - 1e-9);
  EXPECT_NEAR(none.mends[0].cost.in_units(), 2.0, 1e-6);
}

// "Exactly" has two sides; the one that is in the way moves.
TEST(NoRation, ExactlyMovesOnTheSideThatIsInTheWay) {
  RationQuestion question = question_of(
      500.0, {offer_of(feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}}), 0.2)},
      {need_of(Nutrient::energy, 100.0, 105.0)});
  question.horse.wishes = {{WishKind::exactly, "hay", KgAsFed{12.0}, {}}};
  const NoRation none = why_none(question);
  EXPECT_THAT(ids_of(none.conflict), UnorderedElementsAre("energy/max", "wish/exactly hay/min"));
  EXPECT_THAT(none.mends, SizeIs(2));
  // Proposed with a hundredth of room and rounded outward.
  for (const Mend& mend : none.mends) {
    if (mend.row->id == "energy/max") {
      EXPECT_GT(mend.to, 120.0);
      EXPECT_LE(mend.to, 122.0 + 1e-9);
    } else {
      EXPECT_LT(mend.to, 10.5);
      EXPECT_GE(mend.to, 10.3 - 1e-9);
    }
  }
}

// The easy keeper, who is to get no more than 5 kg of the hay: more hay alone brings
// too much energy, and less forage alone is below what a vet may say (4.3 kg dry are
// 0.86 %). More hay with less forage costs least: 60 MJ are 60 / 8.8 / 0.86 = 7.928 kg,
// 1.3636 % of bodyweight dry, said as 8.01 kg and 1.34 %.
TEST(NoRation, TwoChangesTogetherWhenNoSingleOneDoes) {
  RationQuestion question = easy_keeper();
  question.horse.wishes = {{WishKind::at_most, "hay", KgAsFed{5.0}, {}}};
  const NoRation none = why_none(question);
  ASSERT_THAT(none.mends, SizeIs(1));
  const Mend& pair = none.mends[0];
  EXPECT_EQ(pair.kind, Mend::Kind::together);
  ASSERT_THAT(pair.parts, SizeIs(2));
  for (const Mend& part : pair.parts) {
    if (part.row->id == "forage/min") {
      EXPECT_EQ(part.kind, Mend::Kind::vet);
      EXPECT_NEAR(part.to, 1.34, 1e-9);
      question.limits[0].number = part.to;
    } else {
      EXPECT_EQ(part.row->id, "wish/at most hay/max");
      EXPECT_NEAR(part.to, 8.01, 1e-9);
      question.horse.wishes[0].amount = KgAsFed{part.to};
    }
  }
  EXPECT_NEAR(pair.cost.in_units(), 60.0 / 8.8 / 0.86 * 0.20, 1e-6);
  // The question written anew with both changes has that cheapest answer.
  const Solution again = solve(formulate(question).program);
  ASSERT_EQ(again.status, Status::optimal);
  EXPECT_NEAR(again.cost, pair.cost.in_units(), 1e-9);
}

// With 14 MJ in the hay no vet may go so low, so the energy ceiling has to give as well.
TEST(NoRation, APairNeverLoosensALawBeyondItsAbsoluteFigure) {
  RationQuestion question = easy_keeper(14.0);
  question.horse.wishes = {{WishKind::at_most, "hay", KgAsFed{5.0}, {}}};
  const NoRation none = why_none(question);
  const double absolute = *find_rule("forage/min")->absolute;
  for (const Mend& mend : none.mends) {
    for (const Mend& part : mend.parts) {
      if (part.row->id == "forage/min") {
        EXPECT_GE(part.to, absolute);
      }
    }
  }
  // 6.25 kg dry at least, 87.5 MJ: hay and energy move, forage need not.
  ASSERT_THAT(none.mends, SizeIs(1));
  EXPECT_EQ(none.mends[0].kind, Mend::Kind::together);
}

// A cob on the table's own hay, with every rule and need in force: the same clash,
// and straw or a later hay among the ways out.
TEST(NoRation, TheClassicClashWithEveryRuleInForce) {
  Horse cob;
  cob.bodyweight = Bodyweight{500.0};
  cob.stage = Idle{MaintenanceLevel::minimum};
  cob.energy_factor = 0.95;
  RationQuestion question = question_of(500.0, {}, nrc_2007(cob).rows, limits_for(cob));
  question.needs = nrc_2007(cob);
  question.horse = cob;
  question.meals = 2;
  question.highest = highest_known(feed_table());
  for (const auto& [name, price] :
       std::vector<std::pair<const char*, double>>{{"ryegrass hay, late cut", 0.20},
                                                   {"balancer pellet", 1.4},
                                                   {"vitamin and mineral powder", 7.0},
                                                   {"limestone flour", 2.0},
                                                   {"salt", 0.5}}) {
    const Feed* feed = find_feed(name);
    ASSERT_NE(feed, nullptr) << name;
    question.offers.push_back(offer_of(*feed, price));
  }
  const NoRation none = why_none(question, feed_table());
  EXPECT_THAT(ids_of(none.conflict), UnorderedElementsAre("energy/max", "forage/min"));
  std::vector<FeedGroup> added;
  for (const Mend& mend : none.mends) {
    for (const Addition& addition : mend.additions) added.push_back(addition.feed.group);
  }
  EXPECT_THAT(added, testing::AnyOf(Contains(FeedGroup::straw), Contains(FeedGroup::hay)));
}

}  // namespace
}  // namespace haymow::no_ration_test
