#include "scenarios/scenario_ranges.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "feeds/composition_units.h"
#include "feeds/plain_text.h"
#include "feeds/range_text.h"
#include "feeds/trade_terms.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/scenario_keys.h"

namespace haymow {
namespace {

// What is read from two texts differs in its last digits from what is worked out.
constexpr double rounding = 1e-9;

/// Shares of `told`, which must lie in the range.
std::optional<Triangle> shares_of(double told, double least, double most, const YamlEntry& entry,
                                  const std::string& told_in_words, Findings& findings) {
  if (least > most) {
    findings.error(entry.value.span,
                   {fmt::format("the range `{}` begins with its most", entry.value.text),
                    "write the least first", ""});
    return std::nullopt;
  }
  const double slack = rounding * std::abs(told);
  if (told < least - slack || told > most + slack) {
    findings.error(entry.value.span,
                   {fmt::format("`{}` does not hold what the file reckons with, {}",
                                entry.value.text, told_in_words),
                    "write a range around it, or mend the figure that stands there", ""});
    return std::nullopt;
  }
  if (!(least > 0.0)) {
    findings.error(entry.value.span,
                   {fmt::format("the range `{}` begins with nothing", entry.value.text),
                    "write the least that it may well be", ""});
    return std::nullopt;
  }
  return Triangle{std::min(1.0, least / told), 1.0, std::max(1.0, most / told)};
}

class RangesReader {
 public:
  RangesReader(const YamlNode& node, const YamlNode& ranges, const Offer& offer, Findings& findings)
      : node_(node),
        map_(ranges, "may be", range_keys, findings),
        offer_(offer),
        findings_(findings) {}

  FeedRanges read() {
    FeedRanges ranges;
    if (!map_.is_map()) return ranges;
    ranges.price = price();
    ranges.bale = bale();
    ranges.energy = content("energy", Nutrient::energy, ContentKind::energy, "7.8 to 8.9 MJ/kg DM");
    ranges.crude_protein =
        content("crude protein", Nutrient::crude_protein, ContentKind::mass, "60 to 85 g/kg DM");
    return ranges;
  }

 private:
  /// Both ends of an entry, each as `reading` has it.
  template <class T>
  std::optional<std::pair<T, T>> ends(const YamlEntry& entry, std::string_view example,
                                      const std::function<Reading<T>(std::string_view)>& reading) {
    const auto text = text_of(entry.value, ticked(entry.key.text), findings_);
    if (!text) return std::nullopt;
    const auto range = accepted(read_range_text(*text, example), entry.value, findings_);
    if (!range) return std::nullopt;
    auto least = with_help(reading(range->least), entry, example);
    if (!least) return std::nullopt;
    auto most = with_help(reading(range->most), entry, example);
    if (!most) return std::nullopt;
    return std::pair{std::move(*least), std::move(*most)};
  }

  template <class T>
  std::optional<T> with_help(Reading<T> reading, const YamlEntry& entry, std::string_view example) {
    if (reading.complaint) {
      reading.complaint->help = fmt::format("write a range such as `{}`", example);
    }
    return accepted(std::move(reading), entry.value, findings_);
  }

  std::optional<Triangle> price() {
    const YamlEntry* entry = map_.find("price");
    if (entry == nullptr || !offer_.price_basis) return std::nullopt;
    const auto range = ends<Price>(*entry, "4.20 to 5.50 per bale", read_price);
    if (!range) return std::nullopt;
    const auto told = read_price(offer_.price_note).value;
    const auto least = told ? units_of(range->first, *told) : std::nullopt;
    const auto most = told ? units_of(range->second, *told) : std::nullopt;
    if (!least || !most) {
      findings_.error(entry->value.span,
                      {fmt::format("`{}` is for another amount than the price, `{}`",
                                   entry->value.text, offer_.price_note),
                       "write the range for the same amount, such as `4.20 to 5.50 per bale` for a "
                       "price by the bale",
                       ""});
      return std::nullopt;
    }
    return shares_of(told->money, *least, *most, *entry, ticked(offer_.price_note), findings_);
  }

  /// What `price` comes to for the amount of `told`; absent where one cannot be told by
  /// the other.
  static std::optional<double> units_of(const Price& price, const Price& told) {
    const Measure& one = price.measure;
    const Measure& other = told.measure;
    if (one.litres && other.litres) return price.money * *other.litres / *one.litres;
    // A bale is a bale: "per bale" beside a price "per small bale of 18 kg".
    const bool same_pack =
        !one.pack.empty() && (one.pack == other.pack || (one.pack == "bale" && is_bale(other)));
    if (one.packs && same_pack) return price.money * packs_of(other) / *one.packs;
    if (one.kg && other.kg) return price.money * *other.kg / *one.kg;
    return std::nullopt;
  }

  static double packs_of(const Measure& measure) {
    if (measure.packs) return *measure.packs;
    return *measure.kg / *measure.kg_per_pack;
  }

  static bool is_bale(const Measure& measure) { return measure.pack.ends_with("bale"); }

  // --- bales

  std::optional<Triangle> bale() {
    const YamlEntry* entry = map_.find("bale");
    if (entry == nullptr) return std::nullopt;
    const auto range = ends<double>(*entry, "16 to 20 kg", [](std::string_view text) {
      return read_amount(text, feed_amount(), Sign::positive);
    });
    if (!range) return std::nullopt;
    const auto told = told_bale(*entry);
    if (!told) return std::nullopt;
    return shares_of(*told, range->first, range->second, *entry, fmt::format("{:.4g} kg", *told),
                     findings_);
  }

  /// What one bale is reckoned with [kg]. All that there is of the feed must be counted in
  /// such bales: a heavier bale makes the same count more, and the same weight no more.
  std::optional<double> told_bale(const YamlEntry& entry) {
    std::optional<double> told;
    if (offer_.assumed_weight) told = offer_.assumed_weight->taken.in_kg();
    for (const auto& [key, measure] : amounts()) {
      const bool delivery = key == "delivery";
      if (is_bale(measure) == delivery) {
        findings_.error(
            entry.key.span,
            {fmt::format("what a bale of {} may weigh goes with amounts in bales, and `{}` is {}",
                         ticked(offer_.name), key, delivery ? "by the bale" : "not in bales"),
             delivery ? "write what a load costs to bring, such as `35 per load of 2 t`"
                      : fmt::format("write `{}` in bales, or leave out `bale`", key),
             ""});
        return std::nullopt;
      }
      if (delivery || !measure.kg_per_pack) continue;
      if (told && std::abs(*told - *measure.kg_per_pack) > rounding * *told) {
        findings_.error(entry.key.span,
                        {fmt::format("{} comes in bales of {:.4g} and of {:.4g} kg",
                                     ticked(offer_.name), *told, *measure.kg_per_pack),
                         "make a feed of its own of each, or leave out `bale`", ""});
        return std::nullopt;
      }
      told = *measure.kg_per_pack;
    }
    if (told) return told;
    findings_.error(entry.key.span, {fmt::format("nothing says how heavy a bale of {} is reckoned",
                                                 ticked(offer_.name)),
                                     "write the weight, such as `140 bales of 18 kg`", ""});
    return std::nullopt;
  }

  /// Every amount of the entry of the file, by its key; what could not be read has been
  /// reported. A price of nothing is for any amount.
  [[nodiscard]] std::vector<std::pair<std::string, Measure>> amounts() const {
    std::vector<std::pair<std::string, Measure>> all;
    const auto stock = [&](const std::string& key, const YamlNode& text) {
      if (auto measure = read_stock(text.text).value) all.emplace_back(key, std::move(*measure));
    };
    const auto money = [&](const std::string& key, const YamlNode& text) {
      auto price = key == "delivery" ? read_delivery(text.text).value : read_price(text.text).value;
      if (price && price->money > 0.0) all.emplace_back(key, std::move(price->measure));
    };
    for (const YamlEntry& entry : node_.entries) {
      const std::string& key = entry.key.text;
      if (key == "on hand" || key == "least order" || key == "can be had") stock(key, entry.value);
      if (key == "price" || key == "delivery") money(key, entry.value);
      for (const YamlEntry& part : entry.value.entries) {
        if (key == "cheaper from") stock(key, part.key);
        if (key == "cheaper from" || key == "prices") money(key, part.value);
      }
      if (key != "comes in") continue;
      if (auto pack = read_pack(entry.value.text).value) all.emplace_back(key, std::move(*pack));
    }
    return all;
  }

  // --- what is in it

  std::optional<Triangle> content(std::string_view key, Nutrient nutrient, ContentKind kind,
                                  std::string_view example) {
    const YamlEntry* entry = map_.find(key);
    if (entry == nullptr) return std::nullopt;
    const auto range = ends<Content>(*entry, example, read_content);
    if (!range) return std::nullopt;
    const auto& figure = offer_.feed.composition[nutrient];
    if (!figure || figure->value <= 0.0) {
      findings_.error(
          entry->key.span,
          {fmt::format("the {} of {} is not known, so there is nothing to range around", key,
                       ticked(offer_.name)),
           fmt::format("write it under `analysis` or `label`, or leave out `{}`", key), ""});
      return std::nullopt;
    }
    const auto least = on_dry_matter(range->first, *entry, kind, example);
    const auto most = least ? on_dry_matter(range->second, *entry, kind, example) : std::nullopt;
    if (!most) return std::nullopt;
    return shares_of(figure->value, *least, *most, *entry,
                     fmt::format("{:.4g} {}/kg DM", figure->value, traits_of(nutrient).unit),
                     findings_);
  }

  std::optional<double> on_dry_matter(const Content& content, const YamlEntry& entry,
                                      ContentKind kind, std::string_view example) {
    const std::string help = fmt::format("write a range such as `{}`", example);
    if (content.kind != kind) {
      findings_.error(
          entry.value.span,
          {fmt::format("`{}` is not an amount of {}", entry.value.text, entry.key.text), help, ""});
      return std::nullopt;
    }
    if (!content.basis) {
      findings_.error(
          entry.value.span,
          {fmt::format("`{}` does not say whether it is of dry matter or as fed", entry.value.text),
           help, ""});
      return std::nullopt;
    }
    return *content.basis == ContentBasis::dry_matter
               ? content.value
               : content.value / offer_.feed.dry_matter_share();
  }

  const YamlNode& node_;
  MapReader map_;
  const Offer& offer_;
  Findings& findings_;
};

}  // namespace

void read_may_end(const MapReader& season, Scenario& scenario) {
  const YamlEntry* entry = season.find("may end");
  if (entry == nullptr) return;
  Findings& findings = season.findings();
  const auto text = text_of(entry->value, "`may end`", findings);
  if (!text) return;
  const auto range =
      accepted(read_range_text(*text, "2027-04-01 to 2027-05-10"), entry->value, findings);
  if (!range) return;
  const auto first = accepted(read_date(range->least), entry->value, findings);
  if (!first) return;
  const auto last = accepted(read_date(range->most), entry->value, findings);
  if (!last) return;
  const Triangle days{days_between(*scenario.until, *first).in_days(), 0.0,
                      days_between(*scenario.until, *last).in_days()};
  if (days.least > 0.0 || days.most < 0.0) {
    findings.error(
        entry->value.span,
        {days.least > days.most ? fmt::format("the range `{}` begins with its most", *text)
                                : fmt::format("`{}` does not hold what the file reckons with, {}",
                                              *text, iso_text(*scenario.until)),
         "write a first and a last day with `until` between them", ""});
    return;
  }
  if (days_between(*scenario.from, *first).in_days() < 0.0) {
    findings.error(entry->value.span, {"the season may end before it begins",
                                       "write a later first day, or mend `from`", ""});
    return;
  }
  scenario.may_end = days;
}

void read_ranges(const YamlNode& list, Scenario& scenario, Findings& findings) {
  const std::vector<Offer>& offers = scenario.stable.offers;
  for (const YamlNode& node : list.items) {
    for (const YamlEntry& entry : node.entries) {
      if (entry.key.text != "may be" || entry.value.kind == YamlKind::nothing) continue;
      const auto offer = std::find_if(offers.begin(), offers.end(), [&](const Offer& o) {
        return o.position.line == node.span.position.line &&
               o.position.column == node.span.position.column;
      });
      if (offer == offers.end()) continue;
      const FeedRanges ranges = RangesReader(node, entry.value, *offer, findings).read();
      if (!ranges.any()) continue;
      scenario.feed_doubts.push_back({static_cast<std::size_t>(offer - offers.begin()), ranges});
    }
  }
}

YamlNode without_ranges(YamlNode root) {
  const auto drop = [](YamlNode& map, std::string_view key) {
    std::erase_if(map.entries, [&](const YamlEntry& e) { return e.key.text == key; });
  };
  for (YamlEntry& entry : root.entries) {
    if (entry.key.text == "season") drop(entry.value, "may end");
    if (entry.key.text != "forage" && entry.key.text != "market") continue;
    for (YamlNode& offer : entry.value.items) drop(offer, "may be");
  }
  return root;
}

}  // namespace haymow
