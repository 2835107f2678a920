#include "model/feed.h"

#include <array>
#include <utility>

namespace haymow {
namespace {

constexpr std::array<std::pair<FeedGroup, std::string_view>, 14> group_names{{
    {FeedGroup::grass, "grass"},
    {FeedGroup::hay, "hay"},
    {FeedGroup::haylage, "haylage"},
    {FeedGroup::straw, "straw"},
    {FeedGroup::dried_forage, "dried forage"},
    {FeedGroup::fibre, "fibre"},
    {FeedGroup::cereal, "cereal"},
    {FeedGroup::protein, "protein"},
    {FeedGroup::oil, "oil"},
    {FeedGroup::sweet, "roots, fruit and molasses"},
    {FeedGroup::compound, "compound"},
    {FeedGroup::balancer, "balancer"},
    {FeedGroup::supplement, "supplement"},
    {FeedGroup::mineral, "mineral"},
}};

constexpr std::array<std::pair<FeedTrait, std::string_view>, 11> trait_names{{
    {FeedTrait::legume, "legume"},
    {FeedTrait::beet, "beet"},
    {FeedTrait::bran, "bran"},
    {FeedTrait::linseed, "linseed"},
    {FeedTrait::molassed, "molassed"},
    {FeedTrait::grain, "grain"},
    {FeedTrait::soak, "soak"},
    {FeedTrait::hard, "hard"},
    {FeedTrait::complete, "complete"},
    {FeedTrait::concentrated, "concentrated"},
    {FeedTrait::salt, "salt"},
}};

constexpr std::array<std::pair<FigureOrigin, std::string_view>, 6> origin_names{{
    {FigureOrigin::laboratory, "laboratory"},
    {FigureOrigin::label, "label"},
    {FigureOrigin::printed, "printed"},
    {FigureOrigin::calculated, "calculated"},
    {FigureOrigin::estimated, "estimated"},
    {FigureOrigin::memory, "memory"},
}};

template <class Table, class Key>
std::string_view name_in(const Table& table, Key key) {
  for (const auto& [k, name] : table) {
    if (k == key) return name;
  }
  return "";
}

template <class Table>
auto key_in(const Table& table, std::string_view wanted)
    -> std::optional<typename Table::value_type::first_type> {
  for (const auto& [k, name] : table) {
    if (name == wanted) return k;
  }
  return std::nullopt;
}

}  // namespace

std::string_view name_of(FeedGroup group) { return name_in(group_names, group); }
std::string_view name_of(FeedTrait trait) { return name_in(trait_names, trait); }
std::string_view name_of(FigureOrigin origin) { return name_in(origin_names, origin); }

std::optional<FeedGroup> feed_group_named(std::string_view name) {
  return key_in(group_names, name);
}

std::optional<FeedTrait> feed_trait_named(std::string_view name) {
  return key_in(trait_names, name);
}

std::vector<FeedGroup> all_feed_groups() {
  std::vector<FeedGroup> all;
  all.reserve(group_names.size());
  for (const auto& [group, name] : group_names) all.push_back(group);
  return all;
}

std::vector<FeedTrait> all_feed_traits() {
  std::vector<FeedTrait> all;
  all.reserve(trait_names.size());
  for (const auto& [trait, name] : trait_names) all.push_back(trait);
  return all;
}

std::optional<double> Feed::per_kg_as_fed(Nutrient n) const {
  if (!composition[n]) return std::nullopt;
  return composition[n]->value * dry_matter_share();
}

bool Feed::is_taken_over(const Figure& figure) const {
  const bool own = figure.origin == FigureOrigin::laboratory ||
                   figure.origin == FigureOrigin::label || !figure.how.empty();
  return !based_on.empty() && !own;
}

bool Feed::is_forage() const { return is_long_forage() || group == FeedGroup::dried_forage; }

bool Feed::is_long_forage() const {
  return group == FeedGroup::grass || group == FeedGroup::hay || group == FeedGroup::haylage ||
         group == FeedGroup::straw;
}

}  // namespace haymow
