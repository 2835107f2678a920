#include "scenarios/limit_names.h"

#include <gtest/gtest.h>

#include <set>

#include "feeds/plain_text.h"
#include "model/nutrient.h"
#include "model/rules.h"

namespace haymow::limit_names_test {
namespace {

TEST(LimitNames, AreEachOneLimitThatExists) {
  std::set<std::string> names;
  std::set<std::string> ids;
  for (const LimitName& known : limit_names()) {
    EXPECT_TRUE(names.insert(lower_case(known.name)).second) << known.name;
    EXPECT_TRUE(ids.insert(known.id).second) << known.id;
    if (known.id.empty()) continue;
    const std::string stem = known.id.substr(0, known.id.find('/'));
    EXPECT_TRUE(find_rule(known.id) != nullptr || nutrient_named(stem)) << known.id;
  }
}

TEST(LimitNames, AreFoundByTheWordsOfAYard) {
  EXPECT_EQ(limit_named("forage share")->id, "forage_share/min");
  EXPECT_EQ(limit_named("the share of forage")->id, "forage_share/min");
  EXPECT_EQ(limit_named("Starch a day")->id, "starch_day/max");
  EXPECT_EQ(limit_named("nsc")->id, "nsc_share/max");
  EXPECT_EQ(limit_named("sugar and starch")->id, "nsc_share/max");
  EXPECT_EQ(limit_named("energy")->id, "energy/max");
  EXPECT_EQ(limit_named("energy need")->id, "energy/min");
  EXPECT_EQ(limit_named("forage/min")->id, "forage/min");
  EXPECT_EQ(limit_named("bucket feeds")->id, "");
  EXPECT_EQ(limit_named("zinc ceiling")->id, "zinc/max");
  EXPECT_EQ(limit_named("lysine")->id, "lysine/min");
  EXPECT_FALSE(limit_named("moonlight"));
  EXPECT_FALSE(limit_named(""));
}

TEST(LimitNames, LeadFromEveryOtherWordToAName) {
  for (const LimitName& known : limit_names()) EXPECT_EQ(limit_named(known.name)->id, known.id);
}

}  // namespace
}  // namespace haymow::limit_names_test
