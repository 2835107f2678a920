// The sliders of the page: an answer with one moved is that to the file changed by hand,
// and no slider loosens a rule.
#include "scenarios/what_if.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "model/rules.h"
#include "scenarios/local_page.h"
#include "scenarios/page_answer.h"

namespace haymow::what_if_test {
namespace {

using ::testing::HasSubstr;
using Json = nlohmann::ordered_json;

// Two horses of which a rule asks another share of forage, and a hay of their own.
const std::string yard =
    "money: GBP\n"
    "horses:\n"
    "  - {name: Ash, bodyweight: 500 kg, work: heavy}\n"
    "  - {name: Birch, bodyweight: 480 kg, work: light}\n"
    "forage:\n"
    "  - {feed: 'meadow hay, late cut', name: our hay, price: 4.50 per 18 kg bale}\n"
    "market:\n"
    "  - {feed: 'oats, rolled', name: oats, price: 11.60 per 20 kg bag}\n"
    "  - {feed: soya bean meal, price: 0.80 per kg}\n"
    "  - {feed: 'vegetable oil, rapeseed', price: 2.20 per kg}\n"
    "  - {feed: balancer pellet, price: 1.30 per kg}\n"
    "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
    "  - {feed: limestone flour, price: 2 per kg}\n"
    "  - {feed: salt, price: 0.50 per kg}\n";

Scenario read(const std::string& text) { return read_scenario(text, "yard.yaml"); }

std::string with_price(const std::string& price) {
  std::string text = yard;
  return text.replace(text.find("4.50"), 4, price);
}

double share_asked(const Horse& horse) {
  const auto limits = limits_for(horse);
  return find_limit(limits, "forage_share/min")->number;
}

const Slider& forage_of(const std::vector<Slider>& sliders) { return sliders.back(); }

TEST(WhatIf, StandsAsTheFileHasItUntilASliderIsMoved) {
  const WhatIf answer = what_if(read(yard), {});
  ASSERT_EQ(answer.sliders.size(), 2U);
  EXPECT_EQ(answer.sliders[0].name, "our hay");
  EXPECT_EQ(answer.sliders[0].unit, "GBP per 18 kg bale");
  EXPECT_DOUBLE_EQ(answer.sliders[0].value, 4.5);
  EXPECT_DOUBLE_EQ(forage_of(answer.sliders).value, 50.0);
  EXPECT_FALSE(answer.beside.has_value());
  const auto plain = run(read(yard));
  ASSERT_EQ(answer.answers.size(), plain.size());
  for (std::size_t h = 0; h < plain.size(); ++h) {
    EXPECT_EQ(cost_to_feed(answer.answers[h]), cost_to_feed(plain[h]));
  }
}

TEST(WhatIf, AnswersAsTheFileWithThatPriceDoes) {
  const WhatIf answer = what_if(read(yard), {{{"our hay", 7.2}}, {}});
  const auto written = run(read(with_price("7.20")));
  ASSERT_TRUE(answer.beside.has_value());
  for (std::size_t h = 0; h < written.size(); ++h) {
    ASSERT_EQ(answer.answers[h].status, AnswerStatus::found);
    EXPECT_TRUE(answer.answers[h].certificate.holds());
    EXPECT_NEAR(exact_cost(answer.answers[h])->in_units(), exact_cost(written[h])->in_units(),
                1e-6);
  }
  EXPECT_THAT(answer.scenario.as_if, HasSubstr("our hay costs 7.20 GBP per 18 kg bale"));
}

TEST(WhatIf, GivesTheForageAskedForAndSaysWhoAsked) {
  const WhatIf answer = what_if(read(yard), {{}, 80.0});
  for (const HorseAnswer& each : answer.answers) {
    ASSERT_EQ(each.status, AnswerStatus::found);
    EXPECT_GE(each.ration->forage_share(), 0.8 - 1e-6);
  }
  const Limit* limit = find_limit(answer.answers[0].question.limits, "forage_share/min");
  EXPECT_EQ(limit->because, "instructed by you, on this page");
  EXPECT_EQ(limit->strength, Strength::law);
}

TEST(WhatIf, SaysWhatTheRulesAskOfWhom) {
  const auto sliders = sliders_for(read(yard), {});
  EXPECT_EQ(forage_of(sliders).note,
            "The rules ask for at least 50 % for Ash and 70 % for Birch: here nobody gets less.");
}

RC_GTEST_PROP(WhatIf, NeverLoosensARuleWhateverIsAsked, (double share, double price)) {
  static const Scenario scenario = read(yard);
  const auto sliders = sliders_for(scenario, {{{"our hay", price}, {"no such hay", 1.0}}, share});
  for (const Slider& slider : sliders) {
    RC_ASSERT(slider.value >= slider.least && slider.value <= slider.most);
  }
  const Scenario turned = with_sliders(scenario, sliders);
  for (std::size_t h = 0; h < turned.stable.horses.size(); ++h) {
    const double rule = share_asked(scenario.stable.horses[h]);
    const double asked = share_asked(turned.stable.horses[h]);
    RC_ASSERT(asked == std::max(rule, forage_of(sliders).value));
  }
  RC_ASSERT(turned.stable.offers[0].price_per_kg >= Money{});
}

TEST(WhatIf, TakesNoNumberForNoNumber) {
  for (const double odd : {std::nan(""), std::numeric_limits<double>::infinity(),
                           -std::numeric_limits<double>::infinity()}) {
    for (const Slider& slider : sliders_for(read(yard), {{{"our hay", odd}}, odd})) {
      EXPECT_FALSE(slider.moved()) << slider.name;
    }
  }
}

TEST(WhatIf, KeepsALoosenedRuleAsLooseAsAVetHasIt) {
  std::string text = yard;
  const std::string birch = "work: light";
  text.replace(text.find(birch), birch.size(),
               "work: light, instructions: [{rule: forage_share/min, limit: 55, by: a vet}]");
  const Scenario scenario = read(text);
  EXPECT_DOUBLE_EQ(share_asked(with_sliders(scenario, sliders_for(scenario, {}))  //
                                   .stable.horses[1]),
                   55.0);
  EXPECT_DOUBLE_EQ(
      share_asked(with_sliders(scenario, sliders_for(scenario, {{}, 65.0})).stable.horses[1]),
      65.0);
}

TEST(WhatIf, ACurveNeverFallsAndPassesThroughTheAnswer) {
  const WhatIf answer = what_if(read(yard), {{{"our hay", 6.0}}, 72.0});
  Money cost;
  for (const HorseAnswer& each : answer.answers) cost += *exact_cost(each);
  for (std::size_t s = 0; s < answer.curves.size(); ++s) {
    const auto& points = answer.curves[s].points;
    ASSERT_GT(points.size(), 5U);
    bool through = false;
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (i > 0) {
        EXPECT_GT(points[i].at, points[i - 1].at);
        EXPECT_GE(points[i].cost.in_units(), points[i - 1].cost.in_units() - 1e-6);
      }
      if (points[i].at != answer.sliders[s].value) continue;
      through = true;
      EXPECT_NEAR(points[i].cost.in_units(), cost.in_units(), 1e-6);
    }
    EXPECT_TRUE(through) << answer.sliders[s].name;
  }
}

TEST(WhatIf, HasNoSliderForAHayAtNoPrice) {
  const auto sliders = sliders_for(read(with_price("0")), {});
  ASSERT_EQ(sliders.size(), 1U);
  EXPECT_EQ(sliders[0].of, Slider::Of::forage_share);
}

TEST(WhatIf, StandsOnAPriceThatIsNoRoundNumber) {
  for (const char* price : {"4.37", "0.07", "8.333", "1234.56"}) {
    const Scenario scenario = read(with_price(price));
    const Slider slider = sliders_for(scenario, {}).front();
    EXPECT_FALSE(slider.moved());
    const double steps = slider.stands / slider.step;
    EXPECT_NEAR(steps, std::round(steps), 1e-3) << price;
    EXPECT_GE(slider.most, 2.0 * slider.stands);
  }
}

TEST(WhatIf, IsToldToThePageWithTheWayIntoTheFile) {
  const Json said =
      look_at(yard, "yard.yaml", PageView::ration, SlidersAsked{{{"our hay", 6.0}}, 80.0});
  EXPECT_THAT(said["answer"].get<std::string>(), HasSubstr("As if our hay costs 6.00"));
  EXPECT_THAT(said["answer"].get<std::string>(), HasSubstr("Certified"));
  EXPECT_THAT(said["what_if"]["told"].get<std::string>(), HasSubstr("The file is not changed"));
  const Json& price = said["what_if"]["sliders"][0];
  EXPECT_EQ(price["path"], Json::array({"forage", 0, "price"}));
  EXPECT_EQ(price["pack"], "18 kg bale");
  EXPECT_TRUE(said["what_if"]["sliders"][1]["path"].is_null());
  const Json elsewhere =
      look_at(yard, "yard.yaml", PageView::needs, SlidersAsked{{{"our hay", 6.0}}, 80.0});
  EXPECT_FALSE(elsewhere.contains("what_if"));
}

}  // namespace
}  // namespace haymow::what_if_test
