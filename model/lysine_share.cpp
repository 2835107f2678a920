#include "model/lysine_share.h"

#include <fmt/format.h>

#include <string_view>

namespace haymow {
namespace {

struct LysineShare {
  double percent;  // of crude protein
  std::string_view kind;
  std::string_view source;  // key of the bibliography
};

// Where the published shares of a kind differ, the lowest: lysine has a floor only.
constexpr LysineShare fresh_legume{5.5, "fresh alfalfa", "feedipedia-alfalfa"};
constexpr LysineShare legume_hay{4.3, "alfalfa hay", "feedipedia-alfalfa"};
constexpr LysineShare dried_legume{4.7, "dehydrated alfalfa", "feedipedia-alfalfa"};
// British laboratories 3.5, INRA from memory 4.2.
constexpr LysineShare grass_forage{3.5, "grass forage", "lysine-share"};
constexpr LysineShare beet{6.0, "beet pulp", "inrae-memory"};
// Wheat bran 3.9, rice bran 4.6 to 4.8.
constexpr LysineShare bran{3.9, "wheat bran", "inrae-memory"};
// 3.6 to 4.6.
constexpr LysineShare linseed{3.6, "linseed", "inrae-memory"};
// Maize 2.6 to 3.0, wheat 2.9, barley 3.7, oats 4.2.
constexpr LysineShare of_cereals{2.6, "maize, the lowest of cereals", "inrae-memory"};

std::optional<LysineShare> share_of_kind(const Feed& feed) {
  if (feed.has(FeedTrait::beet)) return beet;
  if (feed.has(FeedTrait::bran)) return bran;
  if (feed.has(FeedTrait::linseed)) return linseed;
  const bool is_legume = feed.has(FeedTrait::legume);
  switch (feed.group) {
    case FeedGroup::grass:
      return is_legume ? fresh_legume : grass_forage;
    case FeedGroup::hay:
    case FeedGroup::haylage:
      return is_legume ? legume_hay : grass_forage;
    case FeedGroup::dried_forage:
      return is_legume ? dried_legume : grass_forage;
    case FeedGroup::cereal:
      return of_cereals;
    default:
      return std::nullopt;
  }
}

}  // namespace

std::optional<Figure> estimated_lysine(const Feed& feed, const Feed* base) {
  const auto& protein = feed.composition[Nutrient::crude_protein];
  if (!protein) return std::nullopt;
  if (base != nullptr) {
    const auto& its_protein = base->composition[Nutrient::crude_protein];
    const auto& its_lysine = base->composition[Nutrient::lysine];
    if (its_protein && its_lysine && its_protein->value > 0.0) {
      const double share = its_lysine->value / its_protein->value;
      return Figure{
          share * protein->value, FigureOrigin::estimated, its_lysine->source,
          fmt::format("{:.1f} % of the crude protein, as in {}", 100.0 * share, base->name)};
    }
  }
  const auto share = share_of_kind(feed);
  if (!share) return std::nullopt;
  return Figure{
      share->percent / 100.0 * protein->value, FigureOrigin::estimated, std::string(share->source),
      fmt::format("{:.1f} % of the crude protein, as in {}", share->percent, share->kind)};
}

}  // namespace haymow
