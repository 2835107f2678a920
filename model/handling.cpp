#include "model/handling.h"

#include <algorithm>
#include <array>

#include "model/letter_case.h"

namespace haymow {
namespace {

constexpr std::string_view grev =
    "Grev et al. 2014, J. Equine Vet. Sci. 34:1269 (small bales, outdoors on dirt)";
constexpr std::string_view martinson =
    "Martinson et al. 2011 (round bales), University of Minnesota Extension, feeding horses with "
    "a round-bale feeder";
constexpr std::string_view no_net =
    "no published figure for small nets found: as for a hay rack, common practice, no source";

constexpr std::array ways_to_feed_table{
    HandlingWay{"slat feeder", {0.01, 0.01}, IntakeRange{2.2, 2.2}, grev},
    HandlingWay{"basket feeder", {0.03, 0.03}, IntakeRange{2.4, 2.4}, grev},
    HandlingWay{"hay rack", {0.05, 0.05}, IntakeRange{2.4, 2.4}, grev},
    HandlingWay{"net", {0.05, 0.05}, std::nullopt, no_net},
    HandlingWay{"stable floor",
                {0.07, 0.07},
                std::nullopt,
                "Grev et al. 2014, introduction (small bales, loose in a box), via an equine "
                "nutritionist's page"},
    HandlingWay{"ground", {0.13, 0.13}, IntakeRange{2.2, 2.2}, grev},
    HandlingWay{"field", {0.10, 0.20}, std::nullopt, "trade advice, source not named"},
    HandlingWay{"round bale net", {0.06, 0.06}, IntakeRange{2.4, 2.4}, martinson},
    HandlingWay{"round bale covered cradle", {0.11, 0.11}, IntakeRange{2.4, 2.4}, martinson},
    HandlingWay{"round bale ring", {0.19, 0.19}, IntakeRange{2.1, 2.1}, martinson},
    HandlingWay{"round bale open cradle", {0.33, 0.33}, IntakeRange{2.0, 2.0}, martinson},
    HandlingWay{"round bale without feeder", {0.57, 0.57}, IntakeRange{1.3, 1.3}, martinson},
};

constexpr std::string_view hay_and_forage =
    "hayandforage.com, store round bales properly; beefmagazine.com, cut large bale losses "
    "(round bales, 9 to 12 months)";

constexpr std::array ways_to_store_table{
    HandlingWay{"barn", {0.05, 0.06}, std::nullopt, hay_and_forage},
    HandlingWay{"wrapped", {0.07, 0.07}, std::nullopt, hay_and_forage},
    HandlingWay{"tyres and cover", {0.08, 0.08}, std::nullopt, hay_and_forage},
    HandlingWay{"pad and tarp", {0.10, 0.10}, std::nullopt, hay_and_forage},
    HandlingWay{"net wrap on the ground", {0.19, 0.19}, std::nullopt, hay_and_forage},
    HandlingWay{"gravel pad", {0.20, 0.20}, std::nullopt, hay_and_forage},
    HandlingWay{"ground and cover", {0.29, 0.29}, std::nullopt, hay_and_forage},
    HandlingWay{"outdoors on the ground", {0.25, 0.37}, std::nullopt, hay_and_forage},
};

}  // namespace

std::span<const HandlingWay> ways_to_feed() { return ways_to_feed_table; }
std::span<const HandlingWay> ways_to_store() { return ways_to_store_table; }

const HandlingWay* way_named(std::string_view words, std::span<const HandlingWay> ways) {
  const auto found = std::find_if(ways.begin(), ways.end(), [&](const HandlingWay& way) {
    return same_letters(way.words, words);
  });
  return found == ways.end() ? nullptr : &*found;
}

std::vector<std::string> words_of(std::span<const HandlingWay> ways) {
  std::vector<std::string> words;
  for (const HandlingWay& way : ways) words.emplace_back(way.words);
  return words;
}

bool starves(const HandlingWay& way) {
  return way.intake && way.intake->most_percent < least_forage_percent;
}

KgAsFed to_buy(KgAsFed eaten_a_day, Days days, const Losses& losses) {
  return eaten_a_day * days.in_days() / losses.eaten_of_bought();
}

}  // namespace haymow
