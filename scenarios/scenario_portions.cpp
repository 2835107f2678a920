#include "scenarios/scenario_portions.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

// More than anyone mixes into one bucket (common practice, no source).
constexpr double most_in_the_bucket = 12.0;
// Shares are written in whole per cents or tenths.
constexpr double share_tolerance = 0.05;

struct PortionKey {
  std::string_view key;
  std::string_view word;  // in the report
  bool long_forage;
};
constexpr std::array portion_keys{PortionKey{"scoop", "scoop", false},
                                  PortionKey{"slice", "slice", true},
                                  PortionKey{"whole bale", "bale", true}};

struct WrittenShare {
  const YamlNode* node;
  std::string name;
  std::string text;
};

// `[20 %, 40 %, 40 %]`, or `{breakfast: 20 %, supper: 80 %}`.
std::vector<WrittenShare> written_shares(const YamlNode& value, Findings& findings) {
  std::vector<WrittenShare> shares;
  for (const YamlEntry& meal : value.entries) {
    const auto name = name_in(meal.key, "a meal", findings);
    const auto text = text_of(meal.value, "the share of a meal, such as `20 %`", findings);
    if (name && text) shares.push_back({&meal.value, *name, *text});
  }
  if (value.kind == YamlKind::map) return shares;
  for (const auto& [node, text] : words_in(value, "meals", "[20 %, 40 %, 40 %]", findings)) {
    shares.push_back({node, fmt::format("meal {}", shares.size() + 1), text});
  }
  return shares;
}

void read_meal_shares(const YamlEntry& entry, Horse& horse, Findings& findings) {
  std::vector<MealShare> meals;
  double sum = 0.0;
  const std::size_t before = findings.error_count();
  for (const WrittenShare& meal : written_shares(entry.value, findings)) {
    const auto percent =
        accepted(read_amount(meal.text, percentage(), Sign::positive), *meal.node, findings);
    if (!percent) return;
    meals.push_back({meal.name, *percent / 100.0});
    sum += *percent;
  }
  if (findings.error_count() > before) return;  // a meal left out would be the sum's fault
  if (meals.empty()) return;                    // reported by words_in, or an empty list
  if (meals.size() > std::size_t{most_meals}) {
    findings.error(entry.value.span, {fmt::format("{} meals a day are more than 6", meals.size()),
                                      "write at most six shares", ""});
  } else if (std::abs(sum - 100.0) > share_tolerance) {
    findings.error(entry.value.span,
                   {fmt::format("the shares of the meals add up to {:.4g} %", sum),
                    "write shares that add up to 100 %, such as `[20 %, 40 %, 40 %]`", ""});
  } else {
    for (MealShare& meal : meals) meal.share *= 100.0 / sum;
    horse.meals = static_cast<int>(meals.size());
    horse.meal_shares = std::move(meals);
  }
}

void read_bucket_feeds(const MapReader& map, Horse& horse, Findings& findings) {
  const YamlEntry* entry = map.find("bucket feeds");
  if (entry == nullptr) return;
  const auto text = text_of(entry->value, "`bucket feeds`", findings);
  if (!text) return;
  const auto value = accepted(read_bare_number(*text), entry->value, findings);
  if (!value) return;
  if (*value < 1.0 || *value > most_in_the_bucket || *value != std::floor(*value)) {
    findings.error(entry->value.span,
                   {fmt::format("`bucket feeds` of {} is not a whole number from 1 to 12", *text),
                    "write how many feeds, minerals included, go into the bucket at most", ""});
    return;
  }
  horse.bucket_feeds = static_cast<int>(*value);
}

}  // namespace

void read_whole_portion(const MapReader& map, Offer& offer, Findings& findings) {
  for (const PortionKey& portion : portion_keys) {
    const auto kg = map.amount(portion.key, feed_amount());
    if (!kg) continue;
    const YamlEntry& entry = *map.find_quietly(portion.key);
    if (offer.fed_in) {
      findings.error(entry.key.span, {fmt::format("`{}` and a {} do not go together", portion.key,
                                                  offer.fed_in->word),
                                      "keep the one the feed is dealt out by", ""});
      return;
    }
    if (portion.long_forage != offer.feed.is_long_forage()) {
      findings.error(
          entry.key.span,
          {portion.long_forage ? fmt::format("`{}` is for hay, haylage and straw", portion.key)
                               : "`scoop` is for what goes into the bucket",
           portion.long_forage ? "write `scoop: 1.4 kg`"
                               : "write `slice: 2.2 kg` or `whole bale: 18 kg`",
           ""});
      return;
    }
    offer.fed_in = WholePortion{KgAsFed{*kg}, std::string(portion.word)};
  }
}

void read_portions_of_day(const MapReader& map, Horse& horse, Findings& findings) {
  const YamlEntry* meals = map.find_quietly("meals");
  const bool shares = meals != nullptr &&
                      (meals->value.kind == YamlKind::list || meals->value.kind == YamlKind::map);
  if (shares) {
    read_meal_shares(*map.find("meals"), horse, findings);
  }
  read_bucket_feeds(map, horse, findings);
}

}  // namespace haymow
