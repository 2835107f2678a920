#include "scenarios/explained_feed.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "feeds/feed_table.h"
#include "scenarios/report_explain.h"
#include "scenarios/report_own_feeds.h"

namespace haymow::explained_feed_test {
namespace {

using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

Scenario yard() {
  return read_scenario(
      "money: GBP\n"
      "horses: [{name: Fern, bodyweight: 500 kg, work: light}]\n"
      "forage:\n"
      "  - {feed: 'meadow hay, average', name: our hay, price: 1 per kg,\n"
      "     analysis: {dry matter: 86 %, energy: 8.6 MJ/kg DM, CP: 90 g/kg DM}}\n"
      "market:\n"
      "  - {feed: 'oats, rolled', name: oats, price: 1 per kg}\n"
      "  - {name: hill cubes, group: compound, price: 1 per kg,\n"
      "     label: {dry matter: 88 %, CP: 11 %, oil: 3.5 %, fibre: 17 %, ash: 8 %, copper: 35 "
      "mg/kg}}\n",
      "yard.yaml");
}

const ExplainedFigure& figure_of(const ExplainedFeed& feed, Nutrient n) {
  const auto found = std::find_if(feed.figures.begin(), feed.figures.end(),
                                  [&](const ExplainedFigure& f) { return f.nutrient == n; });
  if (found == feed.figures.end()) throw std::out_of_range(std::string(traits_of(n).name));
  return *found;
}

TEST(ExplainedFeed, MarksWhatIsTakenOverAndFromWhich) {
  const Scenario scenario = yard();
  const auto hay = find_explained("our hay", &scenario);
  ASSERT_TRUE(hay);
  EXPECT_EQ(figure_of(*hay, Nutrient::energy).taken_over_from, "");
  EXPECT_EQ(figure_of(*hay, Nutrient::calcium).taken_over_from, "meadow hay, average");
  EXPECT_THAT(figure_of(*hay, Nutrient::lysine).how, HasSubstr("of the crude protein"));
  EXPECT_EQ(figure_of(*hay, Nutrient::lysine).taken_over_from, "");
  EXPECT_THAT(figure_of(*hay, Nutrient::energy).per_kg_as_fed, DoubleNear(8.6 * 0.86, 1e-12));
}

TEST(ExplainedFeed, SaysWhatABagMayHoldOfTheFigureItDeclares) {
  const Scenario scenario = yard();
  const auto cubes = find_explained("hill cubes", &scenario);
  ASSERT_TRUE(cubes);
  const auto& copper = figure_of(*cubes, Nutrient::copper);
  ASSERT_TRUE(copper.bag_holds);
  EXPECT_THAT(copper.per_kg_as_fed, DoubleNear(35.0, 1e-9));
  EXPECT_THAT(copper.bag_holds->least, DoubleNear(17.5, 1e-9));
  EXPECT_THAT(copper.bag_holds->most.value(), DoubleNear(52.5, 1e-9));
  EXPECT_FALSE(find_explained("balancer pellet", nullptr)->figures.front().bag_holds)
      << "the table declares nothing";
}

TEST(ExplainedFeed, LooksInTheScenarioBeforeTheTable) {
  const Scenario scenario = yard();
  EXPECT_EQ(find_explained("OUR HAY", &scenario)->name, "our hay");
  EXPECT_EQ(find_explained("hay", &scenario)->name, "our hay") << "the only one the word fits";
  EXPECT_EQ(find_explained("hay", nullptr)->name, "meadow hay, average");
  EXPECT_EQ(find_explained("wheat bran", &scenario)->name, "wheat bran") << "of the table";
  EXPECT_FALSE(find_explained("our straw", &scenario));
  EXPECT_THAT(near_explained("our hey", &scenario), ElementsAre("our hay"));
}

TEST(ExplainedFeed, ShowsTheArithmeticOfEveryCalculatedTableEnergy) {
  int shown = 0;
  for (const Feed& feed : feed_table()) {
    const ExplainedFeed explained = explain_feed(feed.name, feed);
    const std::string& source = feed.composition[Nutrient::energy]->source;
    const std::string& how = figure_of(explained, Nutrient::energy).how;
    if (how.empty()) continue;
    ++shown;
    EXPECT_THAT(how, StartsWith(source == "pagan-1998" ? "Pagan 1998: " : "Zeyner and Kienzle"));
  }
  EXPECT_GE(shown, 10);
}

TEST(ExplainedFeed, TheSpreadIsThatOfTheEquationsThatCanBeUsed) {
  const Scenario scenario = yard();
  EXPECT_FALSE(find_explained("hill cubes", &scenario)->spread()) << "one equation only";
  const auto alfalfa = find_explained("alfalfa, fresh", nullptr);
  ASSERT_TRUE(alfalfa && alfalfa->spread());
  EXPECT_GT(*alfalfa->spread(), 0.0);
}

TEST(OwnFeedsReport, CountsWhoseFiguresAreFed) {
  const Section section = own_feeds(yard());
  ASSERT_EQ(section.sentences.size(), 3U);  // the oats are the table's, and not told
  EXPECT_THAT(section.sentences[0],
              HasSubstr("our hay: 2 figures from the laboratory, lysine worked out and "));
  EXPECT_THAT(section.sentences[0], HasSubstr("taken over from meadow hay, average"));
  EXPECT_THAT(section.sentences[1],
              HasSubstr("hill cubes: 5 figures from the label and energy worked out"));
  EXPECT_THAT(section.sentences[2], HasSubstr("--explain"));
}

TEST(ExplainReport, NamesTheSourcesOfWhatItShows) {
  const Report report = explain_report(*find_explained("oats, whole", nullptr));
  const auto& sections = report.parts.front().sections;
  EXPECT_THAT(sections.back().title, "Sources");
  EXPECT_THAT(sections.back().sentences, Not(IsEmpty()));
}

}  // namespace
}  // namespace haymow::explained_feed_test
