#include "scenarios/limit_names.h"

#include <algorithm>
#include <array>
#include <utility>

#include "feeds/plain_text.h"
#include "model/nutrient.h"
#include "model/rules.h"

namespace haymow {
namespace {

struct RuleName {
  std::string_view id;
  std::string_view name;
};

// One name a rule; the words a yard says, not those of the table.
constexpr std::array rule_names{
    RuleName{"energy/max", "energy margin"},
    RuleName{"energy/min", "energy need"},
    RuleName{"forage/min", "forage"},
    RuleName{"forage_share/min", "forage share"},
    RuleName{"long_forage/min", "long forage"},
    RuleName{"straw_share/max", "straw share"},
    RuleName{"straw/max", "straw"},
    RuleName{"legume_share/max", "alfalfa share"},
    RuleName{"beet_share/max", "beet pulp"},
    RuleName{"by_product_share/max", "by-product fibre"},
    RuleName{"starch_day/max", "starch a day"},
    RuleName{"starch_meal/max", "starch a meal"},
    RuleName{"nsc_share/max", "NSC"},
    RuleName{"nsc_energy/max", "NSC energy"},
    RuleName{"fat_share/max", "fat"},
    RuleName{"meal_size/max", "meal size"},
    RuleName{"intake/max", "appetite"},
    RuleName{"ndf/max", "coarse fibre"},
    RuleName{"soaked/max", "soaked feed"},
    RuleName{"oil/max", "oil"},
    RuleName{"bran/max", "bran"},
    RuleName{"linseed/max", "linseed"},
    RuleName{"protein_feed/max", "protein feed"},
    RuleName{"mineral/max", "minerals"},
    RuleName{"salt_share/max", "salt"},
    RuleName{"grain/max", "cereals"},
    RuleName{"ca_p/min", "calcium to phosphorus"},
};

constexpr std::array other_words{
    RuleName{"energy/max", "energy"},
    RuleName{"energy/max", "energy ceiling"},
    RuleName{"forage_share/min", "share of forage"},
    RuleName{"forage/min", "forage floor"},
    RuleName{"straw_share/max", "share of straw"},
    RuleName{"legume_share/max", "alfalfa"},
    RuleName{"starch_day/max", "starch"},
    RuleName{"starch_day/max", "starch in a day"},
    RuleName{"starch_meal/max", "starch in a meal"},
    RuleName{"nsc_share/max", "sugar and starch"},
    RuleName{"nsc_share/max", "starch and sugar"},
    RuleName{"meal_size/max", "size of a meal"},
    RuleName{"intake/max", "intake"},
    RuleName{"ndf/max", "NDF"},
    RuleName{"beet_share/max", "beet"},
    RuleName{"grain/max", "grain"},
};

constexpr std::string_view bucket_feeds = "bucket feeds";
constexpr std::string_view number_of_bucket_feeds = "number of bucket feeds";

std::vector<LimitName> all_names() {
  std::vector<LimitName> names;
  for (const auto& [id, name] : rule_names) names.push_back({std::string(name), std::string(id)});
  names.push_back({std::string(bucket_feeds), ""});
  for (const Nutrient n : required_nutrients()) {
    const NutrientTraits& traits = traits_of(n);
    const std::string ceiling = std::string(traits.key) + "/max";
    if (n != Nutrient::energy) {
      names.push_back({std::string(traits.name), std::string(traits.key) + "/min"});
    }
    if (find_rule(ceiling) != nullptr) {
      names.push_back({std::string(traits.name) + " ceiling", ceiling});
    }
  }
  return names;
}

std::string plain(std::string_view words) {
  std::string text = lower_case(words);
  if (text.starts_with("the ")) text.erase(0, 4);
  return text;
}

}  // namespace

const std::vector<LimitName>& limit_names() {
  static const std::vector<LimitName> names = all_names();
  return names;
}

std::optional<LimitName> limit_named(std::string_view words) {
  const std::string asked = plain(words);
  for (const LimitName& known : limit_names()) {
    if (asked == lower_case(known.name) || (!known.id.empty() && asked == known.id)) return known;
  }
  if (asked == number_of_bucket_feeds) return limit_named(bucket_feeds);
  for (const auto& [id, name] : other_words) {
    if (asked == lower_case(name)) return limit_named(id);
  }
  return std::nullopt;
}

}  // namespace haymow
