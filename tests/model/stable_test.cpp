#include "model/stable.h"

#include <string>

#include <gmock/gmock.h>

namespace haymow::stable_test {
namespace {

TEST(Stable, StageIsDescribedForASentence) {
  EXPECT_EQ(describe(Idle{MaintenanceLevel::elevated}), "idle, elevated maintenance");
  EXPECT_EQ(describe(Stallion{false}), "stallion at rest");
  EXPECT_EQ(describe(Stallion{true}), "breeding stallion");
  EXPECT_EQ(describe(Working{WorkLevel::moderate}), "moderate work");
  EXPECT_EQ(describe(Working{WorkLevel::very_heavy}), "very heavy work");
  EXPECT_EQ(describe(Pregnant{9}), "pregnant, month 9");
  EXPECT_EQ(describe(Lactating{2}), "in milk, month 2");
  EXPECT_EQ(describe(Growing{6.0, {}}), "growing, 6 months old");
  EXPECT_EQ(describe(Growing{18.5, WorkLevel::light}), "growing, 18.5 months old, light work");
}

TEST(Stable, EveryHealthStateIsFoundByItsName) {
  const std::vector<HealthState> states = all_health_states();
  EXPECT_EQ(states.size(), 13U);
  for (const HealthState state : states) {
    EXPECT_EQ(health_state_named(name_of(state)), state) << name_of(state);
  }
}

TEST(Stable, HealthStateHasSynonymsAndIgnoresCase) {
  EXPECT_EQ(health_state_named("Insulin-Dysregulated"), HealthState::laminitis_prone);
  EXPECT_EQ(health_state_named("TYING-UP"), HealthState::pssm);
  EXPECT_EQ(health_state_named("hypp"), HealthState::hypp);
  EXPECT_EQ(name_of(HealthState::laminitis_prone), "laminitis-prone");
  EXPECT_EQ(name_of(HealthState::pssm), "PSSM");
}

TEST(Stable, UnknownHealthStateIsNotGuessed) {
  EXPECT_EQ(health_state_named("laminitis"), std::nullopt);
  EXPECT_EQ(health_state_named(""), std::nullopt);
}

TEST(Stable, PlanningIsRefusedForTheStatesOfAVet) {
  std::vector<std::string> refused;
  for (const HealthState state : all_health_states()) {
    if (refuses_planning(state)) refused.emplace_back(name_of(state));
  }
  EXPECT_THAT(refused, ::testing::ElementsAre("starved", "acute laminitis", "colic", "off feed"));
}

}  // namespace
}  // namespace haymow::stable_test
