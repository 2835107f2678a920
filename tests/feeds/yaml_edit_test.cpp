// A change to a keeper's file leaves everything else as it stands.
#include "feeds/yaml_edit.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "feeds/findings.h"

namespace haymow::yaml_edit_test {
namespace {

const std::string file =
    "# our yard\n"
    "money: GBP   # pounds\n"
    "horses:\n"
    "  - name: Ash\n"
    "    bodyweight: 540 kg  # weighed\n"
    "    health: [gastric ulcers]\n"
    "  - {name: Birch, bodyweight: 500 kg, work: light}\n"
    "\n"
    "# what is in the barn\n"
    "forage:\n"
    "  - {feed: \"hay, late\", name: 'our ''best'' hay', price: 4.50 per bale}\n";

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  const auto at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  return text.replace(at, what.size(), by);
}

const YamlPath ash_weight{"horses", std::size_t{0}, "bodyweight"};
const YamlPath birch{"horses", std::size_t{1}};

TEST(YamlEdit, PutsATextInThePlaceOfAnotherAndKeepsTheComment) {
  EXPECT_EQ(with_text(file, ash_weight, "555 kg"), replaced(file, "540 kg", "555 kg"));
  EXPECT_EQ(with_text(file, {"horses", std::size_t{1}, "work"}, "very heavy"),
            replaced(file, "light", "very heavy"));
  EXPECT_EQ(with_text(file, {"forage", std::size_t{0}, "name"}, "top hay"),
            replaced(file, "'our ''best'' hay'", "top hay"));
}

TEST(YamlEdit, QuotesWhatWouldBeReadAsSomethingElse) {
  EXPECT_EQ(with_text(file, {"forage", std::size_t{0}, "name"}, "hay, wet"),
            replaced(file, "'our ''best'' hay'", "\"hay, wet\""));
  EXPECT_EQ(with_text(file, {"horses", std::size_t{0}, "name"}, "null"),
            replaced(file, "Ash", "\"null\""));
}

TEST(YamlEdit, PutsInAListAsWritten) {
  EXPECT_EQ(with_yaml(file, {"horses", std::size_t{0}, "health"}, "[PSSM, overweight]"),
            replaced(file, "[gastric ulcers]", "[PSSM, overweight]"));
}

TEST(YamlEdit, RefusesYamlThatBreaksOutOfItsPlace) {
  EXPECT_FALSE(with_yaml(file, {"horses", std::size_t{1}, "work"}, "light, health: [colic]"));
  EXPECT_FALSE(with_yaml(file, {"horses", std::size_t{0}, "health"}, "[PSSM"));
  EXPECT_FALSE(with_text(file, {"horses", std::size_t{7}, "work"}, "light"));
  EXPECT_FALSE(with_text(file, {"horses"}, "light"));
}

TEST(YamlEdit, AddsAnEntryInBracketsAndOnALineOfItsOwn) {
  EXPECT_EQ(with_entry(file, birch, "meals", "3"),
            replaced(file, "work: light", "work: light, meals: 3"));
  EXPECT_EQ(with_entry(file, {"horses", std::size_t{0}}, "meals", "3"),
            replaced(file, "[gastric ulcers]\n", "[gastric ulcers]\n    meals: 3\n"));
}

TEST(YamlEdit, AddsAnItemAfterTheLast) {
  EXPECT_EQ(with_item(file, {"horses"}, "{name: Cedar}"),
            replaced(file, "work: light}\n", "work: light}\n  - {name: Cedar}\n"));
  EXPECT_EQ(with_item(file, {"horses", std::size_t{0}, "health"}, "PPID"),
            replaced(file, "[gastric ulcers]", "[gastric ulcers, PPID]"));
}

TEST(YamlEdit, TakesAwayAnEntryOrAnItemWithItsComment) {
  EXPECT_EQ(without(file, ash_weight), replaced(file, "    bodyweight: 540 kg  # weighed\n", ""));
  EXPECT_EQ(without(file, {"horses", std::size_t{1}, "bodyweight"}),
            replaced(file, "bodyweight: 500 kg, ", ""));
  EXPECT_EQ(without(file, {"horses", std::size_t{1}, "work"}), replaced(file, ", work: light", ""));
  EXPECT_EQ(without(file, birch),
            replaced(file, "  - {name: Birch, bodyweight: 500 kg, work: light}\n", ""));
  EXPECT_EQ(without(file, {"horses", std::size_t{0}}),
            replaced(file,
                     "  - name: Ash\n    bodyweight: 540 kg  # weighed\n    health: [gastric "
                     "ulcers]\n",
                     ""));
}

TEST(YamlEdit, LeavesTheOnlyItemAlone) {
  EXPECT_FALSE(without(file, {"forage", std::size_t{0}}));
  EXPECT_FALSE(without(file, {"horses", std::size_t{0}, "health", std::size_t{0}}));
}

// Whatever is typed into a field, the file holds it after, and nothing else changes.
RC_GTEST_PROP(YamlEdit, HoldsAnyTextThatIsTyped, (const std::string& raw)) {
  std::string words;
  for (const char c : raw) {
    if (static_cast<unsigned char>(c) < 0x7f) words += c;
  }
  RC_PRE(words.size() < 200U);
  const auto text = with_text(file, ash_weight, words);
  RC_ASSERT(text.has_value());
  Findings findings(*text, "");
  const YamlNode root = read_yaml(findings);
  RC_ASSERT(findings.error_count() == 0U);
  RC_ASSERT(value_at(root, ash_weight)->text == words);
  // Back again it is the file, but for the quotes.
  RC_ASSERT(value_at(root, birch)->entries.size() == 3U);
  RC_ASSERT(text->ends_with(file.substr(file.find("  # weighed"))));
}

}  // namespace
}  // namespace haymow::yaml_edit_test
