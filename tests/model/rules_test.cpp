#include "model/rules.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

namespace haymow::rules_test {
namespace {

Horse horse(LifeStage stage, std::set<HealthState> health = {}) {
  Horse h;
  h.name = "Test";
  h.bodyweight = Bodyweight{500.0};
  h.stage = stage;
  h.health = std::move(health);
  return h;
}

double number(const Horse& h, const std::string& id) {
  const auto limits = limits_for(h);
  const Limit* limit = find_limit(limits, id);
  if (limit == nullptr) throw std::out_of_range(id);
  return limit->number;
}

bool has(const Horse& h, const std::string& id) {
  const auto limits = limits_for(h);
  return find_limit(limits, id) != nullptr;
}

TEST(Rules, EveryRowHasASourceAndItsOwnId) {
  std::set<std::string_view> ids;
  for (const Rule& rule : rule_table()) {
    EXPECT_TRUE(ids.insert(rule.id).second) << rule.id;
    EXPECT_FALSE(rule.source.empty()) << rule.id;
    EXPECT_FALSE(rule.unit.empty()) << rule.id;
    EXPECT_TRUE(rule.id.ends_with("/min") || rule.id.ends_with("/max")) << rule.id;
  }
}

TEST(Rules, AnAbsoluteFigureIsNeverStricterThanTheRule) {
  for (const Rule& rule : rule_table()) {
    if (!rule.absolute || !rule.number) continue;
    if (rule.id.ends_with("/max")) {
      EXPECT_GE(*rule.absolute, *rule.number) << rule.id;
    } else {
      EXPECT_LE(*rule.absolute, *rule.number) << rule.id;
    }
  }
}

TEST(Rules, ALawOrAVetRuleHasAnAbsoluteFigure) {
  for (const Rule& rule : rule_table()) {
    if (rule.strength == Strength::guide) continue;
    EXPECT_TRUE(rule.absolute.has_value()) << rule.id;
  }
}

TEST(Rules, ForageFloorIsPublished) {
  // Harris et al. 2017: 15 g of dry matter per kg; 7.5 kg for 500 kg.
  EXPECT_EQ(number(horse(Idle{}), "forage/min"), 1.5);
  EXPECT_EQ(number(horse(Working{WorkLevel::very_heavy}), "forage/min"), 1.25);
}

TEST(Rules, StrawGoesByClass) {
  EXPECT_EQ(number(horse(Idle{}), "straw_share/max"), 30.0);
  EXPECT_EQ(number(horse(Lactating{2}), "straw_share/max"), 0.0);
  EXPECT_EQ(number(horse(Pregnant{8}), "straw_share/max"), 30.0);
  EXPECT_EQ(number(horse(Pregnant{9}), "straw_share/max"), 0.0);
  EXPECT_EQ(number(horse(Growing{6.0, {}}), "straw_share/max"), 0.0);
  EXPECT_EQ(number(horse(Growing{14.0, {}}), "straw_share/max"), 15.0);
  EXPECT_EQ(number(horse(Idle{}, {HealthState::underweight}), "straw_share/max"), 0.0);
}

TEST(Rules, ALaminitisProneHorseHasASugarLimitAndNoCereals) {
  const Horse plain = horse(Idle{});
  const Horse prone = horse(Idle{}, {HealthState::laminitis_prone});
  EXPECT_FALSE(has(plain, "nsc_share/max"));
  EXPECT_EQ(number(prone, "nsc_share/max"), 10.0);
  EXPECT_EQ(number(prone, "grain/max"), 0.0);
  EXPECT_EQ(number(prone, "starch_meal/max"), 0.3);
}

TEST(Rules, TheStricterOfTwoStatesHolds) {
  const Horse both = horse(Idle{}, {HealthState::laminitis_prone, HealthState::pssm});
  EXPECT_EQ(number(both, "starch_meal/max"), 0.15);
}

TEST(Rules, AChangedLimitSaysBecauseOfWhat) {
  const auto limits = limits_for(horse(Idle{}, {HealthState::laminitis_prone}));
  EXPECT_EQ(find_limit(limits, "nsc_share/max")->because, "laminitis-prone");
  EXPECT_EQ(find_limit(limits, "oil/max")->because, "");
}

TEST(Rules, AnInstructionLoosensDownToTheAbsoluteFigure) {
  Horse h = horse(Idle{});
  h.instructions = {{"forage/min", 1.25, "vet, 2 October", {}}};
  EXPECT_EQ(number(h, "forage/min"), 1.25);
  h.instructions[0].number = 0.9;
  EXPECT_TRUE(objection_to(h.instructions[0], h).has_value());
  EXPECT_THROW(static_cast<void>(limits_for(h)), std::invalid_argument);
}

TEST(Rules, UlcersForbidLessForageWhoeverInstructsIt) {
  Horse h = horse(Idle{}, {HealthState::gastric_ulcers});
  EXPECT_TRUE(objection_to({"forage/min", 1.25, "vet", {}}, h).has_value());
}

TEST(Rules, AnInstructionNamesWhoGaveItAndAKnownRule) {
  const Horse h = horse(Idle{});
  EXPECT_TRUE(objection_to({"forage/min", 1.25, "", {}}, h).has_value());
  EXPECT_TRUE(objection_to({"forrage/min", 1.25, "vet", {}}, h).has_value());
}

TEST(Rules, AHorseThatCannotChewNeedsNoLongForage) {
  EXPECT_FALSE(has(horse(Idle{}, {HealthState::cannot_chew}), "long_forage/min"));
}

}  // namespace
}  // namespace haymow::rules_test
