#include "feeds/feed_table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "model/energy_equations.h"
#include "model/requirements.h"

namespace haymow::feed_table_test {
namespace {

using ::testing::Contains;
using ::testing::DoubleNear;
using ::testing::HasSubstr;

/// Value of a figure that must be known.
double known(std::string_view feed_name, Nutrient nutrient) {
  const Feed* feed = find_feed(feed_name);
  if (feed == nullptr) throw std::runtime_error("no feed " + std::string{feed_name});
  return feed->composition[nutrient].value().value;
}

double calcium_to_phosphorus(std::string_view feed_name) {
  return known(feed_name, Nutrient::calcium) / known(feed_name, Nutrient::phosphorus);
}

double grams_or_nothing(const Feed& feed, Nutrient nutrient) {
  const auto& figure = feed.composition[nutrient];
  return figure ? figure->value : 0.0;
}

std::vector<Figure> all_figures(const Feed& feed) {
  std::vector<Figure> figures{feed.dry_matter};
  for (const Nutrient nutrient : all_nutrients()) {
    if (feed.composition[nutrient]) figures.push_back(*feed.composition[nutrient]);
  }
  return figures;
}

std::vector<double> energies_by_equation(const Feed& feed) {
  const Constituents c = constituents_of(feed);
  std::vector<double> energies;
  for (const auto& energy :
       {pagan_1998(c), zeyner_kienzle_2002(c),
        feed.is_forage() ? fonnesbeck_1981_forage(c) : fonnesbeck_1981_concentrate(c)}) {
    if (energy) energies.push_back(energy->value);
  }
  return energies;
}

TEST(FeedTable, HoldsAtLeastNinetyFeedsOfEveryGroup) {
  EXPECT_GE(feed_table().size(), 90U);
  std::set<FeedGroup> groups;
  for (const Feed& feed : feed_table()) groups.insert(feed.group);
  EXPECT_EQ(groups.size(), all_feed_groups().size());
}

TEST(FeedTable, EveryFigureComesFromTheBibliographyAndHasItsOrigin) {
  for (const Feed& feed : feed_table()) {
    for (const Figure& figure : all_figures(feed)) {
      const Source* source = find_source(figure.source);
      ASSERT_NE(source, nullptr) << feed.name << ": " << figure.source;
      EXPECT_EQ(source->origin, figure.origin) << feed.name << ": " << figure.source;
    }
  }
}

TEST(FeedTable, NoFigureIsNegativeOrMoreThanItsKilogram) {
  for (const Feed& feed : feed_table()) {
    EXPECT_GE(feed.dry_matter.value, 50.0) << feed.name;
    EXPECT_LE(feed.dry_matter.value, 1000.0) << feed.name;
    for (const Nutrient nutrient : all_nutrients()) {
      const auto& figure = feed.composition[nutrient];
      if (!figure) continue;
      EXPECT_GE(figure->value, 0.0) << feed.name << ", " << traits_of(nutrient).name;
      const std::map<std::string_view, double> most{
          {"MJ", 40.0}, {"g", 1000.0}, {"mg", 1e6}, {"IU", 1e6}};
      EXPECT_LE(figure->value, most.at(traits_of(nutrient).unit))
          << feed.name << ", " << traits_of(nutrient).name;
    }
  }
}

TEST(FeedTable, NoTwoFeedsShareAName) {
  std::map<std::string, std::string> owner;
  for (const Feed& feed : feed_table()) {
    std::vector<std::string> names = feed.also;
    names.push_back(feed.name);
    for (const std::string& name : names) {
      const auto [other, fresh] = owner.emplace(name, feed.name);
      EXPECT_TRUE(fresh) << "`" << name << "` names " << feed.name << " and " << other->second;
      EXPECT_EQ(find_feed(name), &feed) << name;
    }
  }
}

TEST(FeedTable, EveryFeedHasEnergyAndProtein) {
  for (const Feed& feed : feed_table()) {
    EXPECT_TRUE(feed.composition[Nutrient::energy]) << feed.name;
    EXPECT_TRUE(feed.composition[Nutrient::crude_protein]) << feed.name;
  }
}

// What lies in a kilogram cannot weigh more than it. NDF holds some protein and
// starch a second time, and the parts were measured on different samples, hence
// the tolerance.
TEST(FeedTable, PartsOfTheDryMatterAddUpToNoMoreThanTheWhole) {
  constexpr double counted_twice_g = 40.0;
  for (const Feed& feed : feed_table()) {
    double sum = 0.0;
    for (const Nutrient part : {Nutrient::crude_protein, Nutrient::crude_fat, Nutrient::ash,
                                Nutrient::ndf, Nutrient::starch, Nutrient::sugar}) {
      sum += grams_or_nothing(feed, part);
    }
    EXPECT_LE(sum, 1000.0 + counted_twice_g) << feed.name;
  }
}

// Methionine is no part of lysine, but no plant feed here holds more of it.
TEST(FeedTable, PartsAreNoLargerThanWhatTheyArePartsOf) {
  const std::vector<std::pair<Nutrient, Nutrient>> part_of{
      {Nutrient::adf, Nutrient::ndf},           {Nutrient::crude_fibre, Nutrient::ndf},
      {Nutrient::fructan, Nutrient::sugar},     {Nutrient::lysine, Nutrient::crude_protein},
      {Nutrient::methionine, Nutrient::lysine},
  };
  for (const Feed& feed : feed_table()) {
    for (const auto& [part, whole] : part_of) {
      if (!feed.composition[part] || !feed.composition[whole]) continue;
      EXPECT_LE(feed.composition[part]->value, feed.composition[whole]->value)
          << feed.name << ": " << traits_of(part).name << " in " << traits_of(whole).name;
    }
  }
}

TEST(FeedTable, EnergyAgreesWithAnEquationOrTheNoteSaysWhyNot) {
  constexpr double near_mj = 1.5;
  for (const Feed& feed : feed_table()) {
    const double energy = feed.composition[Nutrient::energy].value().value;
    const std::vector<double> equations = energies_by_equation(feed);
    const bool near = std::any_of(equations.begin(), equations.end(), [&](double by_equation) {
      return std::abs(by_equation - energy) <= near_mj;
    });
    const bool nothing_to_compare = equations.empty() || energy == 0.0;
    const bool explained = feed.note.find("equation") != std::string::npos;
    EXPECT_TRUE(near || nothing_to_compare || explained)
        << feed.name << ": " << energy << " MJ, by equations "
        << ::testing::PrintToString(equations);
  }
}

TEST(FeedTable, CalculatedEnergyIsWhatItsEquationGives) {
  constexpr double rounding_mj = 0.0501;
  int compared = 0;
  for (const Feed& feed : feed_table()) {
    const Figure& energy = feed.composition[Nutrient::energy].value();
    std::optional<Worked> again;
    if (energy.source == "pagan-1998") again = pagan_1998(constituents_of(feed));
    if (energy.source == "zeyner-kienzle-2002") again = zeyner_kienzle_2002(constituents_of(feed));
    if (!again) continue;
    EXPECT_NEAR(energy.value, again->value, rounding_mj) << feed.name;
    ++compared;
  }
  EXPECT_GE(compared, 15) << "energies marked as calculated by these equations";
}

TEST(FeedTable, CalciumAndPhosphorusStandAsTheTradeKnowsThem) {
  EXPECT_GT(calcium_to_phosphorus("alfalfa hay"), 3.0);
  EXPECT_GT(calcium_to_phosphorus("alfalfa chaff"), 3.0);
  EXPECT_GT(calcium_to_phosphorus("sugar beet pulp, unmolassed"), 5.0);
  EXPECT_LT(calcium_to_phosphorus("wheat bran"), 0.3);
  EXPECT_LT(calcium_to_phosphorus("rice bran, full fat"), 0.3);
  for (const Feed& feed : feed_table()) {
    if (feed.group != FeedGroup::cereal) continue;
    EXPECT_LT(calcium_to_phosphorus(feed.name), 1.0) << feed.name;
  }
  for (const std::string_view hay :
       {"meadow hay, early cut", "meadow hay", "meadow hay, late cut"}) {
    EXPECT_GT(calcium_to_phosphorus(hay), 1.0) << hay;
  }
}

// Shares of the element's atomic mass in the formula: 22.99 / 58.44 and so on.
TEST(FeedTable, PureSaltsHoldWhatTheirFormulaSays) {
  EXPECT_THAT(known("salt", Nutrient::sodium), DoubleNear(393.4, 1.0));
  EXPECT_THAT(known("salt", Nutrient::chloride), DoubleNear(606.6, 1.0));
  EXPECT_THAT(known("limestone flour", Nutrient::calcium), DoubleNear(0.95 * 400.4, 1.0));
  EXPECT_THAT(known("potassium chloride", Nutrient::potassium), DoubleNear(524.4, 1.0));
  EXPECT_THAT(known("sodium bicarbonate", Nutrient::sodium), DoubleNear(273.7, 1.0));
  EXPECT_THAT(known("magnesium oxide", Nutrient::magnesium), DoubleNear(0.87 * 603.0, 1.0));
  EXPECT_THAT(known("copper sulphate", Nutrient::copper), DoubleNear(254500.0, 100.0));
  // Of the crystals as weighed: MgSO4 with 7 H2O.
  EXPECT_THAT(find_feed("epsom salt")->per_kg_as_fed(Nutrient::magnesium).value(),
              DoubleNear(98.6, 0.5));
}

TEST(FeedTable, TradeNamesFindTheFeedTheyMean) {
  const std::vector<std::pair<std::string_view, std::string_view>> names{
      {"oats", "oats, whole"},
      {"Meadow Hay", "meadow hay, average"},
      {"hay", "meadow hay, average"},
      {"straw", "barley straw"},
      {"sugar beet", "sugar beet pulp, unmolassed"},
      {"beet pulp", "sugar beet pulp, unmolassed"},
      {"lucerne hay", "alfalfa hay"},
      {"alfalfa", "alfalfa hay"},
      {"lucerne chaff", "alfalfa chaff"},
      {"chaff", "alfalfa chaff"},
      {"haylage", "haylage, average"},
      {"barley", "barley, rolled"},
      {"maize", "maize, rolled"},
      {"corn", "maize, rolled"},
      {"soybean hulls", "soya hulls"},
      {"micronised linseed", "linseed, micronised"},
      {"rapeseed oil", "vegetable oil, rapeseed"},
      {"limestone", "limestone flour"},
      {"balancer", "balancer pellet"},
      {"pony nuts", "horse and pony cubes"},
  };
  for (const auto& [word, feed] : names) {
    ASSERT_NE(find_feed(word), nullptr) << word;
    EXPECT_EQ(find_feed(word)->name, feed) << word;
  }
  EXPECT_EQ(find_feed("straws"), nullptr);
  EXPECT_EQ(find_feed(""), nullptr);
}

TEST(FeedTable, NearNamesAreOffered) {
  EXPECT_THAT(near_feed_names("sugar beat"), Contains("sugar beet"));
  EXPECT_THAT(near_feed_names("wheat brann"), Contains("wheat bran"));
}

TEST(FeedTable, KindsCarryTheTraitsThatRulesSpeakOf) {
  EXPECT_TRUE(find_feed("alfalfa chaff")->has(FeedTrait::legume));
  EXPECT_TRUE(find_feed("oats, whole")->has(FeedTrait::grain));
  EXPECT_TRUE(find_feed("horse and pony cubes")->has(FeedTrait::grain));
  EXPECT_TRUE(find_feed("salt")->has(FeedTrait::salt));
  EXPECT_TRUE(find_feed("wheat bran")->has(FeedTrait::bran));
  for (const std::string_view name :
       {"copper sulphate", "zinc oxide", "trace mineral premix", "vitamin E powder"}) {
    EXPECT_TRUE(find_feed(name)->has(FeedTrait::concentrated)) << name;
  }
  for (const Feed& feed : feed_table()) {
    EXPECT_EQ(feed.has(FeedTrait::soak), feed.soaking.has_value()) << feed.name;
    EXPECT_EQ(feed.has(FeedTrait::beet), feed.name.starts_with("sugar beet")) << feed.name;
    if (feed.group != FeedGroup::cereal) continue;
    EXPECT_TRUE(feed.has(FeedTrait::grain)) << feed.name;
  }
}

TEST(FeedTable, BeetPulpIsSoakedInThreePartsOfWater) {
  const Soaking soaking = find_feed("sugar beet pulp, unmolassed")->soaking.value();
  EXPECT_EQ(soaking.water_parts, 3.0);
  EXPECT_EQ(soaking.cold_minutes, 45.0);
  EXPECT_EQ(soaking.warm_minutes, 15.0);
}

TEST(FeedTable, GrassIsAboutFourFifthsWater) {
  for (const Feed& feed : feed_table()) {
    if (feed.group != FeedGroup::grass) continue;
    EXPECT_THAT(feed.dry_matter.value, DoubleNear(200.0, 40.0)) << feed.name;
  }
}

TEST(FeedTable, SupplementsAreDosedAsTheirMakerSays) {
  const DailyMost most = find_feed("balancer pellet")->daily_most.value();
  EXPECT_DOUBLE_EQ(most.amount.in_kg(), 0.5);
  EXPECT_DOUBLE_EQ(most.per.value().in_kg(), 500.0);
  for (const Feed& feed : feed_table()) {
    if (feed.group != FeedGroup::supplement && feed.group != FeedGroup::balancer) continue;
    EXPECT_TRUE(feed.daily_most) << feed.name;
  }
}

// An unknown counts, for a ceiling, as the highest known of its group; among
// minerals that would be the copper of copper sulphate.
TEST(FeedTable, NoMineralLeavesARequiredNutrientUnknown) {
  for (const Feed& feed : feed_table()) {
    if (feed.group != FeedGroup::mineral) continue;
    for (const Nutrient nutrient : required_nutrients()) {
      EXPECT_TRUE(feed.composition[nutrient]) << feed.name << ", " << traits_of(nutrient).name;
    }
  }
}

TEST(FeedTable, ForageHasIodineFromASurveyMarkedEstimatedWhereItIsNotItsOwn) {
  const Figure hay = find_feed("meadow hay")->composition[Nutrient::iodine].value();
  EXPECT_EQ(hay.origin, FigureOrigin::printed);
  const Figure alfalfa = find_feed("alfalfa hay")->composition[Nutrient::iodine].value();
  EXPECT_EQ(alfalfa.origin, FigureOrigin::estimated);
  EXPECT_EQ(alfalfa.value, hay.value);
}

// "| hay | 14 | 159 | 3 | 23 | 109 |": feeds, then figures by origin.
std::string row_of_reference_page(FeedGroup group) {
  std::map<FigureOrigin, int> figures;
  int feeds = 0;
  for (const Feed& feed : feed_table()) {
    if (feed.group != group) continue;
    ++feeds;
    for (const Figure& figure : all_figures(feed)) ++figures[figure.origin];
  }
  std::string row = "| " + std::string{name_of(group)} + " | " + std::to_string(feeds);
  for (const FigureOrigin origin : {FigureOrigin::printed, FigureOrigin::calculated,
                                    FigureOrigin::estimated, FigureOrigin::memory}) {
    row += " | " + std::to_string(figures[origin]);
  }
  return row + " |\n";
}

TEST(FeedTable, ReferencePageCountsItsFiguresRight) {
  std::ifstream file(HAYMOW_SOURCE_DIR "/docs/reference/feed-table.md");
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  for (const FeedGroup group : all_feed_groups()) {
    EXPECT_THAT(page, HasSubstr(row_of_reference_page(group)));
  }
  std::size_t figures = 0;
  for (const Feed& feed : feed_table()) figures += all_figures(feed).size();
  EXPECT_THAT(page, HasSubstr(std::to_string(feed_table().size()) + " feeds and " +
                              std::to_string(figures) + " figures"));
  EXPECT_THAT(page, HasSubstr("from " + std::to_string(bibliography().size()) + " sources"));
}

TEST(FeedTable, SourcesOfNeedsAreInTheBibliography) {
  Horse horse;
  horse.bodyweight = Bodyweight{500};
  Horse overweight = horse;
  overweight.health.insert(HealthState::overweight);
  std::set<std::string> keys;
  for (const Horse& one : {horse, overweight}) {
    for (const Requirement& row : nrc_2007(one).rows) keys.insert(std::string(row.source));
  }
  EXPECT_THAT(keys, ::testing::ElementsAre("argo-2015", "nrc-2007"));
  for (const std::string& key : keys) EXPECT_NE(find_source(key), nullptr) << key;
}

TEST(FeedTable, EveryFeedSaysWhereInTheTablesItStands) {
  for (const Feed& feed : feed_table()) {
    EXPECT_TRUE(feed.position.file.starts_with("feeds/tables/")) << feed.name;
    EXPECT_GT(feed.position.line, 0) << feed.name;
  }
}

}  // namespace
}  // namespace haymow::feed_table_test
