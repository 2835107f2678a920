#include "scenarios/scenario_supply.h"

#include <fmt/format.h>

#include <array>
#include <string>
#include <utility>

#include "feeds/bale_sizes.h"
#include "feeds/plain_text.h"
#include "scenarios/scenario_months.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

constexpr double litres_per_cubic_metre = 1000.0;
// Nothing a horse eats keeps longer (common practice, no source).
constexpr double most_keeping_days = 3660.0;

const Dimension& keeping_time() {
  static constexpr std::array units{Unit{"days", 1.0, true},       Unit{"day", 1.0},
                                    Unit{"weeks", 7.0, true},      Unit{"week", 7.0},
                                    Unit{"months", 30.4375, true}, Unit{"month", 30.4375},
                                    Unit{"years", 365.25},         Unit{"year", 365.25}};
  static constexpr Dimension dimension{"a time", "6 months", units};
  return dimension;
}

class SupplyReader {
 public:
  SupplyReader(const MapReader& map, const PricedBy& by, const KilogramsOf& in_kg, Offer& offer)
      : map_(map), by_(by), in_kg_(in_kg), offer_(offer), terms_(offer.terms) {}

  void read() {
    read_pack_key();
    read_prices();
    read_cheaper();
    read_can_be_had();
    if (const YamlEntry* entry = map_.find("least order")) terms_.least_order = stock_in(*entry);
    terms_.keeps = days_of("keeps");
    terms_.keeps_opened = days_of("keeps opened");
    read_kept_in();
    take_load();
    take_volume();
    check_bought();
  }

 private:
  Findings& findings() { return map_.findings(); }
  [[nodiscard]] std::string shown_name() const {
    return offer_.name.empty() ? "this feed" : ticked(offer_.name);
  }

  // In packs as the price is, unless the keeper says how it comes.
  void read_pack_key() {
    const YamlEntry* entry = map_.find("comes in");
    if (entry == nullptr) {
      if (!by_.price || by_.price->pack.empty()) return;
      const double packs = by_.price->packs.value_or(1.0);
      if (!offer_.price_basis || packs <= 0.0) return;
      set_pack(by_.price->pack, by_.price->kg_per_pack ? KgAsFed{*by_.price->kg_per_pack}
                                                       : offer_.price_basis->amount / packs);
      return;
    }
    const auto text = text_of(entry->value, "`comes in`", findings());
    if (!text || same_text(*text, "loose")) return;
    const auto pack = accepted(read_pack(*text), entry->value, findings());
    if (!pack) return;
    if (pack->pack.empty()) {
      findings().error(entry->value.span,
                       {fmt::format("`{}` is not a pack", *text),
                        "write one pack, such as `20 kg bag` or `round bale`, or `loose`", ""});
      return;
    }
    if (const auto kg = in_kg_(*entry, *pack)) set_pack(pack->pack, *kg);
  }

  void set_pack(const std::string& name, KgAsFed each) {
    if (each <= KgAsFed{}) return;
    terms_.pack = each;
    terms_.pack_name = name;
  }

  std::optional<Money> price_in(const YamlEntry& part) {
    const auto text = text_of(part.value, "a price", findings());
    if (!text) return std::nullopt;
    const auto price = accepted(read_price(*text), part.value, findings());
    if (!price) return std::nullopt;
    const auto kg = in_kg_(part, price->measure);
    if (!kg || *kg <= KgAsFed{}) return std::nullopt;
    return Money{price->money} / kg->in_kg();
  }

  bool is_group(const YamlEntry& entry, std::string_view example) {
    if (entry.value.kind == YamlKind::map) return true;
    findings().error(entry.value.span,
                     {fmt::format("`{}` is {}; expected a group of keys", entry.key.text,
                                  describe(entry.value.kind)),
                      fmt::format("write `{}: {}`", entry.key.text, example), ""});
    return false;
  }

  void read_prices() {
    const YamlEntry* entry = map_.find("prices");
    if (entry == nullptr) return;
    if (!is_group(*entry, "{november: 5 per bale, december to march: 5.50 per bale}")) return;
    terms_.price_per_kg = read_by_month<Money>(
        *entry, [this](const YamlEntry& part) { return price_in(part); }, findings());
  }

  std::optional<KgAsFed> stock_in(const YamlEntry& entry) {
    const auto text = text_of(entry.value, ticked(entry.key.text), findings());
    if (!text) return std::nullopt;
    const auto measure = accepted(read_stock(*text), entry.value, findings());
    return measure ? in_kg_(entry, *measure) : std::nullopt;
  }

  void read_cheaper() {
    const YamlEntry* entry = map_.find("cheaper from");
    if (entry == nullptr) return;
    if (!is_group(*entry, "{2 t: 190 per tonne, 5 t: 180 per tonne}")) return;
    const bool priced = offer_.price_basis.has_value();
    for (const YamlEntry& part : entry->value.entries) {
      const auto from = stock_in({entry->key, part.key});
      const auto price = price_in(part);
      if (!from || !price || !priced) continue;
      const bool first = terms_.cheaper.empty();
      const Money before = first ? offer_.price_per_kg : terms_.cheaper.back().price_per_kg;
      if (*price >= before || (!first && *from <= terms_.cheaper.back().from)) {
        findings().error(part.key.span,
                         {fmt::format("from {} on, {} is not cheaper than for less of it",
                                      part.key.text, shown_name()),
                          "write rising amounts at falling prices, such as `{2 t: 190 per tonne, "
                          "5 t: 180 per tonne}`",
                          ""});
        continue;
      }
      terms_.cheaper.push_back({*from, *price});
    }
  }

  void read_can_be_had() {
    const YamlEntry* entry = map_.find("can be had");
    terms_.on_hand = offer_.on_hand;
    terms_.can_be_bought = entry != nullptr || !offer_.on_hand;
    if (entry == nullptr || entry->value.kind != YamlKind::text) {
      if (entry != nullptr) (void)text_of(entry->value, "`can be had`", findings());
      return;
    }
    if (same_text(single_spaced(entry->value.text), "as wanted")) {
      offer_.on_hand.reset();
      return;
    }
    terms_.can_be_had = stock_in(*entry);
    if (!terms_.can_be_had) return;
    terms_.can_be_bought = *terms_.can_be_had > KgAsFed{};
    offer_.on_hand = offer_.on_hand.value_or(KgAsFed{}) + *terms_.can_be_had;
  }

  std::optional<Days> days_of(std::string_view key) {
    const auto days = map_.amount(key, keeping_time());
    if (!days) return std::nullopt;
    if (*days >= 1.0 && *days <= most_keeping_days) return Days{*days};
    findings().error(
        map_.find(key)->value.span,
        {fmt::format("{} that keeps for {:.3g} days is not one to plan with", shown_name(), *days),
         "write a time from a day to ten years, such as `6 months` or `4 days`", ""});
    return std::nullopt;
  }

  void read_kept_in() {
    const YamlEntry* entry = map_.find("kept in");
    if (entry == nullptr) return;
    const auto name = name_in(entry->value, "`kept in`", findings());
    if (!name) return;
    terms_.kept_in = *name;
    terms_.kept_in_position = entry->value.span.position;
  }

  void take_load() {
    if (!by_.delivery || by_.delivery->pack != "load" || !offer_.delivery_basis) return;
    terms_.by_the_load = LoadCharge{offer_.delivery_basis->money, offer_.delivery_basis->amount};
  }

  // By the size of its bale, else by what a litre weighs.
  void take_volume() {
    const auto size = terms_.pack ? cubic_metres_of_bale(terms_.pack_name) : std::nullopt;
    if (size) {
      terms_.cubic_metres_per_kg = *size / terms_.pack->in_kg();
      return;
    }
    for (const auto* one : {&by_.price, &by_.stock}) {
      if (!*one || (*one)->pack.empty()) continue;
      const auto bale = cubic_metres_of_bale((*one)->pack);
      const auto kg = bale_weight(**one);
      if (!bale || !kg) continue;
      terms_.cubic_metres_per_kg = *bale / kg->in_kg();
      return;
    }
    // A litre of hay is weighed loose, and it is stored in bales.
    if (!offer_.feed.is_long_forage() && offer_.feed.kg_per_litre.value_or(0.0) > 0.0) {
      terms_.cubic_metres_per_kg = 1.0 / (*offer_.feed.kg_per_litre * litres_per_cubic_metre);
    }
  }

  std::optional<KgAsFed> bale_weight(const Measure& one) {
    if (one.kg_per_pack) return KgAsFed{*one.kg_per_pack};
    if (terms_.pack && terms_.pack_name == one.pack) return terms_.pack;
    return std::nullopt;
  }

  void check_bought() {
    if (terms_.can_be_bought) return;
    for (const std::string_view key : {"prices", "cheaper from", "least order"}) {
      const YamlEntry* entry = map_.find_quietly(key);
      if (entry == nullptr) continue;
      findings().error(
          entry->key.span,
          {fmt::format("`{}` says nothing of {}, of which there is only what is on "
                       "hand",
                       key, shown_name()),
           "write `can be had: as wanted` if more can be bought, or delete this key", ""});
      return;
    }
  }

  const MapReader& map_;
  const PricedBy& by_;
  const KilogramsOf& in_kg_;
  Offer& offer_;
  SupplyTerms& terms_;
};

}  // namespace

void read_supply(const MapReader& map, const PricedBy& by, const KilogramsOf& in_kg, Offer& offer) {
  SupplyReader(map, by, in_kg, offer).read();
}

}  // namespace haymow
