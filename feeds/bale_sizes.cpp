#include "feeds/bale_sizes.h"

#include <algorithm>
#include <array>

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

constexpr auto hay = FeedGroup::hay;
constexpr auto straw = FeedGroup::straw;
constexpr auto haylage = FeedGroup::haylage;

// British big bales are named by width x height in cm, 240 cm long; a quadrant is
// 120 x 70. American ones by feet; a round bale by width x diameter.
constexpr std::array sizes{
    BaleSize{"bale", hay, kg(18), lb(75), both},
    BaleSize{"small bale", hay, kg(18), kg(20), hay_farm},
    BaleSize{"two-string bale", hay, lb(40), lb(75), us_pages},
    BaleSize{"three-string bale", hay, lb(100), lb(100), us_pages},
    BaleSize{"quadrant bale", hay, kg(250), kg(350), hay_farm},
    BaleSize{"80x90 bale", hay, kg(240), kg(290), hay_farm},
    BaleSize{"120x90 bale", hay, kg(400), kg(500), hay_farm},
    BaleSize{"120x120 bale", hay, kg(500), kg(550), hay_farm},
    BaleSize{"3x3x8 bale", hay, lb(800), lb(2000), us_pages},
    BaleSize{"4x4x8 bale", hay, lb(800), lb(2000), us_pages},
    BaleSize{"big square bale", hay, kg(240), lb(2000), both_big},
    BaleSize{"round bale", hay, kg(150), lb(1500), both_round},
    BaleSize{"4x4 round bale", hay, lb(461), lb(512), us_pages},
    BaleSize{"4x5 round bale", hay, lb(720), lb(1000), us_pages},
    BaleSize{"4x6 round bale", hay, lb(1037), lb(1153), us_pages},
    BaleSize{"5x5 round bale", hay, lb(900), lb(1000), us_pages},
    BaleSize{"5x6 round bale", hay, lb(1000), lb(1500), us_pages},
    BaleSize{"bale", straw, kg(10), kg(14), memory},
    BaleSize{"small bale", straw, kg(10), kg(14), memory},
    BaleSize{"small bale", haylage, kg(20), kg(25), memory},
    BaleSize{"round bale", haylage, kg(250), kg(400), memory},
};

}  // namespace

std::span<const BaleSize> bale_sizes() { return sizes; }

const BaleSize* bale_size(std::string_view words, FeedGroup group) {
  for (const BaleSize& size : sizes) {
    if (size.group == group && same_text(size.words, words)) return &size;
  }
  return nullptr;
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
