#include "model/energy_estimate.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "model/energy_equations.h"
#include "model/units.h"

namespace haymow::energy_estimate_test {
namespace {

using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

void give(Feed& feed, Nutrient n, double g, FigureOrigin origin = FigureOrigin::laboratory) {
  feed.composition[n] = Figure{g, origin, "", ""};
}

/// The hay of the plausibility run: CP 8, fat 2, CF 32, NDF 65, ADF 40, ash 8 %.
Feed known_hay() {
  Feed hay;
  hay.name = "our hay";
  hay.group = FeedGroup::hay;
  hay.dry_matter.value = 860.0;
  give(hay, Nutrient::crude_protein, 80.0);
  give(hay, Nutrient::crude_fat, 20.0);
  give(hay, Nutrient::crude_fibre, 320.0);
  give(hay, Nutrient::ndf, 650.0);
  give(hay, Nutrient::adf, 400.0);
  give(hay, Nutrient::ash, 80.0);
  return hay;
}

/// A mix with what a European bag declares, and no more.
Feed mix(double fibre_g, double fat_g, double dry_matter_g = 880.0) {
  Feed cube;
  cube.name = "cube";
  cube.group = FeedGroup::compound;
  cube.dry_matter.value = dry_matter_g;
  give(cube, Nutrient::crude_protein, 120.0);
  give(cube, Nutrient::crude_fat, fat_g);
  give(cube, Nutrient::crude_fibre, fibre_g);
  give(cube, Nutrient::ash, 90.0);
  return cube;
}

bool can(EnergyEquation equation, const Feed& feed) {
  return estimate_energy(equation, feed).energy.has_value();
}

TEST(EnergyEstimate, TheKnownHayIsWhatTheRunOfRequirementsHas) {
  // facts: 1.88, 1.97 and 2.12 Mcal/kg DM, a spread of 13 %.
  const Feed hay = known_hay();
  const auto mcal = [&](EnergyEquation e) {
    return estimate_energy(e, hay).energy.value().value / mj_per_mcal;
  };
  EXPECT_THAT(mcal(EnergyEquation::fonnesbeck_1981), DoubleNear(1.88, 0.005));
  EXPECT_THAT(mcal(EnergyEquation::pagan_1998), DoubleNear(1.97, 0.005));
  EXPECT_THAT(mcal(EnergyEquation::zeyner_kienzle_2002), DoubleNear(2.12, 0.005));
  EXPECT_THAT(mcal(EnergyEquation::zeyner_kienzle_2002) / mcal(EnergyEquation::fonnesbeck_1981),
              DoubleNear(1.13, 0.005));
}

TEST(EnergyEstimate, TheArithmeticIsWrittenWithItsNumbers) {
  const auto sum = estimate_energy(EnergyEquation::zeyner_kienzle_2002, known_hay()).energy;
  ASSERT_TRUE(sum);
  EXPECT_EQ(written(*sum, "MJ", 1),
            "NFE: 100 - 8 - 2 - 32 - 8 = 50 %; -3.6 + 0.211 x 8 + 0.421 x 2 + 0.015 x 32 + "
            "0.189 x 50 = 8.9 MJ");
}

TEST(EnergyEstimate, TheTableFromCrudeFibreIsTheOnePrinted) {
  // traininghorses-naturally.com: 4 % CF 1.55, 12 % CF 1.15 Mcal/lb as fed for fat
  // below 3 %, 0.10 more at about 8 %.
  constexpr double dm = 0.9;
  const auto printed = [&](double fibre_percent, double fat_percent) {
    const Feed feed = mix(fibre_percent * 10.0 / dm, fat_percent * 10.0 / dm, 1000.0 * dm);
    const auto estimate = estimate_energy(EnergyEquation::crude_fibre_table, feed);
    return estimate.energy.value().value * dm * kg_per_lb / mj_per_mcal;
  };
  EXPECT_THAT(printed(4.0001, 2.5), DoubleNear(1.55, 1e-4));
  EXPECT_THAT(printed(8.0, 2.5), DoubleNear(1.35, 1e-9));
  EXPECT_THAT(printed(11.9999, 2.5), DoubleNear(1.15, 1e-4));
  EXPECT_THAT(printed(8.0, 8.0), DoubleNear(1.45, 1e-9));
  EXPECT_FALSE(can(EnergyEquation::crude_fibre_table, mix(200.0, 30.0))) << "not printed so far";
}

TEST(EnergyEstimate, AnUnknownFigureIsNamedAndNeverTakenAsNothing) {
  Feed hay = known_hay();
  hay.composition[Nutrient::ash].reset();
  hay.composition[Nutrient::crude_fat].reset();
  const EnergyEstimate pagan = estimate_energy(EnergyEquation::pagan_1998, hay);
  EXPECT_FALSE(pagan.energy);
  EXPECT_THAT(pagan.lacking, ElementsAre(Nutrient::crude_fat, Nutrient::ash));
  EXPECT_TRUE(can(EnergyEquation::fonnesbeck_1981, hay)) << "needs neither";
}

TEST(EnergyEstimate, NotForFeedsThatTheSourcesLeaveOut) {
  Feed pulp = known_hay();
  pulp.group = FeedGroup::fibre;
  pulp.traits.insert(FeedTrait::beet);
  EXPECT_THAT(estimate_energy(EnergyEquation::pagan_1998, pulp).unfit, HasSubstr("beet pulp"));
  EXPECT_FALSE(can(EnergyEquation::fonnesbeck_1981, pulp));
  Feed hulls = known_hay();
  hulls.group = FeedGroup::fibre;
  hulls.name = "Soya Hulls, pelleted";
  EXPECT_FALSE(can(EnergyEquation::pagan_1998, hulls));
  hulls.name = "oat hulls";
  EXPECT_FALSE(can(EnergyEquation::pagan_1998, hulls));
  hulls.name = "chaff";
  hulls.based_on = "soya hulls";
  EXPECT_FALSE(can(EnergyEquation::pagan_1998, hulls)) << "whatever the keeper calls it";
  Feed oil = known_hay();
  oil.group = FeedGroup::oil;
  for (const EnergyEquation e : energy_equations()) EXPECT_FALSE(can(e, oil));
}

TEST(EnergyEstimate, NotBeyondTheFiguresTheEquationsWereMadeFor) {
  EXPECT_TRUE(can(EnergyEquation::zeyner_kienzle_2002, mix(349.0, 79.0)));
  EXPECT_FALSE(can(EnergyEquation::zeyner_kienzle_2002, mix(350.0, 79.0)));
  EXPECT_FALSE(can(EnergyEquation::zeyner_kienzle_2002, mix(349.0, 80.0)));
  Feed straw = known_hay();
  give(straw, Nutrient::adf, 500.0);
  EXPECT_THAT(estimate_energy(EnergyEquation::fonnesbeck_1981, straw).unfit, HasSubstr("49 %"));
  Feed rich = known_hay();
  give(rich, Nutrient::crude_fat, 60.0);
  EXPECT_THAT(estimate_energy(EnergyEquation::pagan_1998, rich).unfit, HasSubstr("5 %"));
}

TEST(EnergyEstimate, ProteinAndFibreMustBeTheFeedsOwn) {
  Feed hay = known_hay();
  hay.based_on = "meadow hay, average";
  give(hay, Nutrient::crude_fat, 18.0, FigureOrigin::memory);  // taken over: no matter
  EXPECT_TRUE(can(EnergyEquation::pagan_1998, hay));
  give(hay, Nutrient::adf, 355.0, FigureOrigin::printed);
  EXPECT_THAT(estimate_energy(EnergyEquation::pagan_1998, hay).lacking, ElementsAre(Nutrient::adf));
}

TEST(EnergyEstimate, FiguresLikeThoseOfTheTableDoNotSpeakAgainstItsEnergy) {
  const Feed base = known_hay();
  Feed own = base;
  own.name = "own hay";
  give(own, Nutrient::adf, 410.0);  // 0.23 MJ by Pagan
  EXPECT_FALSE(differs_in_energy(own, base));
  give(own, Nutrient::adf, 300.0);
  give(own, Nutrient::ndf, 550.0);  // two megajoules more
  EXPECT_TRUE(differs_in_energy(own, base));
  Feed unknown = base;
  for (const Nutrient n : all_nutrients()) unknown.composition[n].reset();
  EXPECT_TRUE(differs_in_energy(own, unknown)) << "nothing to compare with";
  EXPECT_FALSE(differs_in_energy(unknown, base)) << "nothing to estimate from";
}

TEST(EquationForAll, IsTheFirstThatCanBeUsedOnEveryFeed) {
  const Feed hay = known_hay();
  const Feed cube = mix(150.0, 40.0);
  const std::vector<EnergyWanted> hay_alone{{&hay, true}};
  EXPECT_EQ(equation_for_all(hay_alone), EnergyEquation::pagan_1998);
  const std::vector<EnergyWanted> both{{&hay, true}, {&cube, true}};
  EXPECT_EQ(equation_for_all(both), EnergyEquation::zeyner_kienzle_2002);
  EXPECT_EQ(equation_for_all({}), std::nullopt);
}

TEST(EquationForAll, IsNoneWhenNoneServesThoseThatMust) {
  Feed hay = known_hay();
  hay.composition[Nutrient::crude_fibre].reset();
  const Feed cube = mix(150.0, 40.0);
  const std::vector<EnergyWanted> both{{&hay, true}, {&cube, true}};
  EXPECT_EQ(equation_for_all(both), std::nullopt);
  // The hay has another energy to fall back on; the cube has not.
  const std::vector<EnergyWanted> may{{&hay, false}, {&cube, true}};
  EXPECT_EQ(equation_for_all(may), EnergyEquation::zeyner_kienzle_2002);
}

TEST(EnergyEquations, AreFoundByTheirNames) {
  for (const EnergyEquation e : energy_equations()) {
    EXPECT_EQ(energy_equation_named(traits_of(e).name), e);
  }
  EXPECT_EQ(energy_equation_named("pagan 1998"), EnergyEquation::pagan_1998);
  EXPECT_EQ(energy_equation_named("Pagan 1989"), std::nullopt);
  EXPECT_THAT(estimate_energy(EnergyEquation::pagan_1998, known_hay()).unfit, IsEmpty());
}

}  // namespace
}  // namespace haymow::energy_estimate_test
