// From what a certificate or a bag prints to what the program needs: the same feed
// from every way of writing it, and what is worked out where nothing is printed.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <vector>

#include "feeds/feed_table.h"
#include "model/energy_estimate.h"
#include "scenarios/scenario.h"
#include "tests/scenarios/message_page.h"

namespace haymow::own_feeds_test {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::StartsWith;

Scenario with_offers(const std::string& offers, const std::string& before = "") {
  return read_scenario("money: GBP\n" + before +
                           "horses: [{name: Juniper, bodyweight: 500 kg, work: none}]\n"
                           "forage:\n  - {feed: oat straw, price: 0 per kg}\n" +
                           offers,
                       "f.yaml");
}

Feed feed_of(const std::string& entry) {
  return with_offers("  - {price: 1 per kg, " + entry + "}\n").stable.offers.back().feed;
}

std::vector<std::string> remarks_of(const Scenario& scenario) {
  std::vector<std::string> messages;
  for (const Diagnostic& remark : scenario.remarks) {
    EXPECT_TRUE(message_page::explains(remark.message)) << remark.message;
    messages.push_back(remark.message);
  }
  return messages;
}

double value(const Feed& feed, Nutrient n) {
  const auto& figure = feed.composition[n];
  EXPECT_TRUE(figure) << traits_of(n).name;
  return figure ? figure->value : -1.0;
}

// ---- Units and bases --------------------------------------------------------

/// A certificate's figures of dry matter, and ways to write the same.
struct Hay {
  double dry_matter_percent;
  double energy_mj;
  double protein_g;
  double fibre_g;
  double calcium_g;
  double copper_mg;
};

std::string written_as(const Hay& hay, bool as_fed, bool percent, std::string_view energy_unit) {
  const double share = as_fed ? hay.dry_matter_percent / 100.0 : 1.0;
  const std::string_view basis = as_fed ? "as fed" : "DM";
  const auto mass = [&](double g) {
    return percent ? fmt::format("{:.12f} % {}", g * share / 10.0, basis)
                   : fmt::format("{:.12f} g/kg {}", g * share, basis);
  };
  double energy = hay.energy_mj * share;
  if (energy_unit == "Mcal/kg") energy /= 4.184;
  if (energy_unit == "kcal/kg") energy /= 0.004184;
  if (energy_unit == "Mcal/lb") energy *= 0.45359237 / 4.184;
  return fmt::format(
      "name: our hay, group: hay, analysis: {{dry matter: {:.12f} %, energy: {:.12f} {} {}, "
      "crude protein: {}, NDF: {}, calcium: {}, copper: {:.12f} {} {}}}",
      hay.dry_matter_percent, energy, energy_unit, basis, mass(hay.protein_g), mass(hay.fibre_g),
      mass(hay.calcium_g), hay.copper_mg * share, percent ? "ppm" : "mg/kg", basis);
}

RC_GTEST_PROP(OwnFeeds, AreTheSameInEveryUnitAndBasis, ()) {
  const auto within = [](int from, int to) {
    return static_cast<double>(*rc::gen::inRange(from * 10, to * 10)) / 10.0;
  };
  const Hay hay{within(30, 95),   within(5, 13), within(30, 250),
                within(300, 700), within(1, 20), within(2, 30)};
  const bool as_fed = *rc::gen::arbitrary<bool>();
  const bool percent = *rc::gen::arbitrary<bool>();
  const std::string unit =
      *rc::gen::elementOf(std::vector<std::string>{"MJ/kg", "Mcal/kg", "kcal/kg", "Mcal/lb"});
  const Feed feed = feed_of(written_as(hay, as_fed, percent, unit));
  const auto near = [](double a, double b) { return std::abs(a - b) <= 1e-8 * b; };
  RC_ASSERT(near(feed.dry_matter.value, hay.dry_matter_percent * 10.0));
  RC_ASSERT(near(value(feed, Nutrient::energy), hay.energy_mj));
  RC_ASSERT(near(value(feed, Nutrient::crude_protein), hay.protein_g));
  RC_ASSERT(near(value(feed, Nutrient::ndf), hay.fibre_g));
  RC_ASSERT(near(value(feed, Nutrient::calcium), hay.calcium_g));
  RC_ASSERT(near(value(feed, Nutrient::copper), hay.copper_mg));
}

TEST(OwnFeeds, ConvertAsThePublishedExamplesDo) {
  const Feed hay = feed_of("name: h, group: hay, analysis: {dry matter: 90 %, energy: 8 MJ/kg DM}");
  const Feed haylage =
      feed_of("name: h, group: haylage, analysis: {moisture: 30 %, energy: 8 MJ/kg DM}");
  // A magazine column: 500 kg at 1.5 % is 7.5 kg of dry matter, as hay of 90 % exactly
  // 8.33 kg ("8.5"), as haylage of 70 % exactly 10.7 ("11").
  EXPECT_THAT(hay.as_fed(KgDryMatter{7.5}).in_kg(), DoubleNear(8.33, 0.005));
  EXPECT_THAT(haylage.as_fed(KgDryMatter{7.5}).in_kg(), DoubleNear(10.7, 0.05));
  // The same: 13 kg of haylage stand for 10 kg of hay, 9.1 and 9.0 kg dry.
  EXPECT_THAT(haylage.dry(KgAsFed{13.0}).in_kg(), DoubleNear(9.1, 1e-9));
  EXPECT_THAT(hay.dry(KgAsFed{10.0}).in_kg(), DoubleNear(9.0, 1e-9));
}

// ---- Energy in other systems ------------------------------------------------

TEST(OwnFeeds, MetabolisableEnergyIsDividedBy087) {
  const Scenario scenario = with_offers(
      "  - {name: h, group: hay, price: 1 per kg,\n"
      "     analysis: {dry matter: 86 %, ME: 7.308 MJ/kg DM, crude protein: 80 g/kg DM}}\n");
  const Figure energy = scenario.stable.offers.back().feed.composition[Nutrient::energy].value();
  EXPECT_THAT(energy.value, DoubleNear(8.4, 1e-9));
  EXPECT_EQ(energy.origin, FigureOrigin::calculated);
  EXPECT_NE(find_source(energy.source), nullptr);
  EXPECT_EQ(energy.how, "metabolisable energy of 7.308 MJ / 0.87");
  EXPECT_THAT(remarks_of(scenario),
              ElementsAre(AllOf(HasSubstr("divided by 0.87"), HasSubstr("8.4 MJ"))));
}

TEST(OwnFeeds, MetabolisableEnergyOfALabelIsAsFed) {
  // One grain feed: 11 MJ metabolisable and 12.5 digestible; 0.87 gives 12.6.
  const Feed feed = feed_of("name: c, group: compound, label: {dry matter: 88 %, ME: 11 MJ/kg}");
  EXPECT_THAT(feed.per_kg_as_fed(Nutrient::energy).value(), DoubleNear(12.5, 0.2));
}

TEST(OwnFeeds, DigestibleNutrientsAreTakenAt0044Mcal) {
  const Scenario scenario = with_offers(
      "  - {name: h, group: hay, price: 1 per kg, analysis: {dry matter: 86 %, TDN: 50 % DM}}\n");
  // equinews.com: 50 % of TDN is 2.2 Mcal.
  EXPECT_THAT(value(scenario.stable.offers.back().feed, Nutrient::energy),
              DoubleNear(2.2 * 4.184, 1e-9));
  EXPECT_THAT(remarks_of(scenario), ElementsAre(HasSubstr("TDN")));
}

// ---- Energy that nobody states ----------------------------------------------

constexpr std::string_view bag =
    "  - {name: cube, group: compound, price: 1 per kg,\n"
    "     label: {dry matter: 88 %, crude protein: 10 %, crude oils: 4 %, crude fibre: 15 %,\n"
    "             crude ash: 8 %}}\n";

TEST(OwnFeeds, ABagWithoutEnergyIsEstimatedWithItsErrorAndTheOtherEquations) {
  const Scenario scenario = with_offers(std::string(bag));
  const Figure energy = scenario.stable.offers.back().feed.composition[Nutrient::energy].value();
  // By hand from the bag, per cent of dry matter: CP 11.364, fat 4.545, CF 17.045, ash
  // 9.091, so NFE 57.955: -3.6 + 2.398 + 1.914 + 0.256 + 10.953 = 11.92.
  EXPECT_THAT(energy.value, DoubleNear(11.92, 0.005));
  EXPECT_EQ(energy.source, "zeyner-kienzle-2002");
  EXPECT_THAT(energy.how, StartsWith("Zeyner and Kienzle 2002: NFE: "));
  EXPECT_THAT(remarks_of(scenario), ElementsAre(AllOf(HasSubstr("`cube`"), HasSubstr("11.9 MJ"),
                                                      HasSubstr("Zeyner and Kienzle 2002"),
                                                      HasSubstr("give or take 1"))));
}

TEST(OwnFeeds, OneEquationServesAllThatNeedOne) {
  const Scenario scenario = with_offers(
      "  - {name: our hay, group: hay, price: 1 per kg,\n"
      "     analysis: {dry matter: 86 %, crude protein: 8 % DM, oil: 2 % DM, fibre: 32 % DM,\n"
      "                NDF: 65 % DM, ADF: 40 % DM, ash: 8 % DM}}\n" +
      std::string(bag));
  for (const std::string_view name : {"our hay", "cube"}) {
    for (const Offer& offer : scenario.stable.offers) {
      if (offer.name != name) continue;
      EXPECT_EQ(offer.feed.composition[Nutrient::energy]->source, "zeyner-kienzle-2002") << name;
    }
  }
  // Alone the hay would have Pagan's; then the spread is that of the known hay.
  EXPECT_THAT(remarks_of(scenario), Contains(HasSubstr("`our hay` is estimated: 8.9 MJ a kg of dry "
                                                       "matter by Zeyner and Kienzle 2002, give or "
                                                       "take 1, by others 7.9 to 8.3")));
}

TEST(OwnFeeds, TheKeeperMayAskForAnEquation) {
  const std::string hay =
      "  - {name: our hay, group: hay, price: 1 per kg,\n"
      "     analysis: {dry matter: 86 %, crude protein: 8 % DM, oil: 2 % DM, fibre: 32 % DM,\n"
      "                NDF: 65 % DM, ADF: 40 % DM, ash: 8 % DM}}\n";
  const auto mcal = [&](const std::string& asked) {
    return value(with_offers(hay, asked).stable.offers.back().feed, Nutrient::energy) / 4.184;
  };
  EXPECT_THAT(mcal(""), DoubleNear(1.97, 0.005));
  EXPECT_THAT(mcal("energy equation: Fonnesbeck 1981\n"), DoubleNear(1.88, 0.005));
  EXPECT_THAT(mcal("energy equation: zeyner and kienzle 2002\n"), DoubleNear(2.12, 0.005));
}

TEST(OwnFeeds, AnAnalysisOfProteinAndFibreOutweighsTheEnergyOfTheTable) {
  const Scenario scenario = with_offers(
      "  - {feed: 'meadow hay, average', name: our hay, price: 1 per kg,\n"
      "     analysis: {dry matter: 86 %, crude protein: 8 % DM, NDF: 65 % DM, ADF: 40 % DM}}\n");
  const Feed& hay = scenario.stable.offers.back().feed;
  EXPECT_EQ(hay.composition[Nutrient::energy]->source, "pagan-1998");
  EXPECT_FALSE(hay.is_taken_over(*hay.composition[Nutrient::energy]));
  EXPECT_TRUE(hay.is_taken_over(*hay.composition[Nutrient::crude_fat]));
  EXPECT_THAT(remarks_of(scenario), ElementsAre(HasSubstr("instead of the 8.4 of meadow hay")));
}

TEST(OwnFeeds, ALabelLikeTheTableLeavesTheEnergyThatWasPublished) {
  // The pulp of the table has 11.7 MJ, by its book; equations give a megajoule less.
  const Scenario scenario = with_offers(
      "  - {feed: 'sugar beet pulp, unmolassed', name: beet, price: 1 per kg,\n"
      "     label: {dry matter: 89 %, CP: 9 %, fibre: 18 %, oil: 0.6 %, ash: 7 %}}\n");
  const Feed& beet = scenario.stable.offers.back().feed;
  EXPECT_TRUE(beet.is_taken_over(*beet.composition[Nutrient::energy]));
  EXPECT_THAT(remarks_of(scenario), IsEmpty());
}

TEST(OwnFeeds, AFewFiguresLeaveTheEnergyOfTheTable) {
  const Scenario scenario = with_offers(
      "  - {feed: 'meadow hay, average', name: our hay, price: 1 per kg,\n"
      "     analysis: {dry matter: 86 %, crude protein: 8 % DM}}\n");
  const Feed& hay = scenario.stable.offers.back().feed;
  EXPECT_EQ(value(hay, Nutrient::energy), 8.4);
  EXPECT_TRUE(hay.is_taken_over(*hay.composition[Nutrient::energy]));
  EXPECT_THAT(remarks_of(scenario), IsEmpty());
}

TEST(OwnFeeds, KeepTheTablesEnergyAloudWhereTheEquationOfOthersDoesNotServe) {
  const Scenario scenario = with_offers(
      "  - {feed: 'meadow hay, average', name: our hay, price: 1 per kg,\n"
      "     analysis: {dry matter: 86 %, crude protein: 8 % DM, NDF: 65 % DM, ADF: 40 % DM}}\n" +
      std::string(bag));
  EXPECT_THAT(remarks_of(scenario),
              Contains(AllOf(HasSubstr("`our hay` stays that of meadow hay, average, 8.4 MJ"),
                             HasSubstr("needs crude fibre"))));
}

TEST(OwnFeeds, BeetPulpIsEstimatedOnlyByAnEquationThatIsNotWrongForIt) {
  const std::string pulp =
      "name: winter pulp, group: fibre, traits: [beet], analysis: {dry matter: 89 %, crude "
      "protein: 94 g/kg DM, oil: 8 g/kg DM, fibre: 198 g/kg DM, NDF: 420 g/kg DM, ADF: 220 g/kg "
      "DM, ash: 72 g/kg DM}";
  const Feed feed = feed_of(pulp);
  EXPECT_EQ(feed.composition[Nutrient::energy]->source, "zeyner-kienzle-2002");
  // Book values of beet pulp for horses: 10.7 (NRC 1989) and 11.7 (NRC 2007).
  EXPECT_THAT(value(feed, Nutrient::energy), DoubleNear(11.2, estimated_energy_error_mj));
}

// ---- The rest -----------------------------------------------------------------

TEST(OwnFeeds, LysineFollowsTheProteinAndNothingElseIsInvented) {
  const Feed hay = feed_of(
      "name: h, group: hay, analysis: {dry matter: 86 %, energy: 8 MJ/kg DM, CP: 90 g/kg DM}");
  EXPECT_THAT(value(hay, Nutrient::lysine), DoubleNear(0.035 * 90.0, 1e-9));
  EXPECT_EQ(hay.composition[Nutrient::lysine]->origin, FigureOrigin::estimated);
  for (const Nutrient n : all_nutrients()) {
    const bool known =
        n == Nutrient::energy || n == Nutrient::crude_protein || n == Nutrient::lysine;
    EXPECT_EQ(hay.composition[n].has_value(), known) << traits_of(n).name;
  }
  const Feed cube = feed_of("name: c, group: compound, label: {energy: 10 MJ/kg, CP: 10 %}");
  EXPECT_FALSE(cube.composition[Nutrient::lysine]) << "no share was published for mixes";
}

TEST(OwnFeeds, LysineThatIsDeclaredStays) {
  const Feed cube = feed_of(
      "name: c, group: cereal, label: {dry matter: 88 %, energy: 10 MJ/kg, CP: 10 %, lysine: 0.5 "
      "%}");
  EXPECT_THAT(value(cube, Nutrient::lysine), DoubleNear(5.0 / 0.88, 1e-9));
  EXPECT_EQ(cube.composition[Nutrient::lysine]->origin, FigureOrigin::label);
}

TEST(OwnFeeds, RememberWhichFeedTheyAreBasedOn) {
  const Feed hay = feed_of(
      "feed: 'meadow hay, average', name: our hay, analysis: {dry matter: 86 %, calcium: 4 g/kg "
      "DM}");
  EXPECT_EQ(hay.based_on, "meadow hay, average");
  EXPECT_FALSE(hay.is_taken_over(*hay.composition[Nutrient::calcium]));
  EXPECT_TRUE(hay.is_taken_over(*hay.composition[Nutrient::phosphorus]));
  EXPECT_FALSE(hay.is_taken_over(hay.dry_matter));
  EXPECT_EQ(feed_of("feed: 'meadow hay, average', name: their hay").based_on, "");
}

}  // namespace
}  // namespace haymow::own_feeds_test
