// The keys of a scenario file, group by group. The reader accepts these and no
// others; docs/reference/scenario-file.md is held to them by a test.
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <vector>

namespace haymow {

inline constexpr std::array<std::string_view, 13> scenario_keys{
    "yard",   "money",         "season", "change", "energy equation", "horses", "forage",
    "market", "feeding times", "stores", "budget", "climate",         "ask"};
inline constexpr std::array<std::string_view, 3> season_keys{"from", "until", "may end"};
inline constexpr std::array<std::string_view, 2> change_keys{"from", "over"};
inline constexpr std::array<std::string_view, 26> horse_keys{
    "name",          "bodyweight", "girth",        "length",       "shape",
    "mature weight", "work",       "maintenance",  "stallion",     "pregnant",
    "lactating",     "age",        "condition",    "meals",        "health",
    "energy factor", "cold",       "feeds",        "instructions", "fed now",
    "feeding times", "grazing",    "bucket feeds", "calendar",     "foaling",
    "weaned"};
inline constexpr std::array<std::string_view, 3> condition_keys{"now", "aim", "by"};
inline constexpr std::array<std::string_view, 2> cold_keys{"temperature", "critical"};
inline constexpr std::array<std::string_view, 6> grazing_keys{"turnout", "grass", "muzzle",
                                                              "month",   "area",  "shared by"};
inline constexpr std::array<std::string_view, 4> feeds_keys{"none", "at least", "at most",
                                                            "exactly"};
inline constexpr std::array<std::string_view, 3> instruction_keys{"rule", "limit", "by"};
inline constexpr std::array<std::string_view, 29> offer_keys{
    "feed",     "name",       "group",        "traits",       "analysis",     "analysed",
    "label",    "on hand",    "price",        "waste",        "daily amount", "soaking",
    "delivery", "fed from",   "stored",       "storage loss", "soaked",       "scoop",
    "slice",    "whole bale", "prices",       "cheaper from", "least order",  "can be had",
    "comes in", "keeps",      "keeps opened", "kept in",      "may be"};
inline constexpr std::array<std::string_view, 4> range_keys{"price", "bale", "energy",
                                                            "crude protein"};
inline constexpr std::array<std::string_view, 3> soaking_keys{"water", "cold", "warm"};

inline constexpr std::array<std::string_view, 2> store_keys{"name", "room"};
inline constexpr std::array<std::string_view, 4> calendar_keys{"from", "work", "maintenance",
                                                               "stallion"};
inline constexpr std::array<std::string_view, 8> question_keys{
    "what if", "prices", "on hand", "without", "horses", "season", "forage", "market"};

struct KeyGroup {
  std::string_view name;  // "a horse", as messages call it
  std::span<const std::string_view> keys;
};
/// All groups, in the order a file has them.
[[nodiscard]] std::vector<KeyGroup> key_groups();

}  // namespace haymow
