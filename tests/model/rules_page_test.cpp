// The page of rules says what the table says: every row, every change.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "model/rules.h"

namespace haymow::rules_page_test {
namespace {

using Cells = std::vector<std::string>;

// The cells of a row "| a | b |", without the blanks around them.
Cells cells_of(const std::string& line) {
  Cells cells;
  std::size_t begin = 1;
  for (std::size_t end = line.find('|', begin); end != std::string::npos;
       end = line.find('|', begin)) {
    const std::string cell = line.substr(begin, end - begin);
    const auto first = cell.find_first_not_of(' ');
    cells.push_back(first == std::string::npos
                        ? ""
                        : cell.substr(first, cell.find_last_not_of(' ') - first + 1));
    begin = end + 1;
  }
  return cells;
}

// The rows of the tables under the heading `## title`, headings of tables left out.
std::vector<Cells> rows_under(const std::string& title) {
  std::ifstream page(std::string(HAYMOW_SOURCE_DIR) + "/docs/reference/rules.md");
  std::vector<Cells> rows;
  bool inside = false;
  for (std::string line; std::getline(page, line);) {
    if (line.starts_with("## ")) inside = line == "## " + title;
    if (!inside || !line.starts_with('|')) continue;
    if (line.starts_with("|---")) {
      rows.pop_back();  // what was read before it is the table's heading
    } else {
      rows.push_back(cells_of(line));
    }
  }
  return rows;
}

std::string quoted(std::string_view id) { return fmt::format("`{}`", id); }

std::set<std::string> rule_ids() {
  std::set<std::string> ids;
  for (const Rule& rule : rule_table()) ids.insert(quoted(rule.id));
  return ids;
}

// A change of one horse's limits against an idle healthy one's: rule and limit in print.
using Change = std::pair<std::string, std::string>;

std::vector<Change> changes_of(const Horse& horse) {
  const auto limits = limits_for(horse);
  std::vector<Change> changes;
  for (const Rule& rule : rule_table()) {
    const Limit* limit = find_limit(limits, rule.id);
    if (limit == nullptr && rule.number) changes.emplace_back(quoted(rule.id), "lifted");
    if (limit != nullptr && !limit->because.empty()) {
      changes.emplace_back(quoted(rule.id), fmt::format("{:g} {}", limit->number, rule.unit));
    }
  }
  return changes;
}

std::vector<Change> changes_in_print(const std::string& title, const std::string& name) {
  std::vector<Change> changes;
  for (const Cells& row : rows_under(title)) {
    if (row.at(0) == name) changes.emplace_back(row.at(1), row.at(2));
  }
  return changes;
}

std::set<std::string> names_in_print(const std::string& title) {
  std::set<std::string> names;
  for (const Cells& row : rows_under(title)) names.insert(row.at(0));
  return names;
}

Horse horse(LifeStage stage) {
  Horse h;
  h.name = "Test";
  h.bodyweight = Bodyweight{500.0};
  h.stage = stage;
  return h;
}

TEST(RulesPage, HasEveryRowOfTheTableAndNoOther) {
  std::vector<Cells> expected;
  for (const Rule& rule : rule_table()) {
    const std::string limit = rule.number ? fmt::format("{:g}", *rule.number) : "none,";
    expected.push_back({quoted(rule.id), fmt::format("{} {}", limit, rule.unit),
                        std::string(name_of(rule.strength)),
                        rule.absolute ? fmt::format("{:g}", *rule.absolute) : "-",
                        rule.forced ? "yes" : "judged", std::string(rule.sentence),
                        std::string(rule.source)});
  }
  EXPECT_THAT(rows_under("The table"), testing::UnorderedElementsAreArray(expected));
}

TEST(RulesPage, HasEveryChangeOfALifeStage) {
  const std::string title = "What a life stage changes";
  const std::vector<std::pair<std::string, LifeStage>> stages{
      {"light work", Working{WorkLevel::light}},
      {"moderate work", Working{WorkLevel::moderate}},
      {"heavy work", Working{WorkLevel::heavy}},
      {"very heavy work", Working{WorkLevel::very_heavy}},
      {"pregnant, month 9 to 11", Pregnant{9}},
      {"pregnant, month 9 to 11", Pregnant{11}},
      {"in milk", Lactating{1}},
      {"growing, under 12 months", Growing{6.0, {}}},
      {"growing, 12 months and over", Growing{12.0, {}}},
  };
  std::set<std::string> names;
  for (const auto& [name, stage] : stages) {
    names.insert(name);
    EXPECT_THAT(changes_in_print(title, name),
                testing::UnorderedElementsAreArray(changes_of(horse(stage))))
        << name;
  }
  EXPECT_EQ(names_in_print(title), names);
  for (const LifeStage& stage :
       {LifeStage{Idle{}}, LifeStage{Stallion{true}}, LifeStage{Pregnant{8}}}) {
    EXPECT_THAT(changes_of(horse(stage)), testing::IsEmpty()) << describe(stage);
  }
}

TEST(RulesPage, HasEveryChangeOfAHealthState) {
  const std::string title = "What a health state changes";
  std::set<std::string> names;
  for (const HealthState state : all_health_states()) {
    Horse h = horse(Idle{});
    h.health = {state};
    const auto changes = changes_of(h);
    const std::string name(name_of(state));
    if (!changes.empty()) names.insert(name);
    EXPECT_THAT(changes_in_print(title, name), testing::UnorderedElementsAreArray(changes)) << name;
  }
  EXPECT_EQ(names_in_print(title), names);
}

TEST(RulesPage, OtherFiguresAreOfRulesThatExist) {
  const auto ids = rule_ids();
  for (const Cells& row : rows_under("Where the sources disagree")) {
    EXPECT_TRUE(ids.contains(row.at(0))) << row.at(0);
  }
}

}  // namespace
}  // namespace haymow::rules_page_test
