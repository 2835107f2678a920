// How feed is sold, read as people write it.
#include "feeds/trade_terms.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "feeds/bale_sizes.h"

namespace haymow::trade_terms_test {
namespace {

using ::testing::HasSubstr;

Measure stock(std::string_view text) {
  const auto reading = read_stock(text);
  EXPECT_FALSE(reading.complaint) << text << ": " << reading.complaint->message;
  return reading.value.value_or(Measure{});
}

Price price(std::string_view text) {
  const auto reading = read_price(text);
  EXPECT_FALSE(reading.complaint) << text << ": " << reading.complaint->message;
  return reading.value.value_or(Price{});
}

TEST(TradeTerms, ABaleMayHaveItsSize) {
  const Measure twelve = stock("12 quadrant bales");
  EXPECT_EQ(twelve.packs, 12.0);
  EXPECT_EQ(twelve.pack, "quadrant bale");
  EXPECT_FALSE(twelve.kg);
  EXPECT_EQ(stock("12 quadrant bales of 300 kg").kg, 3600.0);
  EXPECT_EQ(price("45 per 300 kg quadrant bale").measure.kg_per_pack, 300.0);
}

// A size that begins with a digit is not a number of bales.
TEST(TradeTerms, ASizeInFeetOrCentimetresIsNotACount) {
  EXPECT_EQ(price("55 per 4x5 round bale").measure.packs, 1.0);
  EXPECT_EQ(price("55 per 4x5 round bale").measure.pack, "4x5 round bale");
  EXPECT_EQ(price("55 per 4x5 round bale of 300 kg").measure.kg, 300.0);
  EXPECT_EQ(stock("7 80x90 bales").packs, 7.0);
  EXPECT_EQ(stock("7 80x90 bales").pack, "80x90 bale");
  EXPECT_NEAR(*stock("7 4x4 round bales of 500 lb").kg, 7 * 500 * 0.45359237, 1e-9);
}

TEST(TradeTerms, SmallBulkIsALoadOrABulkBag) {
  EXPECT_EQ(price("90 per load of 600 kg").measure.kg, 600.0);
  EXPECT_EQ(price("210 per 500 kg bulk bag").measure.kg, 500.0);
  EXPECT_EQ(price("180 per tonne").measure.kg, 1000.0);
  EXPECT_EQ(read_delivery("35 per load of 2 t").value->measure.kg, 2000.0);
}

TEST(TradeTerms, NothingIsNotAPack) {
  for (const char* text : {"4.50 per 0 kg bale", "4.50 per bale of 0 kg", "35 per load of 0 t"}) {
    const auto reading = read_price(text);
    ASSERT_TRUE(reading.complaint) << text;
    EXPECT_THAT(reading.complaint->message, HasSubstr("is zero; expected more"));
  }
}

TEST(TradeTerms, ANearSizeOfBaleIsSuggested) {
  const auto reading = read_price("45 per quadrnt bale");
  ASSERT_TRUE(reading.complaint);
  EXPECT_EQ(reading.complaint->message, "`quadrnt bale` is not a size of bale haymow knows");
  EXPECT_EQ(reading.complaint->help, "did you mean `quadrant bale`?");
}

TEST(TradeTerms, ADeliveryWithoutWhatItBringsIsRefused) {
  const auto reading = read_delivery("35");
  ASSERT_TRUE(reading.complaint);
  EXPECT_THAT(reading.complaint->help, HasSubstr("35 per load of 2 t"));
}

// A British hay farm's page of bale sizes: conventional 18 to 20 kg, quadrant 250 to
// 350, three-quarter 400 to 500, full 500 to 550. United States pages: round 4x4
// 512 lb as made, 461 after a tenth is lost.
TEST(BaleSizes, AreThePublishedRanges) {
  const auto is = [](const char* words, double least_kg, double most_kg) {
    const BaleSize* size = bale_size(words, FeedGroup::hay);
    ASSERT_NE(size, nullptr) << words;
    EXPECT_NEAR(size->least.in_kg(), least_kg, 0.01) << words;
    EXPECT_NEAR(size->most.in_kg(), most_kg, 0.01) << words;
  };
  is("small bale", 18, 20);
  is("quadrant bale", 250, 350);
  is("120x90 bale", 400, 500);
  is("120x120 bale", 500, 550);
  is("4x4 round bale", 209.11, 232.24);
  EXPECT_EQ(bale_size("quadrant bale", FeedGroup::straw), nullptr) << "nothing is published";
}

TEST(BaleSizes, HaveARangeASourceAndOneRowEach) {
  std::set<std::pair<std::string, FeedGroup>> seen;
  for (const BaleSize& size : bale_sizes()) {
    EXPECT_TRUE(seen.emplace(size.words, size.group).second) << size.words;
    EXPECT_GT(size.least, KgAsFed{}) << size.words;
    EXPECT_LE(size.least, size.most) << size.words;
    EXPECT_FALSE(size.source.empty()) << size.words;
  }
  // A bale without a size may be any small one: its light end is nobody's heavier.
  for (const char* small : {"small bale", "two-string bale"}) {
    EXPECT_LE(bale_size("bale", FeedGroup::hay)->least.in_kg(),
              bale_size(small, FeedGroup::hay)->least.in_kg() + 1e-9);
    EXPECT_GE(bale_size("bale", FeedGroup::hay)->most, bale_size(small, FeedGroup::hay)->most);
  }
}

}  // namespace
}  // namespace haymow::trade_terms_test
