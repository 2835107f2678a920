#include "scenarios/scenario_prices.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "feeds/bale_sizes.h"
#include "feeds/plain_text.h"
#include "feeds/trade_terms.h"
#include "scenarios/scenario_supply.h"

namespace haymow {
namespace {

/// A measure with the entry it stands in.
struct Written {
  const YamlEntry* entry = nullptr;
  Money money;  // of a price or a delivery
  Measure measure;
  std::string text;
};

struct PackWeight {
  std::string pack;
  KgAsFed each;
};

class PriceReader {
 public:
  PriceReader(const MapReader& map, Offer& offer, Findings& findings)
      : map_(map), offer_(offer), findings_(findings) {}

  void read() {
    const auto stock = written_stock();
    const auto price = written_money("price", read_price);
    const auto delivery = written_money("delivery", read_delivery);
    for (const auto* one : {&stock, &price, &delivery}) take_written_weight(*one);
    // A named size first: "20 quadrant bales" says which bale a price is for.
    for (const bool sized : {true, false}) {
      for (const auto* one : {&stock, &price, &delivery}) assume_weight(*one, sized);
    }
    if (stock) {
      if (const auto kg = in_kg(*stock)) offer_.on_hand = *kg;
    }
    if (price) take_price(*price);
    if (delivery) take_delivery(*delivery);
    read_terms(stock, price, delivery);
    remark_assumed(stock, price, delivery);
  }

 private:
  std::optional<Written> written_stock() {
    const YamlEntry* entry = map_.find("on hand");
    if (entry == nullptr) return std::nullopt;
    const auto text = text_of(entry->value, "`on hand`", findings_);
    if (!text) return std::nullopt;
    auto stock = accepted(read_stock(*text), entry->value, findings_);
    if (!stock) return std::nullopt;
    return Written{entry, Money{}, std::move(*stock), *text};
  }

  std::optional<Written> written_money(std::string_view key,
                                       Reading<Price> (*reading)(std::string_view)) {
    const YamlEntry* entry = key == "price"
                                 ? map_.need(key, "write `price: 0 per kg` if it costs nothing")
                                 : map_.find(key);
    if (entry == nullptr) return std::nullopt;
    const auto text = text_of(entry->value, ticked(key), findings_);
    if (!text) return std::nullopt;
    if (key == "price") offer_.price_note = *text;
    auto price = accepted(reading(*text), entry->value, findings_);
    if (!price) return std::nullopt;
    return Written{entry, Money{price->money}, std::move(price->measure), *text};
  }

  void read_terms(const std::optional<Written>& stock, const std::optional<Written>& price,
                  const std::optional<Written>& delivery) {
    const auto measure = [](const std::optional<Written>& one) {
      return one ? std::optional(one->measure) : std::nullopt;
    };
    read_supply(
        map_, {measure(price), measure(stock), measure(delivery)},
        [this](const YamlEntry& entry, const Measure& one) {
          return in_kg(Written{&entry, Money{}, one, ""});
        },
        offer_);
  }

  void take_written_weight(const std::optional<Written>& one) {
    if (!one || !one->measure.kg_per_pack) return;
    weights_.push_back({one->measure.pack, KgAsFed{*one->measure.kg_per_pack}});
  }

  /// The weight of a pack: its own, or for a bale without a size that of any bale.
  [[nodiscard]] std::optional<KgAsFed> weight_of(const std::string& pack) const {
    const auto named = [&](const PackWeight& known) { return known.pack == pack; };
    const auto any_bale = [&](const PackWeight& known) {
      return pack == "bale" && known.pack.ends_with(" bale");
    };
    auto found = std::find_if(weights_.begin(), weights_.end(), named);
    if (found == weights_.end()) found = std::find_if(weights_.begin(), weights_.end(), any_bale);
    if (found == weights_.end()) return std::nullopt;
    return found->each;
  }

  void assume_weight(const std::optional<Written>& one, bool sized) {
    if (!one || !one->measure.packs) return;
    const std::string& pack = one->measure.pack;
    if ((pack != "bale") != sized || weight_of(pack)) return;
    const BaleSize* size = bale_size(pack, offer_.feed.group);
    if (size == nullptr || offer_.assumed_weight) return;
    offer_.assumed_weight =
        AssumedWeight{pack, size->least, size->least, size->most, std::string(size->source)};
    weights_.push_back({pack, size->least});
  }

  [[nodiscard]] bool is_assumed(const Written& one) const {
    if (!offer_.assumed_weight || !one.measure.packs) return false;
    const std::string& pack = one.measure.pack;
    return pack == offer_.assumed_weight->pack || pack == "bale";
  }

  /// Kilograms as fed; absent and reported where nobody can know them.
  std::optional<KgAsFed> in_kg(const Written& one) {
    const Measure& measure = one.measure;
    if (measure.kg) return KgAsFed{*measure.kg};
    if (measure.litres) {
      if (offer_.feed.kg_per_litre) return KgAsFed{*measure.litres * *offer_.feed.kg_per_litre};
      findings_.error(one.entry->value.span,
                      {fmt::format("what a litre of {} weighs is not known", shown_name()),
                       "write the weight instead, such as `18 per 4.6 kg`", ""});
      return std::nullopt;
    }
    if (const auto each = weight_of(measure.pack)) return measure.packs.value_or(0.0) * *each;
    findings_.error(
        one.entry->value.span,
        {fmt::format("what a {} of {} weighs is not written", measure.pack, shown_name()),
         fmt::format("write the weight, such as `{}`", example_with_weight(one)), ""});
    return std::nullopt;
  }

  static std::string example_with_weight(const Written& one) {
    const std::string& pack = one.measure.pack;
    if (one.entry->key.text == "delivery") return "35 per load of 2 t";
    if (pack.ends_with("bale")) {
      return one.entry->key.text == "price" ? "45 per 300 kg " + pack
                                            : "12 " + pack + "s of 300 kg";
    }
    return one.entry->key.text == "price" ? "12.40 per 20 kg " + pack : "3 " + pack + "s of 20 kg";
  }

  void take_price(const Written& price) {
    if (const auto kg = in_kg(price)) {
      offer_.price_basis = PriceBasis{price.text, price.money, *kg, is_assumed(price)};
      offer_.price_per_kg = offer_.price_basis->per_kg();
    }
    if (price.money == Money{} && !offer_.own) {
      findings_.remark(
          price.entry->value.span,
          {fmt::format("{} costs nothing, so as much of it as the limits allow will be used",
                       shown_name()),
           "write what it costs, if it does", ""});
    }
  }

  void take_delivery(const Written& delivery) {
    if (const auto kg = in_kg(delivery)) {
      offer_.delivery_basis = PriceBasis{delivery.text, delivery.money, *kg, is_assumed(delivery)};
      offer_.delivery_per_kg = offer_.delivery_basis->per_kg();
    }
  }

  /// Once for each feed, where its price stands, or else the first that needed it.
  void remark_assumed(const std::optional<Written>& stock, const std::optional<Written>& price,
                      const std::optional<Written>& delivery) {
    if (!offer_.assumed_weight) return;
    const AssumedWeight& assumed = *offer_.assumed_weight;
    const Written* at = nullptr;
    for (const auto* one : {&price, &stock, &delivery}) {
      if (at == nullptr && *one && is_assumed(**one)) at = &**one;
    }
    if (at == nullptr) return;
    std::string message = fmt::format(
        "what a {} of {} weighs is not written; {:.0f} kg is assumed, the light end of {}",
        assumed.pack, shown_name(), assumed.taken.in_kg(), range_told(assumed));
    if (offer_.price_basis && offer_.price_basis->assumed) {
      const MoneyRange range = per_kg_range(*offer_.price_basis, assumed);
      message +=
          fmt::format("; a kg costs {:.3g} to {:.3g} by that, and {:.3g} is planned with",
                      range.least.in_units(), range.most.in_units(), range.planned.in_units());
    }
    findings_.remark(
        at->entry->value.span,
        {std::move(message),
         fmt::format("weigh five bales and write it, such as `{}`",
                     assumed.taken < KgAsFed{50.0} ? "140 bales of 18 kg" : "12 bales of 300 kg"),
         ""});
  }

  static std::string range_told(const AssumedWeight& assumed) {
    const double least = assumed.least.in_kg();
    const double most = assumed.most.in_kg();
    if (most - least < 0.5) return fmt::format("what is published ({})", assumed.source);
    return fmt::format("{:.0f} to {:.0f} kg ({})", least, most, assumed.source);
  }

  [[nodiscard]] std::string shown_name() const {
    return offer_.name.empty() ? "this feed" : ticked(offer_.name);
  }

  const MapReader& map_;
  Offer& offer_;
  Findings& findings_;
  std::vector<PackWeight> weights_;
};

}  // namespace

void read_stock_and_price(const MapReader& map, Offer& offer, Findings& findings) {
  PriceReader(map, offer, findings).read();
}

}  // namespace haymow
