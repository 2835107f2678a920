#include "model/energy_equations.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace haymow::energy_equations_test {
namespace {

using ::testing::DoubleNear;

// Half of the last digit printed: Mcal to two decimals.
constexpr double printed_to = 0.005;

// The hay of the plausibility run: CP 8, fat 2, CF 32, NDF 65, ADF 40, ash 8 %.
Constituents hay() {
  Constituents c;
  c.crude_protein_g = 80.0;
  c.crude_fat_g = 20.0;
  c.crude_fibre_g = 320.0;
  c.ndf_g = 650.0;
  c.adf_g = 400.0;
  c.ash_g = 80.0;
  return c;
}

double mcal(const std::optional<Worked>& energy) { return energy.value().value / mj_per_mcal; }

TEST(EnergyEquations, FonnesbeckGivesTheKnownHay) {
  EXPECT_THAT(mcal(fonnesbeck_1981_forage(hay())), DoubleNear(1.88, printed_to));
}

TEST(EnergyEquations, PaganGivesTheKnownHay) {
  EXPECT_THAT(mcal(pagan_1998(hay())), DoubleNear(1.97, printed_to));
}

TEST(EnergyEquations, ZeynerAndKienzleGiveTheKnownHay) {
  EXPECT_THAT(mcal(zeyner_kienzle_2002(hay())), DoubleNear(2.12, printed_to));
}

TEST(EnergyEquations, FonnesbeckForConcentratesFallsWithFibre) {
  Constituents oats = hay();
  oats.adf_g = 160.0;
  EXPECT_THAT(mcal(fonnesbeck_1981_concentrate(oats)), DoubleNear(3.19, 1e-9));
}

TEST(EnergyEquations, AnUnknownConstituentGivesNoEnergy) {
  Constituents without_ash = hay();
  without_ash.ash_g.reset();
  EXPECT_FALSE(pagan_1998(without_ash));
  EXPECT_FALSE(zeyner_kienzle_2002(without_ash));
  EXPECT_TRUE(fonnesbeck_1981_forage(without_ash)) << "needs no ash";
  Constituents without_adf = hay();
  without_adf.adf_g.reset();
  EXPECT_FALSE(fonnesbeck_1981_forage(without_adf));
  EXPECT_FALSE(fonnesbeck_1981_concentrate(without_adf));
}

TEST(EnergyEquations, ConstituentsAreReadFromTheFeedAndUnknownStaysUnknown) {
  Feed feed;
  feed.composition[Nutrient::crude_protein] = Figure{123.0, FigureOrigin::label, ""};
  const Constituents read = constituents_of(feed);
  EXPECT_EQ(read.crude_protein_g, 123.0);
  EXPECT_FALSE(read.ash_g);
}

}  // namespace
}  // namespace haymow::energy_equations_test
