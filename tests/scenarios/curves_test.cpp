// What `haymow offers` says of prices and limits, each claim tried by reading the file
// again with another price, or by solving from nothing with another bound.
#include "scenarios/curves.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "scenarios/command_line.h"
#include "scenarios/curves_csv.h"
#include "scenarios/curves_options.h"
#include "scenarios/offers.h"
#include "scenarios/report_offers.h"
#include "solver/solve.h"

namespace haymow::curves_test {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr double same = 1e-6;

// `oats` and `more` are entries of the market.
Scenario yard(const std::string& oats_price, const std::string& more = "",
              const std::string& horse = "work: moderate, meals: 3") {
  return read_scenario(
      "money: GBP\n"
      "horses: [{name: Fern, bodyweight: 500 kg, " +
          horse +
          "}]\n"
          "forage:\n"
          "  - {feed: 'meadow hay, average', name: our hay, price: 200 per tonne, waste: 8 %}\n"
          "  - {feed: oat straw, price: 110 per tonne}\n"
          "market:\n"
          "  - {feed: 'oats, rolled', name: oats, price: " +
          oats_price +
          "}\n"
          "  - {feed: 'sugar beet pulp, unmolassed', name: beet pulp, price: 14.20 per 20 kg bag}\n"
          "  - {feed: alfalfa chaff, price: 15.50 per 15 kg bag}\n"
          "  - {feed: balancer pellet, price: 28.00 per 20 kg bag}\n"
          "  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}\n"
          "  - {feed: salt, price: 11.00 per 25 kg bag}\n" +
          more,
      "f.yaml");
}

HorseCurves curves_of(const Scenario& scenario, const std::vector<std::string>& prices,
                      const std::vector<std::string>& limits = {}) {
  CurvesAsked asked;
  for (const std::string& word : prices) {
    asked.prices.push_back(price_asked(word, scenario.stable.offers));
  }
  for (const std::string& word : limits) asked.limits.push_back(limit_asked(word));
  return curves_for(run(scenario).front(), asked);
}

double cost_with_oats_at(Money per_kg) {
  std::ostringstream price;
  price.precision(15);
  price << std::fixed << per_kg.in_units() << " per kg";
  const HorseAnswer answer = run(yard(price.str())).front();
  EXPECT_EQ(answer.status, AnswerStatus::found);
  return answer.solution.cost;
}

// --- prices ----------------------------------------------------------------------------------

TEST(Curves, OfAPriceAreWhatTheFileGivesWithThatPrice) {
  const HorseCurves curves = curves_of(yard("5.60 per 20 kg bag"), {"oats"});
  ASSERT_TRUE(curves.proven);
  const auto& steps = curves.prices.at(0).steps;
  ASSERT_GE(steps.size(), 2U);
  EXPECT_NEAR(steps.back().to.in_units(), 3.0 * 0.28, 1e-9);
  for (const PriceStep& step : steps) {
    // At the breaks, just past them, and between: cost, and between the amounts.
    EXPECT_NEAR(cost_with_oats_at(step.from), step.cost_from.in_units(), same);
    EXPECT_NEAR(cost_with_oats_at(step.to), step.cost_to.in_units(), same);
    const Money inside = step.from + 0.25 * (step.to - step.from);
    const double slope = (step.cost_to - step.cost_from) / (step.to - step.from);
    EXPECT_NEAR(cost_with_oats_at(inside),
                step.cost_from.in_units() + slope * (inside - step.from).in_units(), same);
    EXPECT_NEAR(slope, step.amounts[2], 1e-6);  // the third offer: oats, nothing of them lost
    const Money past = step.from + Money{1e-4};
    if (past < step.to) {
      EXPECT_NEAR(cost_with_oats_at(past), step.cost_from.in_units() + slope * 1e-4, same);
    }
  }
}

TEST(Curves, SayTheLastPriceAtWhichAFeedIsFed) {
  const PricePath path = curves_of(yard("5.60 per 20 kg bag"), {"oats"}).prices.at(0);
  ASSERT_EQ(path.value->use, FeedUse::up_to_a_price);
  const Money worth = path.value->fed_below;
  const auto oats_at = [](Money per_kg) {
    const HorseAnswer answer = run(yard(std::to_string(per_kg.in_units()) + " per kg")).front();
    return answer.solution.columns[2];
  };
  EXPECT_GT(oats_at(worth - Money{1e-3}), 0.01);
  EXPECT_NEAR(oats_at(worth + Money{1e-3}), 0.0, 1e-9);
}

TEST(Curves, OfAFeedThatIsOnlyThoughtOfAreThoseOfTheFeedBought) {
  const Scenario without = yard("11.60 per 20 kg bag");
  const PricePath path = curves_of(without, {"barley, rolled: per 25 kg bag"}).prices.at(0);
  ASSERT_TRUE(path.asked.supposed);
  EXPECT_EQ(path.asked.pack.words, "25 kg bag");
  ASSERT_EQ(path.value->use, FeedUse::up_to_a_price);
  const auto bought_at = [&](Money per_kg) {
    const HorseAnswer answer =
        run(yard("11.60 per 20 kg bag", "  - {feed: 'barley, rolled', price: " +
                                            std::to_string(per_kg.in_units()) + " per kg}\n"))
            .front();
    return answer.solution;
  };
  const Money worth = path.value->fed_below;
  EXPECT_GT(bought_at(worth - Money{1e-3}).columns.back(), 0.01);
  EXPECT_NEAR(bought_at(worth + Money{1e-3}).columns.back(), 0.0, 1e-9);
  const PriceStep& first = path.steps.front();
  EXPECT_NEAR(bought_at(Money{0.5 * first.to.in_units()}).columns.back(), first.amounts.back(),
              1e-5);
}

TEST(Curves, TellPricesInThePackTheyWereWrittenFor) {
  const Scenario scenario = yard("5.60 per 20 kg bag");
  EXPECT_EQ(pack_of(scenario.stable.offers[2]).words, "20 kg bag");
  EXPECT_EQ(pack_of(scenario.stable.offers[0]).words, "tonne");
  EXPECT_EQ(pack_of(scenario.stable.offers[0]).holds, KgAsFed{1000.0});
  EXPECT_EQ(pack_of(Offer{}).words, "kg");
}

TEST(Curves, TakeTheRangeThatIsAskedFor) {
  const PricePath path =
      curves_of(yard("5.60 per 20 kg bag"), {"oats: 4 to 9 per 20 kg bag"}).prices.at(0);
  EXPECT_NEAR(path.steps.front().from.in_units(), 0.2, 1e-12);
  EXPECT_NEAR(path.steps.back().to.in_units(), 0.45, 1e-12);
}

TEST(Curves, OfEveryFeedLeftOutSayWhatItIsWorth) {
  const HorseCurves curves = curves_of(yard("11.60 per 20 kg bag"), {});
  ASSERT_FALSE(curves.unused.empty());
  for (const PricePath& path : curves.unused) {
    ASSERT_TRUE(path.value) << path.asked.feed;
    EXPECT_LT(path.value->fed_below, path.offers[path.offer].price_per_kg + Money{1e-6});
  }
}

// --- limits ----------------------------------------------------------------------------------

TEST(Curves, OfALimitAreWhatSolvingWithThatLimitGives) {
  const HorseCurves curves =
      curves_of(yard("3.60 per 20 kg bag"), {},
                {"forage", "forage share", "starch a day", "NSC", "energy margin"});
  ASSERT_TRUE(curves.proven);
  for (const LimitPath& path : curves.limits) {
    SCOPED_TRACE(path.asked.name);
    ASSERT_TRUE(path.limit);
    const auto& corners = path.frontier.corners;
    ASSERT_GE(corners.size(), 2U);
    const auto cost_at = [&](double bound) {
      return solve(with_bound(path.limit->formulation, path.asked.id, bound)).cost;
    };
    for (std::size_t k = 0; k < corners.size(); ++k) {
      EXPECT_NEAR(cost_at(corners[k].bound), corners[k].cost.in_units(), same);
      if (k + 1 == corners.size() || !path.frontier.straight) continue;
      const double middle = 0.5 * (corners[k].bound + corners[k + 1].bound);
      EXPECT_NEAR(cost_at(middle), 0.5 * (corners[k].cost + corners[k + 1].cost).in_units(), same);
    }
    for (const FrontierCorner& point : path.frontier.points) {
      EXPECT_NEAR(cost_at(point.bound), point.cost.in_units(), same);
    }
  }
}

TEST(Curves, OfBucketFeedsNeverCostMoreForOneMoreAndCountThem) {
  const Scenario scenario = yard("3.60 per 20 kg bag");
  const HorseCurves curves = curves_of(scenario, {}, {"bucket feeds"});
  const auto& counts = curves.limits.at(0).counts;
  ASSERT_EQ(counts.size(), 6U);
  std::optional<Money> before;
  for (const BucketCount& count : counts) {
    if (!count.practical) {
      EXPECT_FALSE(before) << "fewer feeds had a ration";
      continue;
    }
    int in_bucket = 0;
    for (const Portion& p : count.practical->ration.portions) {
      in_bucket += scenario.stable.offers[p.offer].feed.is_bucket_feed() ? 1 : 0;
    }
    EXPECT_LE(in_bucket, count.most);
    EXPECT_LE(count.practical->certificate.largest_violation, certificate_tolerance);
    if (before) {
      EXPECT_LE(count.practical->ration.cost, *before);
    }
    before = count.practical->ration.cost;
  }
  ASSERT_TRUE(before);
  EXPECT_GE(before->in_units(), run(scenario).front().solution.cost - same);
}

TEST(Curves, FindTheLimitAtWhichRationsBeginWhereThereIsNone) {
  // A good doer on rich hay: the energy ceiling clashes with the forage floor.
  const Scenario scenario = read_scenario(
      "money: GBP\n"
      "horses: [{name: Dumpling, bodyweight: 300 kg, work: none, energy factor: 0.95}]\n"
      "forage: [{feed: 'meadow hay, early cut', name: our hay, price: 150 per tonne}]\n"
      "market:\n"
      "  - {feed: balancer pellet, price: 28.00 per 20 kg bag}\n"
      "  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}\n"
      "  - {feed: salt, price: 11.00 per 25 kg bag}\n",
      "f.yaml");
  const HorseCurves curves =
      curves_of(scenario, {"our hay", "oat straw"}, {"energy margin", "bucket feeds"});
  ASSERT_EQ(curves.prices.size(), 1U) << "a feed on offer has no price to ask about";
  ASSERT_TRUE(curves.prices[0].value);
  EXPECT_EQ(curves.prices[0].value->use, FeedUse::at_any_price);
  const LimitPath& energy = curves.limits.at(0);
  ASSERT_TRUE(energy.frontier.ends_at);
  const double edge = *energy.frontier.ends_at;
  EXPECT_GT(edge, energy.limit->row.bound);
  const auto status_at = [&](double bound) {
    return solve(with_bound(energy.limit->formulation, "energy/max", bound)).status;
  };
  EXPECT_EQ(status_at(edge * 1.0001), Status::optimal);
  EXPECT_EQ(status_at(edge * 0.9999), Status::infeasible);
  EXPECT_TRUE(curves.limits.at(1).counts.empty());
}

// --- words -----------------------------------------------------------------------------------

std::string complaint(const std::string& word, bool price) {
  try {
    const Scenario scenario = yard("5.60 per 20 kg bag");
    if (price) {
      (void)price_asked(word, scenario.stable.offers);
    } else {
      check_units(limit_asked(word), scenario);
    }
  } catch (const UsageError& error) {
    return error.what();
  }
  return "";
}

TEST(CurveWords, MustMeanOneFeed) {
  EXPECT_THAT(complaint("oast", true), HasSubstr("did you mean `oats`"));
  EXPECT_THAT(complaint("molassed", true),
              AllOf(HasSubstr("`molassed` can be"), HasSubstr("name one")));
  EXPECT_THAT(complaint("pasture", true), Not(HasSubstr("did you mean `oats`")));
  EXPECT_EQ(complaint("Oats", true), "");
  EXPECT_EQ(complaint("straw", true), "");
}

TEST(CurveWords, MustSayWhatAPriceIsFor) {
  EXPECT_THAT(complaint("oats: 8 to 20", true), HasSubstr("does not say what the price is for"));
  EXPECT_THAT(complaint("oats: 8", true), HasSubstr("is no range"));
  EXPECT_THAT(complaint("oats: 20 to 8 per 20 kg bag", true), HasSubstr("does not go up"));
  EXPECT_THAT(complaint("oats: 8 to 20 per sack", true), HasSubstr("sack"));
  EXPECT_EQ(complaint("our hay: 100 to 300 per tonne", true), "");
}

TEST(CurveWords, MustMeanALimitInItsOwnUnit) {
  EXPECT_THAT(complaint("forge share", false),
              AllOf(HasSubstr("did you mean `forage share`"), HasSubstr("bucket feeds")));
  EXPECT_THAT(complaint("starch a day: 1 to 2 kg", false), HasSubstr("its unit is `g`, not `kg`"));
  EXPECT_THAT(complaint("starch a day: 1 to 2", false), HasSubstr("its unit is `g`"));
  EXPECT_THAT(complaint("bucket feeds: 1 to 3 feeds", false), HasSubstr("takes no range"));
  EXPECT_EQ(complaint("forage share: 60 to 90 %", false), "");
  EXPECT_EQ(complaint("starch a day: 100 to 900 g", false), "");
}

// --- reports ---------------------------------------------------------------------------------

std::string text_of(const Scenario& scenario, const OffersOptions& options,
                    Units units = Units::metric) {
  return write_text(offers_report(scenario, offers(scenario, options), options, {units, false}),
                    200, false);
}

OffersOptions asking(const Scenario& scenario, const std::vector<std::string>& prices,
                     const std::vector<std::string>& limits) {
  OffersOptions options;
  options.alternatives.count = 0;
  for (const std::string& p : prices) {
    options.curves.prices.push_back(price_asked(p, scenario.stable.offers));
  }
  for (const std::string& l : limits) options.curves.limits.push_back(limit_asked(l));
  return options;
}

TEST(CurveReport, NamesEveryBreakByWhatHappensThere) {
  const Scenario scenario = yard("5.60 per 20 kg bag");
  const std::string text = text_of(scenario, asking(scenario, {"oats", "barley, rolled"}, {"NSC"}));
  EXPECT_THAT(text, HasSubstr("GBP per 20 kg bag"));
  EXPECT_THAT(text, HasSubstr("it is no longer in the ration"));
  EXPECT_THAT(text, HasSubstr("To this horse it is worth up to"));
  EXPECT_THAT(text, HasSubstr("This horse has no such limit now"));
  EXPECT_THAT(text, HasSubstr("What is left out, and why"));
}

TEST(CurveReport, TellsPoundsInUsUnits) {
  const Scenario scenario = yard("0.28 per kg");
  const std::string text = text_of(scenario, asking(scenario, {"oats"}, {"forage"}), Units::us);
  EXPECT_THAT(text, AllOf(HasSubstr("GBP per lb"), HasSubstr("a pound of it eaten")));
  EXPECT_THAT(text, Not(HasSubstr("a kilogram of it")));
}

TEST(CurveReport, IsPlainWhereThereIsNoRation) {
  const Scenario scenario =
      yard("5.60 per 20 kg bag", "", "work: moderate, meals: 3, feeds: {none: [hay]}");
  const std::string text = text_of(scenario, asking(scenario, {"oats"}, {"bucket feeds"}));
  EXPECT_THAT(text, HasSubstr("With no ration there is no price of a feed on offer"));
}

TEST(CurveCsv, HasALineAPointAndAColumnAFeed) {
  const Scenario scenario = yard("5.60 per 20 kg bag");
  const auto answers = offers(scenario, asking(scenario, {"oats", "barley, rolled"}, {"forage"}));
  std::istringstream csv(curves_csv(answers, "GBP"));
  std::string line;
  std::getline(csv, line);
  EXPECT_THAT(line, HasSubstr("horse,curve,of,at,unit,cost_per_day"));
  EXPECT_THAT(line, HasSubstr("\"kg barley, rolled\""));
  std::size_t lines = 0;
  while (std::getline(csv, line)) {
    EXPECT_THAT(line, ::testing::EndsWith("\r"));
    ++lines;
  }
  const HorseCurves& curves = answers.front().curves;
  EXPECT_EQ(lines, 2 * (curves.prices[0].steps.size() + curves.prices[1].steps.size()) +
                       curves.limits[0].frontier.points.size());
}

}  // namespace
}  // namespace haymow::curves_test
