// A merchant's price list: what is read, and the whole message for each mistake. Each
// price_lists/NAME.yaml has one mistake; NAME.txt beside it is what is said of it.
// HAYMOW_UPDATE=1 in the environment writes NAME.txt: read it before committing.
#include "scenarios/price_list.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "tests/scenarios/files.h"
#include "tests/scenarios/message_page.h"

namespace haymow::price_list_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

Scenario yard() {
  return read_scenario(
      "money: GBP\n"
      "season: {from: 2026-11-01, until: 2027-04-20}\n"
      "horses: [{name: Fern, bodyweight: 500 kg, work: light}]\n"
      "forage:\n"
      "  - {feed: 'meadow hay, average', name: our hay, price: 200 per tonne}\n"
      "market:\n"
      "  - {feed: 'oats, rolled', name: oats, price: 12.60 per 20 kg bag}\n",
      "yard.yaml");
}

std::vector<std::string> list_names() {
  std::vector<std::string> names;
  for (const auto& file : std::filesystem::directory_iterator(test_files::path_of("price_lists"))) {
    if (file.path().extension() == ".yaml") names.push_back(file.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

class PriceListMistake : public ::testing::TestWithParam<std::string> {};

TEST_P(PriceListMistake, IsSaidOnceInFull) {
  const std::string name = "price_lists/" + GetParam();
  std::vector<Diagnostic> found;
  try {
    (void)read_price_list(test_files::text_of(name + ".yaml"), GetParam() + ".yaml", yard());
  } catch (const InputError& error) {
    found = error.diagnostics();
  }
  ASSERT_EQ(found.size(), 1U);
  const std::string said = std::string(InputError(found).what()) + "\n";
  if (std::getenv("HAYMOW_UPDATE") != nullptr) {
    std::ofstream(test_files::path_of(name + ".txt"), std::ios::binary) << said;
  }
  EXPECT_EQ(found[0].severity, Severity::error);
  EXPECT_FALSE(found[0].help.empty()) << "how to mend it is missing";
  EXPECT_TRUE(message_page::explains(found[0].message))
      << found[0].message << ": not in docs/reference/messages.md";
  EXPECT_EQ(said, test_files::text_of(name + ".txt"));
}

INSTANTIATE_TEST_SUITE_P(Files, PriceListMistake, ::testing::ValuesIn(list_names()),
                         [](const auto& file) { return file.param; });

TEST(PriceList, IsReadAsTheMarketOfAScenarioIs) {
  const PriceList list = read_price_list(
      "money: GBP\nmarket:\n"
      "  - {feed: 'oats, rolled', name: oats, price: 11.00 per 20 kg bag, delivery: 1 per bag}\n"
      "  - {feed: salt, price: 11.00 per 25 kg bag}\n",
      "list.yaml", yard());
  ASSERT_EQ(list.offers.size(), 2U);
  EXPECT_EQ(list.offers[0].name, "oats");
  EXPECT_FALSE(list.offers[0].own);
  EXPECT_NEAR(list.offers[0].price_per_kg.in_units(), 0.55, 1e-12);
  EXPECT_NEAR(list.offers[0].delivery_per_kg.in_units(), 0.05, 1e-12);
  EXPECT_EQ(list.offers[1].position.file, "list.yaml");
  EXPECT_EQ(list.offers[1].position.line, 4);
  EXPECT_TRUE(list.remarks.empty());
}

TEST(PriceList, NamesItsFileInWhatItHadToAssume) {
  const PriceList list = read_price_list(
      "money: GBP\nmarket:\n  - {feed: oat straw, price: 3.00 per bale}\n", "list.yaml", yard());
  ASSERT_EQ(list.remarks.size(), 1U);
  EXPECT_THAT(list.remarks[0].message, HasSubstr("list.yaml: what a bale"));
}

TEST(PriceList, TellsAllMistakesAtOnceInTheOrderOfTheFile) {
  try {
    (void)read_price_list(
        "money: EUR\nmarket:\n  - {feed: oat straw, name: our hay, price: 3.00 per 12 kg bale}\n"
        "  - {feed: salt}\n",
        "list.yaml", yard());
    FAIL() << "three mistakes passed";
  } catch (const InputError& error) {
    std::vector<int> lines;
    for (const Diagnostic& d : error.diagnostics()) lines.push_back(d.position.line);
    EXPECT_THAT(lines, ElementsAre(1, 3, 4));
  }
}

}  // namespace
}  // namespace haymow::price_list_test
