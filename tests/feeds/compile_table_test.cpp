#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/compile_table_rows.h"
#include "feeds/diagnostic.h"

namespace haymow::compile_table {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr std::string_view two_sources = R"(
- key: book
  title: A book
  year: 1999
  origin: printed
- key: recall
  title: From memory
  year: undated
  origin: memory
)";

constexpr std::string_view sound_feed = R"(
- name: test hay
  also: [hay of the test]
  group: hay
  traits: [legume]
  dry matter: 880 g from book
  per kg dry matter:
    energy: 9.5 MJ from recall
    calcium: 0 g from book
  soaking: {water: 3 parts, cold: 45 min, from: book}
  most a day: 100 g per 500 kg
  bulk density: 0.1 kg/l from book
  note: Says "so".
)";

std::vector<std::string> messages_of(const Findings& findings) {
  std::vector<std::string> messages;
  try {
    findings.throw_if_any();
  } catch (const InputError& error) {
    for (const Diagnostic& d : error.diagnostics()) {
      messages.push_back(std::to_string(d.position.line) + ": " + d.message);
    }
  }
  return messages;
}

/// What the build says about a table of feeds.
std::vector<std::string> mistakes_in(std::string_view feeds, Tables& tables) {
  Findings sources{two_sources, "sources.yaml"};
  read_sources(sources, tables);
  sources.throw_if_any();
  Findings table{feeds, "test.yaml"};
  read_feeds(table, tables);
  return messages_of(table);
}

std::vector<std::string> mistakes_in(std::string_view feeds) {
  Tables tables;
  return mistakes_in(feeds, tables);
}

/// The sound feed with one stretch of text replaced.
std::string with(std::string_view old_text, std::string_view new_text) {
  std::string feed{sound_feed};
  const std::size_t at = feed.find(old_text);
  if (at == std::string::npos) throw std::logic_error("no such text in the sound feed");
  return feed.replace(at, old_text.size(), new_text);
}

TEST(CompileTable, ReadsAFeed) {
  Tables tables;
  ASSERT_THAT(mistakes_in(sound_feed, tables), IsEmpty());
  ASSERT_EQ(tables.feeds.size(), 1U);
  const FeedEntry& feed = tables.feeds[0];
  EXPECT_EQ(feed.name, "test hay");
  EXPECT_EQ(feed.group, FeedGroup::hay);
  EXPECT_EQ(feed.dry_matter.value, 880.0);
  EXPECT_EQ(tables.sources[feed.figures.at(Nutrient::energy).source].key, "recall");
  EXPECT_EQ(feed.figures.at(Nutrient::calcium).value, 0.0) << "a zero is a figure";
  EXPECT_FALSE(feed.figures.contains(Nutrient::phosphorus)) << "not written is not known";
  EXPECT_EQ(feed.soaking->cold_minutes, 45.0);
  EXPECT_FALSE(feed.soaking->warm_minutes);
  EXPECT_DOUBLE_EQ(feed.daily_most_kg.value(), 0.1);
  EXPECT_EQ(feed.daily_most_per_kg, 500.0);
  EXPECT_EQ(feed.position.line, 2);
}

TEST(CompileTable, WritesRowsThatKeepTextAndFigures) {
  Tables tables;
  ASSERT_THAT(mistakes_in(sound_feed, tables), IsEmpty());
  const std::string cpp = as_cpp(tables);
  EXPECT_THAT(cpp, HasSubstr("\"test hay\", also_0"));
  EXPECT_THAT(cpp, HasSubstr("\"Says \\\"so\\\".\""));
  EXPECT_THAT(cpp, HasSubstr("{Nutrient(0), 9.5, 1}"));
  EXPECT_THAT(cpp, HasSubstr("FigureOrigin::memory"));
}

TEST(CompileTable, AFigureWithoutASourceStopsTheBuild) {
  EXPECT_THAT(mistakes_in(with("9.5 MJ from recall", "9.5 MJ")),
              ElementsAre("8: expected `number MJ from source`"));
}

TEST(CompileTable, AnUnknownSourceStopsTheBuild) {
  EXPECT_THAT(mistakes_in(with("9.5 MJ from recall", "9.5 MJ from rumour")),
              ElementsAre("8: source `rumour` is not in sources.yaml"));
}

TEST(CompileTable, AnotherUnitStopsTheBuild) {
  EXPECT_THAT(mistakes_in(with("9.5 MJ", "9.5 Mcal")),
              ElementsAre("8: found `9.5 Mcal`, expected a number in MJ"));
}

TEST(CompileTable, ANegativeFigureStopsTheBuild) {
  EXPECT_THAT(mistakes_in(with("9.5 MJ", "-9.5 MJ")),
              ElementsAre("8: found `-9.5 MJ`, expected a number in MJ"));
}

TEST(CompileTable, AnUnknownNutrientStopsTheBuild) {
  EXPECT_THAT(mistakes_in(with("energy:", "vigour:")),
              ElementsAre("8: `vigour` is not a nutrient"));
}

TEST(CompileTable, OneNutrientUnderTwoNamesStopsTheBuild) {
  EXPECT_THAT(mistakes_in(with("energy: 9.5 MJ",
                               "ndf: 500 g from book\n"
                               "    neutral detergent fibre: 600 g")),
              ElementsAre("9: `neutral detergent fibre` is given twice, under two of its names"));
}

TEST(CompileTable, AnUnknownGroupOrTraitStopsTheBuild) {
  EXPECT_THAT(mistakes_in(with("group: hay", "group: hays")),
              ElementsAre("4: `hays` is not a group"));
  EXPECT_THAT(mistakes_in(with("[legume]", "[lucerne]")),
              ElementsAre("5: `lucerne` is not a trait"));
}

TEST(CompileTable, DryMatterBeyondAKilogramStopsTheBuild) {
  EXPECT_THAT(mistakes_in(with("880 g", "1001 g")),
              ElementsAre("6: dry matter must lie between 1 and 1000 g in a kg"));
}

TEST(CompileTable, TwoFeedsOfOneNameStopTheBuild) {
  const std::string twice =
      std::string{sound_feed} + with("name: test hay", "name: Hay Of The Test");
  const auto mistakes = mistakes_in(twice);
  EXPECT_THAT(mistakes, ::testing::Contains(HasSubstr("already names a feed at test.yaml:")));
}

TEST(CompileTable, ASourceThatNoFigureUsesStopsTheBuild) {
  Tables tables;
  ASSERT_THAT(mistakes_in(with("9.5 MJ from recall", "9.5 MJ from book"), tables), IsEmpty());
  Findings sources{two_sources, "sources.yaml"};
  refuse_unused_sources(sources, tables);
  EXPECT_THAT(messages_of(sources), ElementsAre("6: no figure comes from `recall`"));
}

TEST(CompileTable, ASourceOfTheNeedsNeedsNoFigure) {
  Tables tables;
  Findings sources{
      "- {key: a, title: b, year: 2000, origin: printed, used by: needs}\n"
      "- {key: c, title: d, year: 2000, origin: printed, used by: hearsay}\n",
      "sources.yaml"};
  read_sources(sources, tables);
  refuse_unused_sources(sources, tables);
  EXPECT_THAT(messages_of(sources),
              ElementsAre("2: only `needs` and `own feeds` have sources besides the table"));
}

TEST(CompileTable, ASourceOfUnknownOriginStopsTheBuild) {
  Tables tables;
  Findings sources{"- {key: a, title: b, year: 2000, origin: hearsay}\n", "sources.yaml"};
  read_sources(sources, tables);
  EXPECT_THAT(messages_of(sources), ElementsAre("1: `hearsay` is not an origin"));
}

}  // namespace
}  // namespace haymow::compile_table
