#include "scenarios/wording.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/model/hand_made.h"

namespace haymow::wording_test {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;

const Wording metric(Units::metric, "GBP");
const Wording us(Units::us, "USD");

RowMeaning need(Nutrient nutrient, Side side, double bound) {
  RowMeaning row;
  row.id = std::string(traits_of(nutrient).key) + (side == Side::lower ? "/min" : "/max");
  row.family = RowFamily::need;
  row.side = side;
  row.bound = bound;
  row.unit = traits_of(nutrient).unit;
  row.nutrient = nutrient;
  return row;
}

// The forage floor of a horse of 500 kg, as formulate() makes it.
RowMeaning forage_floor() {
  Horse horse;
  horse.bodyweight = Bodyweight{500.0};
  RationQuestion question = hand_made::question_of(
      500.0, {hand_made::offer_of(hand_made::feed_of("hay", FeedGroup::hay, 860.0, {}), 0.2)}, {});
  question.limits = limits_for(horse);
  return hand_made::row_of(formulate(question).rows, "forage/min");
}

// --- numbers -----------------------------------------------------------------------

TEST(Wording, NumbersHaveTwoOrThreeFigures) {
  EXPECT_EQ(rounded(0.0), "0.00");
  EXPECT_EQ(rounded(0.01234), "0.012");
  EXPECT_EQ(rounded(0.5), "0.50");
  EXPECT_EQ(rounded(9.876), "9.88");
  EXPECT_EQ(rounded(12.345), "12.3");
  EXPECT_EQ(rounded(123.4), "123");
  EXPECT_EQ(rounded(-12.345), "-12.3");
}

TEST(Wording, MassesAreInKilogramsAndGrams) {
  EXPECT_EQ(metric.mass(9.26), "9.3 kg");
  EXPECT_EQ(metric.mass(1.0), "1.0 kg");
  EXPECT_EQ(metric.mass(0.04), "40 g");
  EXPECT_EQ(metric.mass(0.994), "994 g");
  EXPECT_EQ(metric.mass(0.996), "1.0 kg");
  EXPECT_EQ(metric.mass(0.005), "5 g");
  EXPECT_EQ(metric.mass(1234.5), "1234 kg");
}

// 9.3 kg / 0.45359237 = 20.5 lb; 40 g / 28.35 g = 1.4 oz.
TEST(Wording, UsMassesAreInPoundsAndOunces) {
  EXPECT_EQ(us.mass(9.3), "20.5 lb");
  EXPECT_EQ(us.mass(0.04), "1.4 oz");
}

TEST(Wording, SmallSumsOfMoneyKeepTwoFigures) {
  EXPECT_EQ(Wording::money(4.1234), "4.12");
  EXPECT_EQ(Wording::money(0.0031), "0.0031");
  EXPECT_EQ(Wording::money(0.0), "0.00");
  EXPECT_EQ(metric.money_with_code(4.1), "4.10 GBP");
}

// 1 a kg is 0.45 a lb.
TEST(Wording, PricesFollowTheUnits) {
  EXPECT_EQ(metric.price(1.0), "1.00 a kg");
  EXPECT_EQ(us.price(1.0), "0.45 a lb");
}

TEST(Wording, ListsReadLikeEnglish) {
  EXPECT_EQ(listed({}), "");
  EXPECT_EQ(listed({"a"}), "a");
  EXPECT_EQ(listed({"a", "b"}), "a and b");
  EXPECT_EQ(listed({"a", "b", "c"}), "a, b and c");
}

// --- limits ----------------------------------------------------------------------------

TEST(Wording, ANeedIsSaidWithItsUnit) {
  EXPECT_EQ(metric.demand(need(Nutrient::energy, Side::lower, 98.6)), "energy at least 98.6 MJ");
  EXPECT_EQ(metric.demand(need(Nutrient::energy, Side::upper, 103.5)), "energy at most 104 MJ");
  EXPECT_EQ(Wording::subject(need(Nutrient::energy, Side::upper, 1.0)), "the energy ceiling");
}

TEST(Wording, ARuleIsSaidWithWhatItMeansForThisHorse) {
  EXPECT_EQ(metric.demand(forage_floor()),
            "forage dry matter is at least 1.5 % of bodyweight a day: 7.5 kg of dry matter here");
}

TEST(Wording, WishesAreTheKeepers) {
  RowMeaning row;
  row.family = RowFamily::wish;
  row.wish = "oats";
  row.wish_kind = WishKind::none;
  row.side = Side::upper;
  EXPECT_EQ(metric.demand(row), "no oats, as you wish");
  row.wish_kind = WishKind::at_least;
  row.side = Side::lower;
  row.bound = 1.0;
  EXPECT_EQ(metric.demand(row), "at least 1.0 kg of oats, as you wish");
}

// With two supplements on offer a reader must be told which one.
TEST(Wording, AMakersAmountNamesTheFeed) {
  RowMeaning row;
  row.id = "maker/vitamin E powder/max";
  row.family = RowFamily::maker;
  row.side = Side::upper;
  row.bound = 0.05;
  row.unit = "kg as fed";
  EXPECT_EQ(metric.demand(row), "the maker's daily amount of vitamin E powder at most 50 g");
}

TEST(Wording, AStockNamesTheFeed) {
  RowMeaning row;
  row.id = "stock/our hay/max";
  row.family = RowFamily::stock;
  row.side = Side::upper;
  row.bound = 8.0;
  row.unit = "kg as fed";
  EXPECT_EQ(metric.demand(row), "our hay in the barn at most 8.0 kg");
}

TEST(Wording, EveryRuleHasAName) {
  for (const Rule& rule : rule_table()) {
    RowMeaning row;
    row.id = std::string(rule.id);
    row.family = RowFamily::tolerance;
    EXPECT_THAT(Wording::subject(row), Not(HasSubstr("/"))) << rule.id;
    EXPECT_THAT(Wording::subject(row), Not(HasSubstr("_"))) << rule.id;
  }
}

// --- what holds the ration ------------------------------------------------------------

// 98.6 MJ: a step a person can picture is 1 MJ; 0.012 a MJ.
TEST(Wording, AHeldLimitSaysWhatLooseningSavesAndHowFar) {
  HeldLimit limit;
  limit.row = need(Nutrient::energy, Side::lower, 98.6);
  limit.tightening_costs = 0.12;
  limit.loosening_saves = 0.12;
  limit.loosening_until = 90.0;
  EXPECT_EQ(metric.held(limit),
            "Energy holds the ration at 98.6 MJ: 1 MJ less would save 0.12 a day, down to "
            "90.0 MJ.");
}

TEST(Wording, AHeldLimitSaysTighteningOnlyWhereItDiffers) {
  HeldLimit limit;
  limit.row = need(Nutrient::energy, Side::lower, 98.6);
  limit.tightening_costs = 0.50;
  limit.loosening_saves = 0.12;
  EXPECT_THAT(metric.held(limit), HasSubstr("; 1 MJ more would cost 0.50."));
}

TEST(Wording, ALimitThatCannotBeTightenedSaysSo) {
  HeldLimit limit;
  limit.row = need(Nutrient::energy, Side::upper, 98.6);
  limit.tightening_costs = unlimited;
  EXPECT_EQ(metric.held(limit),
            "The energy ceiling holds the ration at 98.6 MJ: any less leaves no ration.");
}

// The yard's hay is handed out to the others: a share of nothing is no amount.
TEST(Wording, HayThatAllGoesToOthersIsToldAsSuch) {
  HeldLimit limit;
  limit.row.family = RowFamily::stock;
  limit.row.id = "stock/our hay/max";
  limit.row.side = Side::upper;
  limit.row.unit = "kg as fed";
  limit.row.bound = 0.0;
  limit.loosening_saves = 0.085;
  limit.loosening_until = 3.0;
  limit.tightening_costs = unlimited;
  EXPECT_EQ(metric.held(limit),
            "None of our hay in the barn is left for this horse: 1.0 kg more would save "
            "0.085 a day, up to 3.0 kg.");
}

TEST(Wording, AWelfareLimitIsCalledOne) {
  HeldLimit limit;
  limit.row = forage_floor();
  limit.loosening_saves = 0.1;
  limit.tightening_costs = 0.1;
  EXPECT_THAT(metric.held(limit), HasSubstr("Forage, a welfare limit, holds the ration at 7.5 kg"));
}

// --- when there is none ------------------------------------------------------------------

TEST(Wording, AClashIsToldAsFactsWhatFollowsAndTheContradiction) {
  NoRation no;
  no.conflict_is_minimal = true;
  Derivation told;
  told.steps.push_back({forage_floor(), {0}, KgAsFed{8.7}, Implied{68.8, {0}}});
  told.clash = need(Nutrient::energy, Side::upper, 65.8);
  told.best = Implied{68.8, {0}};
  told.tells_all = true;
  no.derivation = told;
  Offer hay;
  hay.name = "good hay";
  Horse horse;
  horse.name = "Clover";
  EXPECT_THAT(
      metric.clash(no, horse, {hay}),
      testing::ElementsAre(
          "- Forage dry matter is at least 1.5 % of bodyweight a day (for Clover 7.5 kg of dry "
          "matter).",
          "- Of what is on offer only good hay counts towards that: at least 8.7 kg of it must be "
          "eaten.",
          "- So energy cannot be less than 68.8 MJ, even on good hay alone.",
          "- But Clover should have at most 65.8 MJ of energy a day.",
          "Drop any one of these demands and the others can hold together."));
}

// What follows may be that there is none at all of what is asked for.
TEST(Wording, AForbiddenForageLeavesNone) {
  NoRation no;
  no.conflict_is_minimal = true;
  Derivation told;
  RowMeaning straw;
  straw.id = "straw_share/max";
  straw.family = RowFamily::forage;
  straw.side = Side::upper;
  straw.whole = {{0, 1.0}};
  straw.limit = hand_made::limit_of("straw_share/max", 0.0);
  straw.limit->because = "growing, 8 months old";
  told.steps.push_back({straw, {}, std::nullopt, Implied{0.0, {}}});
  told.clash = forage_floor();
  told.only = {0};
  told.best = Implied{0.0, {}};
  no.derivation = told;
  Offer offer;
  offer.name = "oat straw";
  Horse horse;
  horse.name = "Pip";
  EXPECT_THAT(metric.clash(no, horse, {offer}),
              testing::ElementsAre(
                  "- No straw is allowed (because Pip is growing, 8 months old).",
                  "- Of what is on offer only oat straw counts towards forage.",
                  "- So there can be no forage at all.",
                  "- But forage dry matter is at least 1.5 % of bodyweight a day (for Pip 7.5 kg "
                  "of dry matter)."));
}

TEST(Wording, AClashIsCalledMinimalOnlyWhenItIs) {
  NoRation no;
  Derivation told;
  told.clash = need(Nutrient::energy, Side::lower, 80.0);
  told.best = Implied{68.8, {}};
  no.derivation = told;
  const auto sentences = metric.clash(no, Horse{}, {});
  EXPECT_THAT(sentences, testing::Contains(HasSubstr("A smaller set may exist")));
  EXPECT_THAT(sentences, testing::Not(testing::Contains(HasSubstr("Drop any one"))));
}

TEST(Wording, TwoChangesAreToldAsTwo) {
  Mend energy;
  energy.kind = Mend::Kind::keeper;
  energy.row = need(Nutrient::energy, Side::upper, 65.8);
  energy.to = 70.0;
  energy.unit = "MJ";
  Mend forage;
  forage.kind = Mend::Kind::vet;
  forage.row = forage_floor();
  forage.to = 1.4;
  forage.unit = "% of bodyweight";
  Mend pair;
  pair.kind = Mend::Kind::together;
  pair.parts = {energy, forage};
  pair.cost = Money{2.5};
  EXPECT_EQ(metric.mend(pair),
            "No single change does it, two together do: energy up to 70.0 MJ a day instead of 65.8 "
            "MJ (and watch the condition), and forage at least 1.40 % of bodyweight instead of "
            "1.50 % of bodyweight (for the vet to say); then 2.50 GBP a day. Ask the vet or a "
            "registered nutritionist, and record the answer under `instructions`.");
}

// --- solved again in fractions -------------------------------------------------------------

TEST(Wording, TheExactCostIsTold) {
  ExactCheck check;
  check.status = Status::optimal;
  check.cost = 2.0;
  check.difference = 3e-10;
  check.same_basis = true;
  EXPECT_EQ(metric.exact(check, 2),
            "Solved again without rounding, in fractions within 1e-9 of the figures: before "
            "amounts are rounded to steps the least cost is 2.000000 GBP a day. The answer found "
            "differs by 3e-10; the same feeds and limits decide it. The rations of 2 other "
            "stretches of the season are confirmed too.");
  check.difference = 0.25;
  EXPECT_THAT(metric.exact(check), HasSubstr("too much"));
}

TEST(Wording, NothingIsConfirmedThatDidNotFinish) {
  EXPECT_THAT(metric.exact(ExactCheck{}), HasSubstr("nothing is confirmed"));
  EXPECT_THAT(metric.exact_clash(ExactCheck{}), HasSubstr("nothing is confirmed"));
}

TEST(Wording, AClashIsConfirmedOrNot) {
  ExactCheck check;
  check.status = Status::infeasible;
  EXPECT_THAT(metric.exact_clash(check), HasSubstr("the demands above cannot all hold"));
  check.status = Status::optimal;
  EXPECT_THAT(metric.exact_clash(check), HasSubstr("our failure"));
}

TEST(Wording, AMendThatNeedsAVetSaysSo) {
  Mend mend;
  mend.kind = Mend::Kind::vet;
  mend.row = forage_floor();
  mend.to = 1.4;
  mend.unit = "% of bodyweight";
  mend.cost = Money{3.5};
  EXPECT_EQ(metric.mend(mend),
            "Ask the vet or a registered nutritionist: forage at least 1.40 % of bodyweight "
            "instead of 1.50 % of bodyweight; then 3.50 GBP a day. Record the answer under "
            "`instructions`.");
}

TEST(Wording, AMendByAFeedSaysHowMuchOfIt) {
  Mend mend;
  mend.kind = Mend::Kind::add_feed;
  mend.additions = {{hand_made::feed_of("oat straw", FeedGroup::straw, 900.0, {}), KgAsFed{1.2}}};
  mend.cost = Money{3.5};
  EXPECT_EQ(metric.mend(mend),
            "Add 1.2 kg of oat straw a day, not on offer now: the rest then costs 3.50 GBP a day.");
}

TEST(Wording, AMendByMoreStockNamesTheFeedAndBothAmounts) {
  Mend mend;
  mend.kind = Mend::Kind::buy_more;
  RowMeaning row;
  row.id = "stock/our hay/max";
  row.family = RowFamily::stock;
  row.side = Side::upper;
  row.bound = 8.0;
  row.unit = "kg as fed";
  mend.row = row;
  mend.to = 9.5;
  mend.unit = "kg as fed";
  mend.cost = Money{3.5};
  EXPECT_EQ(metric.mend(mend),
            "Have more of our hay in the barn, 9.5 kg a day instead of 8.0 kg; then 3.50 GBP a "
            "day.");
}

TEST(Wording, AMissSaysWhatThereIsAndWhatIsNeeded) {
  EXPECT_EQ(metric.miss({need(Nutrient::calcium, Side::lower, 20.0), 13.34}),
            "Calcium: 13.3 g; at least 20.0 g is needed.");
  EXPECT_EQ(metric.miss({need(Nutrient::energy, Side::upper, 73.1), 80.0}),
            "The energy ceiling: 80.0 MJ; at most 73.1 MJ is allowed.");
}

// --- prices --------------------------------------------------------------------------------

TEST(Wording, AnEntryPriceIsGivenBesideThePriceNow) {
  const RationQuestion question = hand_made::question_of(
      500.0, {hand_made::offer_of(hand_made::feed_of("oats", FeedGroup::cereal, 880.0, {}), 0.58)},
      {});
  EXPECT_EQ(metric.entry({0, Money{0.58}, Money{0.53}}, question),
            "oats: 0.58 a kg now, enters at 0.53 a kg or less.");
  EXPECT_EQ(metric.entry({0, Money{0.58}, std::nullopt}, question),
            "oats: would not enter at any price.");
}

// --- refusals ------------------------------------------------------------------------------

TEST(Wording, EveryRefusalSendsToTheVet) {
  for (const HealthState state : all_health_states()) {
    Horse horse;
    horse.health = {state};
    if (!refuses_planning(state)) {
      EXPECT_THAT(refusal(horse), SizeIs(0)) << name_of(state);
      continue;
    }
    ASSERT_THAT(refusal(horse), SizeIs(1)) << name_of(state);
    EXPECT_THAT(refusal(horse).front(), HasSubstr("vet")) << name_of(state);
  }
}

TEST(Wording, TheCautionsAreThere) {
  const std::string all = listed(cautions()) + listed(when_to_ask());
  for (const char* word : {"Weigh", "10 to 14 days", "quarter", "Water and salt", "Soak", "mouldy",
                           "two weeks", "Least cost is not best diet", "vet", "nutritionist"}) {
    EXPECT_THAT(all, HasSubstr(word));
  }
}

}  // namespace
}  // namespace haymow::wording_test
