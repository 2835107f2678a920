#include "feeds/bale_sizes.h"

#include <algorithm>
#include <array>
#include <numbers>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

constexpr KgAsFed kg(double amount) { return KgAsFed{amount}; }
constexpr KgAsFed lb(double amount) { return KgAsFed{amount * kg_per_lb}; }

constexpr std::string_view hay_farm = "a British hay farm's page of bale sizes, undated";
constexpr std::string_view us_pages = "United States pages of bale weights";
constexpr std::string_view both =
    "a British hay farm's page of bale sizes (18 to 20 kg) and United States pages of bale weights "
    "(40 to 75 lb)";
constexpr std::string_view both_big =
    "a British hay farm's page of bale sizes (240 to 550 kg) and United States pages of bale "
    "weights (800 to 2,000 lb)";
constexpr std::string_view both_round =
    "from memory for a British bale of 1.2 m (150 to 250 kg); United States pages of bale weights "
    "(461 to 1,500 lb)";
constexpr std::string_view memory = "from memory";

/// As stacked, without gaps [m3]. British sizes as the hay farm's page prints them;
/// American ones are what their names say, in feet; a round bale by width x diameter.
constexpr std::optional<double> m3(double a, double b, double c) { return a * b * c; }
constexpr double ft = 0.3048;  // by definition
constexpr std::optional<double> rolled(double width, double diameter) {
  return width * std::numbers::pi * diameter * diameter / 4.0;
}
constexpr std::optional<double> unknown = std::nullopt;

constexpr auto hay = FeedGroup::hay;
constexpr auto straw = FeedGroup::straw;
constexpr auto haylage = FeedGroup::haylage;

// British big bales are named by width x height in cm, 240 cm long; a quadrant is
// 120 x 70. American ones by feet; a round bale by width x diameter.
constexpr std::array sizes{
    BaleSize{"bale", hay, kg(18), lb(75), both, m3(1.0, 0.4, 0.3)},
    BaleSize{"small bale", hay, kg(18), kg(20), hay_farm, m3(1.0, 0.4, 0.3)},
    BaleSize{"two-string bale", hay, lb(40), lb(75), us_pages, unknown},
    BaleSize{"three-string bale", hay, lb(100), lb(100), us_pages, unknown},
    BaleSize{"quadrant bale", hay, kg(250), kg(350), hay_farm, m3(1.2, 0.7, 2.4)},
    BaleSize{"80x90 bale", hay, kg(240), kg(290), hay_farm, m3(0.8, 0.9, 2.4)},
    BaleSize{"120x90 bale", hay, kg(400), kg(500), hay_farm, m3(1.2, 0.9, 2.4)},
    BaleSize{"120x120 bale", hay, kg(500), kg(550), hay_farm, m3(1.2, 1.2, 2.4)},
    BaleSize{"3x3x8 bale", hay, lb(800), lb(2000), us_pages, m3(3 * ft, 3 * ft, 8 * ft)},
    BaleSize{"4x4x8 bale", hay, lb(800), lb(2000), us_pages, m3(4 * ft, 4 * ft, 8 * ft)},
    BaleSize{"big square bale", hay, kg(240), lb(2000), both_big, unknown},
    BaleSize{"round bale", hay, kg(150), lb(1500), both_round, rolled(1.2, 1.2)},
    BaleSize{"4x4 round bale", hay, lb(461), lb(512), us_pages, rolled(4 * ft, 4 * ft)},
    BaleSize{"4x5 round bale", hay, lb(720), lb(1000), us_pages, rolled(4 * ft, 5 * ft)},
    BaleSize{"4x6 round bale", hay, lb(1037), lb(1153), us_pages, rolled(4 * ft, 6 * ft)},
    BaleSize{"5x5 round bale", hay, lb(900), lb(1000), us_pages, rolled(5 * ft, 5 * ft)},
    BaleSize{"5x6 round bale", hay, lb(1000), lb(1500), us_pages, rolled(5 * ft, 6 * ft)},
    BaleSize{"bale", straw, kg(10), kg(14), memory, m3(1.0, 0.4, 0.3)},
    BaleSize{"small bale", straw, kg(10), kg(14), memory, m3(1.0, 0.4, 0.3)},
    BaleSize{"small bale", haylage, kg(20), kg(25), memory, unknown},
    BaleSize{"round bale", haylage, kg(250), kg(400), memory, rolled(1.2, 1.2)},
};

}  // namespace

std::span<const BaleSize> bale_sizes() { return sizes; }

const BaleSize* bale_size(std::string_view words, FeedGroup group) {
  for (const BaleSize& size : sizes) {
    if (size.group == group && same_text(size.words, words)) return &size;
  }
  return nullptr;
}

std::optional<double> cubic_metres_of_bale(std::string_view words) {
  for (const BaleSize& size : sizes) {
    if (size.cubic_metres && same_text(size.words, words)) return size.cubic_metres;
  }
  return std::nullopt;
}

std::optional<std::string> bale_named(std::string_view words) {
  for (const BaleSize& size : sizes) {
    if (same_text(words, size.words) || same_text(words, std::string(size.words) + "s")) {
      return std::string(size.words);
    }
  }
  return std::nullopt;
}

std::vector<std::string> bale_names() {
  std::vector<std::string> names;
  for (const BaleSize& size : sizes) {
    if (std::find(names.begin(), names.end(), size.words) == names.end()) {
      names.emplace_back(size.words);
    }
  }
  return names;
}

}  // namespace haymow
