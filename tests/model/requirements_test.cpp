// What a need says, how it is adjusted to the individual, and what is refused.
#include "model/requirements.h"

#include <limits>
#include <stdexcept>

#include <gmock/gmock.h>

#include "tests/model/classes.h"

namespace haymow::requirements_test {
namespace {

using printed::floor_of;
using printed::horse_of;
using printed::weight_on_curve;
using ::testing::EndsWith;
using ::testing::HasSubstr;

Requirement energy_of(const Horse& horse) { return *nrc_2007(horse).find(Nutrient::energy); }

TEST(Requirements, EquationShowsEveryStepAndUnit) {
  const Requirement energy = energy_of(horse_of(540.0, Working{WorkLevel::moderate}));
  EXPECT_EQ(energy.equation, "0.0333 Mcal/kg x 540 kg x 1.4 x 4.184 MJ/Mcal = 105.3 MJ");
  EXPECT_EQ(energy.source, "nrc-2007");
  EXPECT_EQ(energy.confidence, Confidence::memory);
}

TEST(Requirements, DriverIsWorkedOutBeforeItIsUsed) {
  EXPECT_EQ(
      nrc_2007(horse_of(540.0, Working{WorkLevel::moderate})).find(Nutrient::potassium)->equation,
      "sweat a day: 0.005 kg/kg x 540 kg = 2.7 kg; "
      "0.05 g/kg x 540 kg + 2.8 g/kg x 2.7 kg = 34.6 g");
}

TEST(Requirements, RowsComeInTheOrderOfTheNutrients) {
  const Requirements needs = nrc_2007(horse_of(500.0, Idle{}));
  ASSERT_EQ(needs.rows.size(), required_nutrients().size());
  for (std::size_t i = 0; i < needs.rows.size(); ++i) {
    EXPECT_EQ(needs.rows[i].nutrient, required_nutrients()[i]);
  }
  EXPECT_EQ(needs.find(Nutrient::starch), nullptr);
}

TEST(Requirements, StandardIntakeIsShownWithItsWorking) {
  const Requirements needs = nrc_2007(horse_of(500.0, Lactating{1}));
  EXPECT_DOUBLE_EQ(needs.standard_intake.in_kg(), 12.5);
  EXPECT_THAT(needs.standard_intake_equation, EndsWith("0.025 kg/kg x 500 kg = 12.5 kg"));
}

TEST(Requirements, OnlyNutrientsWithFiguresInFeedsAreForced) {
  std::vector<Nutrient> reported_only;
  for (const Requirement& row : nrc_2007(horse_of(500.0, Idle{})).rows) {
    if (!row.forced) reported_only.push_back(row.nutrient);
  }
  EXPECT_THAT(reported_only,
              ::testing::ElementsAre(Nutrient::sulphur, Nutrient::cobalt, Nutrient::vitamin_d,
                                     Nutrient::thiamin, Nutrient::riboflavin));
}

TEST(Requirements, OnlyEnergyHasACeilingAtFivePerCentOver) {
  for (const Requirement& row : nrc_2007(horse_of(500.0, Idle{})).rows) {
    EXPECT_EQ(row.ceiling.has_value(), row.nutrient == Nutrient::energy);
    EXPECT_EQ(row.ceiling_equation.empty(), row.nutrient != Nutrient::energy);
  }
  const Requirement energy = energy_of(horse_of(500.0, Idle{}));
  EXPECT_DOUBLE_EQ(energy.ceiling.value(), 1.05 * energy.floor.value());
  EXPECT_THAT(energy.ceiling_equation, HasSubstr("common practice, no source"));
}

TEST(Requirements, ConfidenceFallsWhereNothingPrintedWasFound) {
  const auto mark = [](const LifeStage& stage, Nutrient nutrient) {
    return nrc_2007(horse_of(300.0, stage)).find(nutrient)->confidence;
  };
  EXPECT_EQ(mark(Idle{}, Nutrient::calcium), Confidence::printed);
  EXPECT_EQ(mark(Working{WorkLevel::moderate}, Nutrient::calcium), Confidence::memory);
  EXPECT_EQ(mark(Lactating{1}, Nutrient::crude_protein), Confidence::printed);
  EXPECT_EQ(mark(Lactating{2}, Nutrient::crude_protein), Confidence::back_fitted);
  EXPECT_EQ(mark(Lactating{2}, Nutrient::vitamin_a), Confidence::memory);
  EXPECT_EQ(mark(Lactating{5}, Nutrient::copper), Confidence::printed);
  EXPECT_EQ(mark(Lactating{5}, Nutrient::magnesium), Confidence::low);
  EXPECT_EQ(mark(Pregnant{9}, Nutrient::energy), Confidence::back_fitted);
  EXPECT_EQ(mark(Growing{6.0, {}}, Nutrient::crude_protein), Confidence::memory);
  EXPECT_EQ(mark(Growing{9.0, {}}, Nutrient::lysine), Confidence::low);
}

TEST(Requirements, EnergyOfAHeavyMareInMilkIsMarkedUnverified) {
  EXPECT_EQ(energy_of(horse_of(500.0, Lactating{1})).confidence, Confidence::back_fitted);
  EXPECT_EQ(energy_of(horse_of(900.0, Lactating{1})).confidence, Confidence::low);
}

TEST(Requirements, MatureWeightIsFoundFromWeightAndAge) {
  const Horse derived = horse_of(weight_on_curve(560.0, 14.0), Growing{14.0, {}});
  Horse given = derived;
  given.mature_weight = Bodyweight{560.0};
  for (const Nutrient nutrient : required_nutrients()) {
    EXPECT_NEAR(floor_of(derived, nutrient), floor_of(given, nutrient), 1e-9)
        << traits_of(nutrient).key;
  }
  EXPECT_THAT(energy_of(derived).equation, HasSubstr("mature weight, not given"));
  EXPECT_THAT(energy_of(given).equation, ::testing::Not(HasSubstr("mature weight, not given")));
}

// Weight is 300 kg; chloride at rest goes by completed months of age (0.093 g/kg to
// six, 0.085 to eleven, 0.0825 after), and work adds 5.3 g for each kg of sweat.
TEST(Requirements, ChlorideOfTheYoungGoesByAgeAndWorkAddsSweat) {
  const auto chloride = [](double age_months, std::optional<WorkLevel> work) {
    return floor_of(horse_of(300.0, Growing{age_months, work}), Nutrient::chloride);
  };
  EXPECT_NEAR(chloride(6.9, {}), 27.9, 1e-9);
  EXPECT_NEAR(chloride(7.0, {}), 25.5, 1e-9);
  EXPECT_NEAR(chloride(11.9, {}), 25.5, 1e-9);
  EXPECT_NEAR(chloride(12.0, {}), 24.75, 1e-9);
  EXPECT_NEAR(chloride(6.0, WorkLevel::light), 27.9 + 0.75 * 5.3, 1e-9);
  EXPECT_NEAR(chloride(9.0, WorkLevel::moderate), 25.5 + 1.5 * 5.3, 1e-9);
  EXPECT_NEAR(chloride(18.0, WorkLevel::very_heavy), 24.75 + 6.0 * 5.3, 1e-9);
}

// 300 kg in moderate work sweats 1.5 kg: 3.1 g sodium and 2.8 g potassium in each.
TEST(Requirements, WorkAddsTheSaltsOfSweatToGrowth) {
  const Horse rested = horse_of(300.0, Growing{9.0, {}});
  const Horse worked = horse_of(300.0, Growing{9.0, WorkLevel::moderate});
  EXPECT_NEAR(floor_of(worked, Nutrient::sodium), floor_of(rested, Nutrient::sodium) + 1.5 * 3.1,
              1e-9);
  EXPECT_NEAR(floor_of(worked, Nutrient::potassium),
              floor_of(rested, Nutrient::potassium) + 1.5 * 2.8, 1e-9);
}

TEST(Requirements, EnergyFactorMultipliesTheWholeNeedOnce) {
  Horse horse = horse_of(500.0, Lactating{1});
  const double standard = floor_of(horse, Nutrient::energy);
  horse.energy_factor = 0.9;
  EXPECT_NEAR(floor_of(horse, Nutrient::energy), 0.9 * standard, 1e-9);
  EXPECT_THAT(energy_of(horse).equation, HasSubstr("x 0.9 [this horse against the standard"));
}

// 500 kg, one score up in 60 days: 18 kg x 20 Mcal / 60 = 6 Mcal a day.
TEST(Requirements, DatedAimAddsTheEnergyOfTheWeightGained) {
  Horse horse = horse_of(500.0, Idle{});
  horse.energy_factor = 1.1;
  const double before = floor_of(horse, Nutrient::energy);
  horse.condition = ConditionAim{4.0, 5.0, Days{60.0}};
  EXPECT_NEAR(floor_of(horse, Nutrient::energy), before + 6.0 * mj_per_mcal, 1e-9)
      << "the aim is not multiplied by the factor";
}

TEST(Requirements, AimWithoutADateChangesNothing) {
  Horse horse = horse_of(500.0, Idle{});
  const double before = floor_of(horse, Nutrient::energy);
  horse.condition = ConditionAim{4.0, 6.0, std::nullopt};
  EXPECT_DOUBLE_EQ(floor_of(horse, Nutrient::energy), before);
}

// 500 kg, half a score down in 120 days: 9 kg x 20 Mcal / 120 = 1.5 Mcal a day.
TEST(Requirements, SlowLossTakesTheSameEnergyOff) {
  Horse horse = horse_of(500.0, Idle{});
  horse.condition = ConditionAim{6.0, 5.5, Days{120.0}};
  EXPECT_NEAR(floor_of(horse, Nutrient::energy), (16.65 - 1.5) * mj_per_mcal, 1e-9);
}

TEST(Requirements, LossStopsAtFourFifthsOfMaintenance) {
  Horse horse = horse_of(500.0, Idle{});
  horse.condition = ConditionAim{8.0, 5.0, Days{30.0}};
  const Requirement energy = energy_of(horse);
  EXPECT_NEAR(energy.floor.value(), 0.8 * 16.65 * mj_per_mcal, 1e-9);
  EXPECT_THAT(energy.equation, HasSubstr("the least planned"));
  EXPECT_THAT(energy.equation, HasSubstr("allow more days"));
}

TEST(Requirements, StoppingALossNeverRaisesANeedThatWasLower) {
  Horse horse = horse_of(500.0, Idle{});
  horse.energy_factor = 0.7;
  const double before = floor_of(horse, Nutrient::energy);
  horse.condition = ConditionAim{8.0, 5.0, Days{300.0}};
  EXPECT_DOUBLE_EQ(floor_of(horse, Nutrient::energy), before);
}

// 1,100 lb at 25 F with the threshold at 45 F and 1 % for each degree F: 20 % more
// (Mowrey 2013, http://articles.extension.org/pages/20225).
TEST(Requirements, ColdByTheExtensionRuleAddsAFifth) {
  Horse horse = horse_of(1100.0 * kg_per_lb, Idle{});
  const double mild = floor_of(horse, Nutrient::energy);
  const auto celsius = [](double fahrenheit) { return (fahrenheit - 32.0) / 1.8; };
  horse.cold = Cold{celsius(25.0), celsius(45.0), 1.8};
  EXPECT_NEAR(floor_of(horse, Nutrient::energy), 1.2 * mild, 1e-9);
}

TEST(Requirements, ColdAddsToMaintenanceByAgeAndOnlyBelowTheCriticalTemperature) {
  Horse adult = horse_of(500.0, Working{WorkLevel::heavy});
  const double mild = floor_of(adult, Nutrient::energy);
  adult.cold = Cold{-15.0, -15.0, {}};
  EXPECT_DOUBLE_EQ(floor_of(adult, Nutrient::energy), mild);
  adult.cold = Cold{-25.0, -15.0, {}};
  EXPECT_NEAR(floor_of(adult, Nutrient::energy), mild + 0.25 * 16.65 * mj_per_mcal, 1e-9);

  Horse young = horse_of(320.0, Growing{12.0, {}});
  const double mild_young = floor_of(young, Nutrient::energy);
  const double maintenance = 0.0565 * std::pow(12.0, -0.145) * 320.0 * mj_per_mcal;
  young.cold = Cold{-21.0, -11.0, {}};
  EXPECT_NEAR(floor_of(young, Nutrient::energy), mild_young + 0.13 * maintenance, 1e-9);
}

TEST(Requirements, OverweightIdleHorseIsFedByTheSlimmingTrial) {
  Horse horse = horse_of(500.0, Idle{});
  horse.health = {HealthState::overweight};
  horse.energy_factor = 0.9;
  const Requirement energy = energy_of(horse);
  EXPECT_NEAR(energy.floor.value(), 57.5, 1e-9) << "0.115 MJ/kg, the factor not on top";
  EXPECT_EQ(energy.source, "argo-2015");
  EXPECT_THAT(energy.equation, HasSubstr("Argo et al. 2015"));
}

TEST(Requirements, OverweightYieldsToADatedAimAndLeavesOtherClassesAlone) {
  Horse horse = horse_of(500.0, Idle{});
  horse.condition = ConditionAim{7.0, 6.5, Days{120.0}};
  const double by_aim = floor_of(horse, Nutrient::energy);
  horse.health = {HealthState::overweight};
  EXPECT_DOUBLE_EQ(floor_of(horse, Nutrient::energy), by_aim);

  Horse working = horse_of(500.0, Working{WorkLevel::light});
  const double standard = floor_of(working, Nutrient::energy);
  working.health = {HealthState::overweight};
  EXPECT_DOUBLE_EQ(floor_of(working, Nutrient::energy), standard);
}

TEST(Requirements, AdjustmentsLeaveOtherNutrientsAlone) {
  const Horse plain = horse_of(500.0, Idle{});
  Horse adjusted = plain;
  adjusted.energy_factor = 1.2;
  adjusted.cold = Cold{-20.0, -10.0, {}};
  adjusted.condition = ConditionAim{4.0, 5.0, Days{60.0}};
  for (const Nutrient nutrient : required_nutrients()) {
    if (nutrient == Nutrient::energy) continue;
    EXPECT_EQ(floor_of(plain, nutrient), floor_of(adjusted, nutrient)) << traits_of(nutrient).key;
  }
}

std::string refusal(const Horse& horse) {
  try {
    (void)nrc_2007(horse);
  } catch (const std::invalid_argument& error) {
    return error.what();
  }
  return "";
}

TEST(Requirements, MonthOrAgeOutsideTheStandardIsRefusedInASentence) {
  EXPECT_EQ(refusal(horse_of(500.0, Pregnant{12})),
            "the standard covers pregnancy from month 1 to 11; month 12 was asked for");
  EXPECT_EQ(refusal(horse_of(500.0, Pregnant{0})),
            "the standard covers pregnancy from month 1 to 11; month 0 was asked for");
  EXPECT_EQ(refusal(horse_of(500.0, Lactating{7})),
            "the standard covers lactation from month 1 to 6; month 7 was asked for");
  EXPECT_THAT(refusal(horse_of(100.0, Growing{3.9, {}})), HasSubstr("from 4 to 24 months old"));
  EXPECT_THAT(refusal(horse_of(450.0, Growing{24.5, {}})), HasSubstr("24.5 months was asked for"));
  EXPECT_EQ(refusal(horse_of(150.0, Growing{4.0, {}})), "");
  EXPECT_EQ(refusal(horse_of(430.0, Growing{24.0, {}})), "");
}

TEST(Requirements, AmountsThatCannotBeAreRefused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal(horse_of(0.0, Idle{})), "the bodyweight must be above 0 kg");
  EXPECT_EQ(refusal(horse_of(nan, Idle{})), "the bodyweight must be above 0 kg");
  Horse factor = horse_of(500.0, Idle{});
  factor.energy_factor = 0.0;
  EXPECT_EQ(refusal(factor), "the energy factor must be above 0");
  Horse hurried = horse_of(500.0, Idle{});
  hurried.condition = ConditionAim{4.0, 5.0, Days{0.0}};
  EXPECT_EQ(refusal(hurried), "the days for a change of condition must be above 0");
  Horse young = horse_of(300.0, Growing{12.0, {}});
  young.mature_weight = Bodyweight{-1.0};
  EXPECT_EQ(refusal(young), "the mature weight must be above 0 kg");
}

}  // namespace
}  // namespace haymow::requirements_test
