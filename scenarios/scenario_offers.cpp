#include "scenarios/scenario_offers.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "feeds/declared_composition.h"
#include "feeds/feed_table.h"
#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "feeds/trade_terms.h"
#include "model/lysine_share.h"
#include "scenarios/scenario_analysed.h"
#include "scenarios/scenario_handling.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_portions.h"
#include "scenarios/scenario_prices.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

class OfferReader {
 public:
  OfferReader(const YamlNode& node, bool own, const SeasonStart& season, Findings& findings)
      : map_(node, own ? "a forage" : "a market entry", offer_keys, findings),
        season_(season),
        findings_(findings) {
    offer_.own = own;
    offer_.position = node.span.position;
  }

  std::optional<Offer> read() {
    if (!map_.is_map()) return std::nullopt;
    if (!read_kind()) return std::nullopt;
    read_name();
    read_traits();
    read_composition();
    read_analysed(map_, season_, offer_, findings_);
    read_handling(map_, offer_, findings_);
    read_daily_amount_key();
    read_soaking();
    read_whole_portion(map_, offer_, findings_);
    read_stock_and_price(map_, offer_, findings_);
    (void)map_.find("may be");  // read_ranges() has it, once every feed has its energy
    return std::move(offer_);
  }

  /// Set by read() where the keeper's own figures have no energy among them.
  [[nodiscard]] const std::optional<EnergyGap>& energy_gap() const { return gap_; }

 private:
  /// The table feed, or the group of one that is not in the table. False when
  /// it is unknown what kind of feed this is.
  bool read_kind() {
    if (const YamlEntry* entry = map_.find("feed")) {
      const auto name = text_of(entry->value, "`feed`", findings_);
      if (!name) return false;
      const Feed* known = find_feed(*name);
      if (known == nullptr) {
        refuse_feed(entry->value, *name);
        return false;
      }
      offer_.feed = *known;
      from_table_ = true;
      if (const YamlEntry* group = map_.find("group")) {
        findings_.error(group->key.span,
                        {"`group` and `feed` do not go together: the feed has its group",
                         "delete `group`, or `feed` if this is another kind of feed", ""});
      }
      return true;
    }
    if (map_.is_meant("feed")) return false;
    const YamlEntry* entry =
        map_.need("group",
                  "write `feed: ...` with a name of `haymow feeds`, or `group: compound` "
                  "with a `label` or an `analysis`");
    if (entry == nullptr) return false;
    const auto name = text_of(entry->value, "`group`", findings_);
    if (!name) return false;
    const auto group = feed_group_named(lower_case(*name));
    if (!group) {
      std::vector<std::string> names;
      for (const FeedGroup g : all_feed_groups()) names.emplace_back(name_of(g));
      findings_.error(entry->value.span, {fmt::format("`{}` is not a group of feeds", *name),
                                          near_or_all(*name, names), ""});
      return false;
    }
    offer_.feed.group = *group;
    return true;
  }

  void refuse_feed(const YamlNode& node, const std::string& name) {
    std::vector<std::string> near = near_feed_names(name);
    for (std::string& n : near) n = ticked(n);
    findings_.error(
        node.span,
        {fmt::format("`{}` is not in the feed table", name),
         near.empty() ? "`haymow feeds` lists the names; for another feed write `name`, `group` "
                        "and `label`"
                      : fmt::format("did you mean {}?", either_of(near)),
         ""});
  }

  void read_name() {
    if (const YamlEntry* entry = map_.find("name")) {
      if (auto name = name_in(entry->value, "`name`", findings_)) offer_.name = *name;
    } else if (from_table_) {
      offer_.name = offer_.feed.name;
    } else {
      map_.need("name", "write `name: ...`, as it stands on the bag");
    }
    if (!from_table_) {
      offer_.feed.name = offer_.name;
      offer_.feed.position = offer_.position;
    }
  }

  void read_traits() {
    const YamlEntry* entry = map_.find("traits");
    if (entry == nullptr) return;
    std::vector<std::string> names;
    for (const FeedTrait t : all_feed_traits()) names.emplace_back(name_of(t));
    for (const auto& [node, word] : words_in(entry->value, "traits", "[grain]", findings_)) {
      if (const auto trait = feed_trait_named(lower_case(word))) {
        offer_.feed.traits.insert(*trait);
      } else {
        findings_.error(node->span, {fmt::format("`{}` is not a trait of feeds", word),
                                     near_or_all(word, names), ""});
      }
    }
  }

  void read_composition() {
    const YamlEntry* analysis = map_.find("analysis");
    const YamlEntry* label = map_.find("label");
    if (analysis != nullptr && label != nullptr) {
      findings_.error(label->key.span,
                      {"`label` and `analysis` do not go together",
                       "keep the analysis and add to it what only the label gives",
                       fmt::format("`analysis` is in line {}", analysis->key.span.position.line)});
      return;
    }
    const std::size_t before = findings_.error_count();
    if (from_table_ && (analysis != nullptr || label != nullptr)) {
      offer_.feed.based_on = offer_.feed.name;
    }
    if (analysis != nullptr) {
      declare_composition(analysis->value, DeclarationKind::analysis, offer_.feed, findings_);
    } else if (label != nullptr) {
      declare_composition(label->value, DeclarationKind::label, offer_.feed, findings_);
    } else if (!from_table_) {
      findings_.error(map_.span(),
                      {fmt::format("nothing is known of what is in {}", shown_name()),
                       "add `label: {...}` or `analysis: {...}`, or a `feed` of the table that is "
                       "most like it",
                       ""});
      return;
    }
    complete_own_figures();
    // One mistake, one message: a figure refused above may be the energy. What is fed by
    // the gram needs none: for the floor an unknown counts as nothing.
    if (findings_.error_count() > before || is_fed_by_the_gram(offer_.feed.group)) return;
    const YamlEntry* given = analysis != nullptr ? analysis : label;
    const auto& energy = offer_.feed.composition[Nutrient::energy];
    if (given != nullptr && (!energy || offer_.feed.is_taken_over(*energy))) {
      gap_ = EnergyGap{0, given->key.span, analysis != nullptr};
    }
  }

  /// What follows from the keeper's own figures.
  void complete_own_figures() {
    auto& composition = offer_.feed.composition;
    const auto own = [&](Nutrient n) {
      return composition[n] && !offer_.feed.is_taken_over(*composition[n]);
    };
    if (!own(Nutrient::crude_protein) || own(Nutrient::lysine)) return;
    const Feed* base = from_table_ ? find_feed(offer_.feed.based_on) : nullptr;
    if (auto lysine = estimated_lysine(offer_.feed, base)) {
      composition[Nutrient::lysine] = std::move(lysine);
    }
  }

  void read_daily_amount_key() {
    const YamlEntry* entry = map_.find("daily amount");
    if (entry == nullptr) return;
    const auto text = text_of(entry->value, "`daily amount`", findings_);
    if (!text) return;
    const auto most = accepted(read_daily_amount(*text), entry->value, findings_);
    if (!most) return;
    offer_.feed.daily_most = DailyMost{KgAsFed{most->kg}, std::nullopt};
    if (most->per_kg_bodyweight) offer_.feed.daily_most->per = Bodyweight{*most->per_kg_bodyweight};
  }

  void read_soaking() {
    const YamlEntry* entry = map_.find("soaking");
    if (entry == nullptr) return;
    const MapReader soaking(entry->value, "soaking", soaking_keys, findings_);
    if (!soaking.is_map()) return;
    soaking.need("water", "write `water: 4 parts`, by weight to one part of dry feed");
    soaking.need("cold", "write `cold: 45 min`, the time in cold water");
    const auto water = soaking.amount("water", water_ratio());
    const auto cold = soaking.amount("cold", duration());
    const auto warm = soaking.amount("warm", duration());
    if (water && cold) offer_.feed.soaking = Soaking{*water, *cold, warm, ""};
    offer_.feed.traits.insert(FeedTrait::soak);
  }

  [[nodiscard]] std::string shown_name() const {
    return offer_.name.empty() ? "this feed" : ticked(offer_.name);
  }

  MapReader map_;
  SeasonStart season_;
  Findings& findings_;
  Offer offer_;
  bool from_table_ = false;
  std::optional<EnergyGap> gap_;
};

}  // namespace

void read_offers(const YamlNode& list, bool own, const SeasonStart& season,
                 std::vector<Offer>& offers, std::vector<EnergyGap>& gaps, Findings& findings) {
  const std::string key = own ? "forage" : "market";
  if (list.kind != YamlKind::list) {
    findings.error(list.span, {fmt::format("`{}` is {}; expected a list", key, describe(list.kind)),
                               fmt::format("write `{}:` and below it `  - feed: ...`", key), ""});
    return;
  }
  for (const YamlNode& node : list.items) {
    OfferReader reader(node, own, season, findings);
    auto offer = reader.read();
    if (!offer) continue;
    const auto before = std::find_if(offers.begin(), offers.end(), [&](const Offer& other) {
      return !offer->name.empty() && same_text(other.name, offer->name);
    });
    if (before != offers.end()) {
      findings.error(node.span, {fmt::format("two feeds are called `{}`", offer->name),
                                 "give one of them another `name`",
                                 fmt::format("the first is in line {}", before->position.line)});
      continue;
    }
    if (auto gap = reader.energy_gap()) {
      gap->offer = offers.size();
      gaps.push_back(*gap);
    }
    offers.push_back(std::move(*offer));
  }
}

}  // namespace haymow
