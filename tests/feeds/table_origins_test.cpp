// How the figures of the feed table are known: the aims that
// docs/reference/feed-table.md states. Whether the figures can be true is
// feed_table_test.cpp's question.
#include <gtest/gtest.h>

#include <array>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include "feeds/feed_table.h"

namespace haymow::table_origins_test {
namespace {

constexpr std::array<std::string_view, 10> commonest_feeds{
    "meadow hay, early cut", "meadow hay, late cut", "haylage, average",
    "barley straw",          "alfalfa hay",          "sugar beet pulp, unmolassed",
    "oats, whole",           "barley, rolled",       "wheat bran",
    "soya bean meal",
};

struct Share {
  std::size_t from_memory = 0;
  std::size_t all = 0;
  [[nodiscard]] double percent() const {
    return 100.0 * static_cast<double>(from_memory) / static_cast<double>(all);
  }
};

void count(Share& share, const Figure& figure) {
  ++share.all;
  if (figure.origin == FigureOrigin::memory) ++share.from_memory;
}

/// Every figure of the table, dry matter too.
Share share_of_the_table() {
  Share share;
  for (const Feed& feed : feed_table()) {
    count(share, feed.dry_matter);
    for (const Nutrient nutrient : all_nutrients()) {
      if (feed.composition[nutrient]) count(share, *feed.composition[nutrient]);
    }
  }
  return share;
}

TEST(TableOrigins, LessThanAQuarterOfTheFiguresIsFromMemory) {
  const Share share = share_of_the_table();
  // A table emptied of figures would reach the aim and help nobody.
  EXPECT_GE(share.all, 2387U);
  EXPECT_LT(share.percent(), 25.0);
}

TEST(TableOrigins, WhatTheCommonestFeedsAreFedForIsNotFromMemory) {
  for (const std::string_view name : commonest_feeds) {
    const Feed* feed = find_feed(name);
    ASSERT_NE(feed, nullptr) << name;
    EXPECT_EQ(feed->name, name) << "by its own name, not another's";
    for (const Nutrient nutrient :
         {Nutrient::energy, Nutrient::crude_protein, Nutrient::calcium, Nutrient::phosphorus}) {
      const auto& figure = feed->composition[nutrient];
      ASSERT_TRUE(figure) << name << ", " << traits_of(nutrient).name;
      EXPECT_NE(figure->origin, FigureOrigin::memory)
          << name << ", " << traits_of(nutrient).name << " from " << figure->source;
    }
  }
}

TEST(TableOrigins, TheReferencePageNamesTheCommonestFeeds) {
  std::ifstream file(HAYMOW_SOURCE_DIR "/docs/reference/feed-table.md");
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  for (const std::string_view name : commonest_feeds) {
    EXPECT_NE(page.find("| `" + std::string{name} + "` |"), std::string::npos) << name;
  }
}

}  // namespace
}  // namespace haymow::table_origins_test
