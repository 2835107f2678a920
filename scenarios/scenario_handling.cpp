#include "scenarios/scenario_handling.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "feeds/plain_text.h"
#include "model/hay_soaking.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

/// A pair of keys that say the same: a share, or a published way that has one.
struct LossKeys {
  std::string_view share;    // "waste"
  std::string_view way;      // "fed from"
  std::string_view verb;     // "is wasted", for the remark
  std::string_view nothing;  // of too large a share
  std::string_view help;
  std::span<const HandlingWay> ways;
};

class HandlingReader {
 public:
  HandlingReader(const MapReader& map, Offer& offer, Findings& findings)
      : map_(map), offer_(offer), findings_(findings) {}

  void read() {
    const LossKeys feeding{"waste",
                           "fed from",
                           "is wasted",
                           "leaves nothing to eat",
                           "write the share of what is put out that is not eaten, such as `8 %`",
                           ways_to_feed()};
    const LossKeys storing{"storage loss",
                           "stored",
                           "of the dry matter is lost in 9 to 12 months",
                           "leaves nothing to put out",
                           "write the share that the store takes, such as `6 %`",
                           ways_to_store()};
    if (const auto loss = read_loss(feeding, offer_.fed_from)) offer_.waste = *loss;
    if (const auto loss = read_loss(storing, offer_.stored)) offer_.storage_loss = *loss;
    warn_of_hunger();
    read_soaked();
  }

 private:
  std::optional<double> read_loss(const LossKeys& keys, std::optional<HandlingWay>& way) {
    const YamlEntry* share_entry = map_.find_quietly(keys.share);
    const YamlEntry* way_entry = map_.find_quietly(keys.way);
    if (share_entry != nullptr && way_entry != nullptr) {
      findings_.error(
          way_entry->key.span,
          {fmt::format("`{}` and `{}` do not go together: both say what is lost", keys.way,
                       keys.share),
           "keep the share if you have measured it, else the other",
           fmt::format("`{}` is in line {}", keys.share, share_entry->key.span.position.line)});
      return std::nullopt;
    }
    if (way_entry != nullptr) return read_way(keys, way);
    const auto percent = map_.amount(keys.share, percentage(), Sign::not_negative);
    if (!percent) return std::nullopt;
    if (*percent >= 100.0) {
      findings_.error(share_entry->value.span,
                      {fmt::format("{} of {:.4g} % {}", keys.share, *percent, keys.nothing),
                       std::string(keys.help), ""});
      return std::nullopt;
    }
    return *percent / 100.0;
  }

  std::optional<double> read_way(const LossKeys& keys, std::optional<HandlingWay>& way) {
    const YamlEntry* entry = map_.find(keys.way);
    if (entry == nullptr) return std::nullopt;
    if (!offer_.feed.is_long_forage() || offer_.feed.group == FeedGroup::grass) {
      findings_.error(
          entry->key.span,
          {fmt::format("`{}` is for hay, haylage and straw; {} is none of them", keys.way,
                       shown_name()),
           fmt::format("write `{}: 2 %` if some is lost, or delete the line", keys.share), ""});
      return std::nullopt;
    }
    const auto text = text_of(entry->value, ticked(keys.way), findings_);
    if (!text) return std::nullopt;
    const HandlingWay* found = way_named(single_spaced(*text), keys.ways);
    if (found == nullptr) {
      findings_.error(
          entry->value.span,
          {fmt::format("`{}` is not a way of `{}` with a published loss", *text, keys.way),
           near_or_all(*text, words_of(keys.ways)), ""});
      return std::nullopt;
    }
    way = *found;
    remark_loss(keys, *entry, *found);
    return found->planned();
  }

  void remark_loss(const LossKeys& keys, const YamlEntry& entry, const HandlingWay& way) {
    const double least = 100.0 * way.loss.least;
    const double most = 100.0 * way.loss.most;
    const std::string share =
        most - least < 0.05
            ? fmt::format("{:.3g} %", most)
            : fmt::format("{:.3g} to {:.3g} % (planned as {:.3g} %)", least, most, most);
    findings_.remark(entry.value.span,
                     {fmt::format("{}, {} {}: {} {} ({})", shown_name(), keys.way, way.words, share,
                                  keys.verb, way.source),
                      fmt::format("measure it and write `{}: {:.3g} %`", keys.share, most), ""});
  }

  /// The trial in which horses ate less than the forage they need.
  void warn_of_hunger() {
    if (!offer_.fed_from || !starves(*offer_.fed_from)) return;
    const HandlingWay& way = *offer_.fed_from;
    findings_.remark(
        map_.find_quietly("fed from")->value.span,
        {fmt::format(
             "{}, fed from {}: horses fed so ate only {:.2g} % of their bodyweight a day and lost "
             "weight; a horse needs {:.2g} % as dry matter of forage ({})",
             shown_name(), way.words, way.intake->most_percent, least_forage_percent, way.source),
         "put a feeder round the bale", ""});
  }

  void read_soaked() {
    const YamlEntry* entry = map_.find("soaked");
    if (entry == nullptr) return;
    const FeedGroup group = offer_.feed.group;
    if (group == FeedGroup::haylage) {
      findings_.error(entry->key.span,
                      {fmt::format("haylage must not be soaked, and {} is haylage", shown_name()),
                       "delete the line; for less sugar have it analysed and choose another", ""});
      return;
    }
    if (group != FeedGroup::hay) {
      findings_.error(
          entry->key.span,
          {fmt::format("`soaked` is for hay, and {} is {}", shown_name(), name_of(group)),
           "write how a bucket feed is soaked under `soaking`, or delete the line", ""});
      return;
    }
    const auto minutes = map_.amount("soaked", duration());
    if (!minutes) return;
    if (*minutes > longest_hay_soak_minutes) {
      findings_.error(
          entry->value.span,
          {fmt::format("hay soaked for {:.4g} hours spoils in the water", *minutes / 60.0),
           "30 min is enough for most grass hay: write `soaked: 30 min`", ""});
      return;
    }
    offer_.soaked_minutes = *minutes;
    offer_.soaking_loss = dry_matter_lost_by_soaking(*minutes);
    findings_.remark(
        entry->value.span,
        {fmt::format("soaking {} is planned to wash out {:.2g} % of its dry matter "
                     "(derived, from memory), which is made up; no cut of its sugar is "
                     "reckoned with",
                     shown_name(), 100.0 * offer_.soaking_loss),
         "have the soaked hay analysed", ""});
  }

  [[nodiscard]] std::string shown_name() const {
    return offer_.name.empty() ? "this feed" : ticked(offer_.name);
  }

  const MapReader& map_;
  Offer& offer_;
  Findings& findings_;
};

}  // namespace

void read_handling(const MapReader& map, Offer& offer, Findings& findings) {
  HandlingReader(map, offer, findings).read();
}

}  // namespace haymow
