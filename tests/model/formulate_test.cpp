#include "model/formulate.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/solve.h"

namespace haymow::formulate_test {
namespace {

Feed feed(const std::string& name, FeedGroup group, double dry_matter) {
  Feed f;
  f.name = name;
  f.group = group;
  f.dry_matter = {dry_matter, FigureOrigin::printed, "test"};
  return f;
}

Offer offer(const Feed& f, double price, double waste = 0.0) {
  Offer o;
  o.name = f.name;
  o.feed = f;
  o.price_per_kg = Money{price};
  o.waste = waste;
  return o;
}

void set(Feed& f, Nutrient n, double value) {
  f.composition[n] = Figure{value, FigureOrigin::printed, "test"};
}

// A horse that only needs energy: 100 to 105 MJ.
RationQuestion energy_only(std::vector<Offer> offers) {
  RationQuestion q;
  q.horse.bodyweight = Bodyweight{500.0};
  q.offers = std::move(offers);
  Requirement energy;
  energy.nutrient = Nutrient::energy;
  energy.floor = 100.0;
  energy.ceiling = 105.0;
  q.needs.rows = {energy};
  return q;
}

const RowMeaning& row(const Formulation& f, const std::string& id) {
  for (const RowMeaning& r : f.rows) {
    if (r.id == id) return r;
  }
  throw std::out_of_range(id);
}

bool has_row(const Formulation& f, const std::string& id) {
  return std::any_of(f.rows.begin(), f.rows.end(), [&](const RowMeaning& r) { return r.id == id; });
}

Limit limit(const std::string& id, double number) {
  const Rule* rule = find_rule(id);
  return {id, rule->strength, number, std::string(rule->unit), "", "", "", true};
}

TEST(Formulate, EveryRowOfTheProgramHasItsMeaningInTheSamePlace) {
  Feed hay = feed("hay", FeedGroup::hay, 860);
  set(hay, Nutrient::energy, 9.0);
  RationQuestion q = energy_only({offer(hay, 0.2)});
  q.limits = {limit("forage/min", 1.5), limit("forage_share/min", 50.0)};
  const Formulation f = formulate(q);
  ASSERT_EQ(f.rows.size(), f.program.rows().size());
  for (std::size_t i = 0; i < f.rows.size(); ++i) {
    EXPECT_EQ(f.rows[i].id, f.program.rows()[i].name);
  }
}

// minimise 0.2 / 0.92 hay; 9 MJ x 0.86 x hay >= 100
TEST(Formulate, CostIsWhatAKilogramEatenCosts) {
  Feed hay = feed("hay", FeedGroup::hay, 860);
  set(hay, Nutrient::energy, 9.0);
  const Formulation f = formulate(energy_only({offer(hay, 0.2, 0.08)}));
  const Solution s = solve(f.program);
  ASSERT_EQ(s.status, Status::optimal);
  EXPECT_NEAR(s.columns[0], 100.0 / (9.0 * 0.86), 1e-9);
  EXPECT_NEAR(s.cost, 100.0 / (9.0 * 0.86) * 0.2 / 0.92, 1e-9);
}

TEST(Formulate, AnUnknownFigureCountsAsNothingForAFloor) {
  Feed hay = feed("hay", FeedGroup::hay, 860);
  set(hay, Nutrient::energy, 9.0);
  RationQuestion q = energy_only({offer(hay, 0.2)});
  Requirement copper;
  copper.nutrient = Nutrient::copper;
  copper.floor = 100.0;
  q.needs.rows.push_back(copper);
  EXPECT_EQ(solve(formulate(q).program).status, Status::infeasible);
}

TEST(Formulate, AnUnknownFigureCountsAsTheHighestOfItsGroupUnderACeiling) {
  Feed known = feed("known cubes", FeedGroup::compound, 880);
  set(known, Nutrient::starch, 300.0);
  Feed unknown = feed("unknown cubes", FeedGroup::compound, 880);
  set(unknown, Nutrient::energy, 12.0);
  RationQuestion q = energy_only({offer(unknown, 0.5)});
  q.highest = highest_known({known, unknown});
  q.limits = {limit("starch_day/max", 2.0)};  // 1000 g
  const Formulation f = formulate(q);
  EXPECT_NEAR(*row(f, "starch_day/max").value({1.0}), 300.0 * 0.88, 1e-9);
  ASSERT_THAT(f.assumed, testing::SizeIs(1));
  EXPECT_EQ(f.assumed[0].nutrient, Nutrient::starch);
  EXPECT_EQ(f.assumed[0].value, 300.0);
}

TEST(Formulate, WhatNoFeedOfAGroupHasIsLeftOutAndSaid) {
  Feed hay = feed("hay", FeedGroup::hay, 860);
  set(hay, Nutrient::energy, 9.0);
  RationQuestion q = energy_only({offer(hay, 0.2)});
  q.highest = highest_known({hay});
  q.limits = {limit("selenium/max", 0.57)};
  const Formulation f = formulate(q);
  ASSERT_THAT(f.assumed, testing::SizeIs(1));
  EXPECT_EQ(f.assumed[0].nutrient, Nutrient::selenium);
  EXPECT_EQ(f.assumed[0].value, std::nullopt);
}

TEST(Formulate, AShareIsMultipliedOut) {
  Feed hay = feed("hay", FeedGroup::hay, 800);
  Feed straw = feed("straw", FeedGroup::straw, 900);
  RationQuestion q = energy_only({offer(hay, 0.2), offer(straw, 0.1)});
  q.needs.rows.clear();
  q.limits = {limit("straw_share/max", 30.0)};
  const Formulation f = formulate(q);
  // 2 kg hay (1.6 dry) and 1 kg straw (0.9 dry): 36 % straw.
  const RowMeaning& r = row(f, "straw_share/max");
  EXPECT_NEAR(*r.value({2.0, 1.0}), 100.0 * 0.9 / 2.5, 1e-9);
  EXPECT_FALSE(r.kept({2.0, 1.0}));
  EXPECT_TRUE(r.kept({3.0, 1.0}));
  // straw - 0.3 (hay + straw) <= 0 in dry matter
  const Row& algebra = f.program.rows()[0];
  EXPECT_THAT(algebra.terms, testing::SizeIs(2));
  EXPECT_NEAR(algebra.terms[0].coefficient, -0.3 * 0.8, 1e-12);
  EXPECT_NEAR(algebra.terms[1].coefficient, 0.7 * 0.9, 1e-12);
  EXPECT_EQ(algebra.upper, 0.0);
}

TEST(Formulate, HaylageCountsByItsDryMatter) {
  // Published: 13 kg of haylage at 70 % is what 10 kg of hay at 90 % is, about 9 kg dry
  // (Horse & Hound column on feeding forage, facts 1.19).
  const Feed haylage = feed("haylage", FeedGroup::haylage, 700);
  const Feed hay = feed("hay", FeedGroup::hay, 900);
  EXPECT_NEAR(haylage.dry(KgAsFed{13.0}).in_kg(), 9.1, 1e-9);
  EXPECT_NEAR(hay.dry(KgAsFed{10.0}).in_kg(), 9.0, 1e-9);
}

TEST(Formulate, WrappedForageUnder35PerCentIsNotFed) {
  Feed wet = feed("silage", FeedGroup::haylage, 340);
  set(wet, Nutrient::energy, 11.0);
  RationQuestion q = energy_only({offer(wet, 0.05)});
  q.limits = {limit("wet_forage/max", 0.0)};
  EXPECT_EQ(solve(formulate(q).program).status, Status::infeasible);
}

TEST(Formulate, ASupplementIsNeverFedAboveItsMakersAmount) {
  Feed powder = feed("powder", FeedGroup::supplement, 950);
  set(powder, Nutrient::energy, 10.0);
  powder.daily_most = DailyMost{KgAsFed{0.1}, Bodyweight{500.0}};
  RationQuestion q = energy_only({offer(powder, 0.01)});
  q.horse.bodyweight = Bodyweight{250.0};
  const Formulation f = formulate(q);
  const RowMeaning& r = row(f, "maker/powder/max");
  EXPECT_NEAR(r.bound, 0.05, 1e-12);
}

TEST(Formulate, StockIsWhatIsPutOutNotWhatIsEaten) {
  Feed hay = feed("hay", FeedGroup::hay, 860);
  RationQuestion q = energy_only({offer(hay, 0.2, 0.2)});
  q.stock_a_day = {KgAsFed{10.0}};
  const Formulation f = formulate(q);
  EXPECT_NEAR(*row(f, "stock/hay/max").value({8.0}), 10.0, 1e-12);
}

TEST(Formulate, WishesBecomeRows) {
  Feed hay = feed("hay", FeedGroup::hay, 860);
  Feed chaff = feed("alfalfa chaff", FeedGroup::dried_forage, 900);
  RationQuestion q = energy_only({offer(hay, 0.2), offer(chaff, 0.9)});
  q.horse.wishes = {{WishKind::none, "alfalfa", {}, {}},
                    {WishKind::exactly, "hay", KgAsFed{9.0}, {}}};
  const Formulation f = formulate(q);
  EXPECT_EQ(row(f, "wish/none alfalfa/max").bound, 0.0);
  EXPECT_EQ(row(f, "wish/exactly hay/min").bound, 9.0);
  EXPECT_EQ(row(f, "wish/exactly hay/max").bound, 9.0);
  EXPECT_FALSE(row(f, "wish/none alfalfa/max").kept({0.0, 0.1}));
}

TEST(Formulate, OilAsksForVitaminE) {
  Feed oil = feed("oil", FeedGroup::oil, 1000);
  set(oil, Nutrient::vitamin_e, 0.0);
  RationQuestion q = energy_only({offer(oil, 2.0)});
  Requirement e;
  e.nutrient = Nutrient::vitamin_e;
  e.floor = 500.0;
  q.needs.rows = {e};
  q.limits = {limit("oil_vitamin_e/min", 100.0)};
  // 92 g of oil is 100 ml: it asks for 100 IU more.
  EXPECT_NEAR(*row(formulate(q), "vitamin_e/min").value({0.092}), -100.0, 1e-9);
}

TEST(Formulate, ReportedFloorsAreNotInTheProgram) {
  Feed hay = feed("hay", FeedGroup::hay, 860);
  RationQuestion q = energy_only({offer(hay, 0.2)});
  Requirement cobalt;
  cobalt.nutrient = Nutrient::cobalt;
  cobalt.floor = 0.5;
  cobalt.forced = false;
  q.needs.rows = {cobalt};
  const Formulation f = formulate(q);
  EXPECT_FALSE(has_row(f, "cobalt/min"));
  ASSERT_THAT(f.judged, testing::SizeIs(1));
  EXPECT_EQ(f.judged[0].id, "cobalt/min");
}

// One feed of every group with every trait and figure, so that no row is empty.
std::vector<Offer> one_of_each() {
  std::vector<Offer> offers;
  for (const FeedGroup group : all_feed_groups()) {
    Feed f = feed(std::string(name_of(group)), group, 300);
    for (const FeedTrait trait : all_feed_traits()) f.traits.insert(trait);
    for (const Nutrient n : all_nutrients()) set(f, n, 1.0);
    offers.push_back(offer(f, 1.0));
  }
  return offers;
}

TEST(Formulate, EveryRuleOfTheTableIsAsked) {
  RationQuestion q = energy_only(one_of_each());
  Requirement e;
  e.nutrient = Nutrient::vitamin_e;
  e.floor = 500.0;
  q.needs.rows.push_back(e);
  for (const Rule& rule : rule_table()) {
    q.limits = {limit(std::string(rule.id), 7.0)};
    const Formulation f = formulate(q);
    if (rule.id == "oil_vitamin_e/min") {
      // Not a row of its own: it moves the floor of vitamin E.
      std::vector<double> oil(q.offers.size(), 0.0);
      for (std::size_t i = 0; i < oil.size(); ++i) {
        oil[i] = q.offers[i].feed.group == FeedGroup::oil ? 1.0 : 0.0;
      }
      EXPECT_LT(*row(f, "vitamin_e/min").value(oil), 0.0);
      continue;
    }
    EXPECT_TRUE(has_row(f, std::string(rule.id))) << rule.id;
  }
}

TEST(Formulate, AHorseThatCannotChewCountsSoakedFibreAsForage) {
  Feed beet = feed("beet", FeedGroup::fibre, 890);
  Horse horse;
  EXPECT_FALSE(counts_as_forage(beet, horse));
  horse.health.insert(HealthState::cannot_chew);
  EXPECT_TRUE(counts_as_forage(beet, horse));
}

}  // namespace
}  // namespace haymow::formulate_test
