#include "scenarios/scenario_stores.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "feeds/bale_sizes.h"
#include "feeds/plain_text.h"
#include "feeds/trade_terms.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_temperature.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

constexpr std::array volume_units{Unit{"m3", 1.0, true}, Unit{"cubic metres", 1.0},
                                  Unit{"cubic metre", 1.0}, Unit{"cubic feet", 0.028316846592},
                                  Unit{"ft3", 0.028316846592, true}};
constexpr Dimension volume{"a volume", "60 m3", volume_units};

constexpr std::string_view room_help =
    "write `room: 8 t`, `room: 60 m3` or `room: 400 small bales`";

// "60 m3", "8 t", "400 small bales", "400 bales of 18 kg".
void read_room(const MapReader& map, Store& store) {
  const YamlEntry* entry = map.need("room", room_help);
  if (entry == nullptr) return;
  Findings& findings = map.findings();
  const auto text = text_of(entry->value, "`room`", findings);
  if (!text) return;
  const auto number = read_leading_number(*text);
  if (number.value && factor_of(number.value->rest, volume)) {
    store.room_cubic_metres =
        accepted(read_amount(*text, volume, Sign::positive), entry->value, findings);
    return;
  }
  Reading<Measure> measure = read_stock(*text);
  if (measure.complaint) measure.complaint->help = std::string(room_help);
  const auto room = accepted(std::move(measure), entry->value, findings);
  if (!room) return;
  if (room->kg && *room->kg > 0.0) {
    store.room = KgAsFed{*room->kg};
  } else if (const auto each = cubic_metres_of_bale(room->pack); room->packs && each) {
    store.room_cubic_metres = *room->packs * *each;
  } else {
    findings.error(entry->value.span, {fmt::format("`{}` does not say how much fits in", *text),
                                       std::string(room_help), ""});
  }
}

std::optional<Money> money_in(const YamlNode& node, Findings& findings) {
  const auto text = text_of(node, "`budget`", findings);
  if (!text) return std::nullopt;
  Reading<double> reading = read_bare_number(*text);
  if (reading.complaint && reading.complaint->help.empty()) {
    reading.complaint->help = "write the money of a month without a unit, such as `1200`";
  }
  const auto money = accepted(std::move(reading), node, findings);
  if (!money) return std::nullopt;
  if (*money < 0.0) {
    findings.error(node.span, {fmt::format("a budget of {} is below zero", *text),
                               "write the money of a month, such as `1200`", ""});
    return std::nullopt;
  }
  return Money{*money};
}

}  // namespace

std::vector<Store> read_stores(const MapReader& file) {
  std::vector<Store> stores;
  const YamlEntry* entry = file.find("stores");
  if (entry == nullptr) return stores;
  Findings& findings = file.findings();
  if (entry->value.kind != YamlKind::list) {
    findings.error(entry->value.span,
                   {fmt::format("`stores` is {}; expected a list", describe(entry->value.kind)),
                    "write `stores: [{name: hay barn, room: 60 m3}]`", ""});
    return stores;
  }
  for (const YamlNode& node : entry->value.items) {
    const MapReader map(node, "a store", store_keys, findings);
    if (!map.is_map()) continue;
    Store store;
    if (const YamlEntry* name = map.need("name", "write `name: hay barn`")) {
      store.name = name_in(name->value, "`name`", findings).value_or("");
    }
    read_room(map, store);
    const bool twice = std::any_of(stores.begin(), stores.end(), [&](const Store& other) {
      return !store.name.empty() && same_text(other.name, store.name);
    });
    if (twice) {
      findings.error(node.span, {fmt::format("two stores are called `{}`", store.name),
                                 "give one of them another `name`", ""});
      continue;
    }
    stores.push_back(std::move(store));
  }
  return stores;
}

void check_stores(const std::vector<Store>& stores, const std::vector<Offer>& offers,
                  Findings& findings) {
  for (const Offer& offer : offers) {
    const std::string& place = offer.terms.kept_in;
    if (place.empty()) continue;
    const SourceSpan at{offer.terms.kept_in_position, static_cast<int>(place.size())};
    const auto store = std::find_if(stores.begin(), stores.end(),
                                    [&](const Store& s) { return same_text(s.name, place); });
    if (store == stores.end()) {
      std::vector<std::string> names;
      for (const Store& s : stores) names.push_back(s.name);
      findings.error(at, {fmt::format("`{}` is not one of the `stores`", place),
                          names.empty() ? "list it: `stores: [{name: hay barn, room: 60 m3}]`"
                                        : near_or_all(place, names),
                          ""});
    } else if (store->room_cubic_metres && !offer.terms.cubic_metres_per_kg) {
      findings.error(at, {fmt::format("what a kilogram of {} takes of a store is not known, and "
                                      "`{}` is measured by volume",
                                      ticked(offer.name), store->name),
                          "price it by a size of bale, such as `45 per quadrant bale`, or write "
                          "the room of the store by weight, such as `room: 8 t`",
                          ""});
    }
  }
}

ByMonth<Money> read_budget(const MapReader& file) {
  ByMonth<Money> budget;
  const YamlEntry* entry = file.find("budget");
  if (entry == nullptr) return budget;
  Findings& findings = file.findings();
  if (entry->value.kind != YamlKind::map) {
    budget.fill(money_in(entry->value, findings));
    return budget;
  }
  return read_by_month<Money>(
      *entry, [&](const YamlEntry& part) { return money_in(part.value, findings); }, findings);
}

ByMonth<double> read_climate(const MapReader& file) {
  const YamlEntry* entry = file.find("climate");
  if (entry == nullptr) return {};
  Findings& findings = file.findings();
  if (entry->value.kind != YamlKind::map) {
    findings.error(
        entry->value.span,
        {fmt::format("`climate` is {}; expected a group of keys", describe(entry->value.kind)),
         "write `climate: {november: 6 C, december to february: 3 C, march: 5 C}`", ""});
    return {};
  }
  return read_by_month<double>(
      *entry,
      [&](const YamlEntry& part) {
        return temperature_in(part.value, ticked(part.key.text), findings);
      },
      findings);
}

}  // namespace haymow
