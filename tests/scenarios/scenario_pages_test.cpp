// The pages about the scenario file say what the reader does.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cctype>
#include <sstream>
#include <string>
#include <vector>

#include "feeds/declared_composition.h"
#include "feeds/plain_text.h"
#include "model/feed.h"
#include "model/stable.h"
#include "scenarios/scenario_keys.h"
#include "tests/scenarios/message_page.h"

namespace haymow::scenario_pages_test {
namespace {

using ::testing::HasSubstr;

const std::string& page() {
  static const std::string text =
      test_files::text_at(std::string(HAYMOW_SOURCE_DIR) + "/docs/reference/scenario-file.md");
  return text;
}

/// The words of the first column under a heading of the second level.
std::vector<std::string> keys_under(const std::string& heading) {
  std::vector<std::string> keys;
  std::istringstream lines(page());
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("#")) inside = line == "## " + heading;
    if (!inside || !line.starts_with("| `")) continue;
    keys.push_back(line.substr(3, line.find('`', 3) - 3));
  }
  return keys;
}

TEST(ScenarioFilePage, HasEveryKeyAndNoOther) {
  for (const KeyGroup& group : key_groups()) {
    std::string heading(group.name);
    heading[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(heading[0])));
    const std::vector<std::string> keys(group.keys.begin(), group.keys.end());
    EXPECT_THAT(keys_under(heading), ::testing::UnorderedElementsAreArray(keys)) << heading;
  }
}

TEST(ScenarioFilePage, HasEveryWordOfAnAnalysis) {
  const std::string plain = lower_case(page());  // letter case is the writer's choice
  for (const CompositionWord& word : composition_words()) {
    EXPECT_THAT(plain, HasSubstr(ticked(lower_case(word.word))));
  }
}

TEST(ScenarioFilePage, HasEveryGroupTraitAndHealthState) {
  for (const FeedGroup group : all_feed_groups()) {
    EXPECT_THAT(page(), HasSubstr(ticked(name_of(group))));
  }
  for (const FeedTrait trait : all_feed_traits()) {
    EXPECT_THAT(page(), HasSubstr(ticked(name_of(trait))));
  }
  for (const HealthState state : all_health_states()) {
    EXPECT_THAT(page(), HasSubstr(ticked(name_of(state))));
  }
}

TEST(MessagesPage, GapsStandForSomething) {
  EXPECT_TRUE(message_page::fits("oats has no unit", "... has no unit"));
  EXPECT_TRUE(message_page::fits("a is not b of c", "... is not ..."));
  EXPECT_FALSE(message_page::fits(" has no unit", "... has no unit; ..."));
  EXPECT_FALSE(message_page::fits("oats has no unit!", "... has no unit"));
  EXPECT_FALSE(message_page::explains("the cat is on the mat"));
}

}  // namespace
}  // namespace haymow::scenario_pages_test
