#include "scenarios/scenario_wishes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "feeds/plain_text.h"
#include "model/rules.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

/// A feed and its amount a day, as in `{our hay: 9 kg}`.
struct WishedPortion {
  const YamlEntry* entry = nullptr;
  std::string word;
  double kg = 0.0;
};

std::vector<WishedPortion> portions_in(const YamlEntry& entry, Sign sign, Findings& findings) {
  std::vector<WishedPortion> portions;
  const std::string& key = entry.key.text;
  if (entry.value.kind != YamlKind::map) {
    findings.error(entry.value.span, {fmt::format("`{}` is {}; expected feeds with their amounts",
                                                  key, describe(entry.value.kind)),
                                      fmt::format("write `{}: {{our hay: 9 kg}}`", key), ""});
    return portions;
  }
  for (const YamlEntry& portion : entry.value.entries) {
    const std::string word = single_spaced(portion.key.text);
    if (portion.value.kind == YamlKind::nothing) {
      findings.error(portion.key.span, {fmt::format("`{}` has no amount", word),
                                        fmt::format("write `{}: 2 kg`", word), ""});
      continue;
    }
    const auto text = text_of(portion.value, ticked(word), findings);
    if (!text) continue;
    const auto kg = accepted(read_amount(*text, feed_amount(), sign), portion.value, findings);
    if (kg) portions.push_back({&portion, word, *kg});
  }
  return portions;
}

bool asks_for(WishKind kind) { return kind == WishKind::at_least || kind == WishKind::exactly; }

class WishReader {
 public:
  WishReader(const MapReader& map, const FeedNames& names, Horse& horse)
      : map_(map), names_(names), horse_(horse), findings_(map.findings()) {}

  void read_feeds() {
    const YamlEntry* entry = map_.find("feeds");
    if (entry == nullptr) return;
    const MapReader feeds(entry->value, "feeds", feeds_keys, findings_);
    if (!feeds.is_map()) return;
    if (const YamlEntry* none = feeds.find("none")) {
      for (const auto& [node, word] : words_in(none->value, "none", "[alfalfa]", findings_)) {
        add(WishKind::none, *node, word, 0.0);
      }
    }
    static constexpr std::array<std::pair<std::string_view, WishKind>, 3> kinds{
        {{"at least", WishKind::at_least},
         {"at most", WishKind::at_most},
         {"exactly", WishKind::exactly}}};
    for (const auto& [key, kind] : kinds) {
      const YamlEntry* amounts = feeds.find(key);
      if (amounts == nullptr) continue;
      const Sign sign = asks_for(kind) ? Sign::positive : Sign::not_negative;
      for (const WishedPortion& p : portions_in(*amounts, sign, findings_)) {
        add(kind, p.entry->key, p.word, p.kg);
      }
    }
  }

  void read_fed_now() {
    const YamlEntry* entry = map_.find("fed now");
    if (entry == nullptr) return;
    for (const WishedPortion& p : portions_in(*entry, Sign::not_negative, findings_)) {
      const auto feed = fed_feed(p.entry->key, p.word, names_, findings_);
      if (!feed) continue;
      const auto before = std::find_if(horse_.fed_now.begin(), horse_.fed_now.end(),
                                       [&](const auto& fed) { return fed.first == *feed; });
      if (before != horse_.fed_now.end()) {
        findings_.error(p.entry->key.span,
                        {same_text(p.word, *feed)
                             ? fmt::format("`{}` is fed twice", *feed)
                             : fmt::format("`{}` is `{}`, which is fed already", p.word, *feed),
                         "write one amount for it", ""});
        continue;
      }
      horse_.fed_now.emplace_back(*feed, KgAsFed{p.kg});
    }
  }

  void read_instructions() {
    const YamlEntry* entry = map_.find("instructions");
    if (entry == nullptr) return;
    if (entry->value.kind != YamlKind::list) {
      findings_.error(
          entry->value.span,
          {fmt::format("`instructions` is {}; expected a list", describe(entry->value.kind)),
           "write `instructions: [{rule: forage/min, limit: 1.25, by: \"vet, 2026-10-02\"}]`", ""});
      return;
    }
    for (const YamlNode& node : entry->value.items) read_instruction(node);
  }

 private:
  void add(WishKind kind, const YamlNode& node, const std::string& word, double kg) {
    if (!check_wished(node, word, asks_for(kind), names_, findings_)) return;
    for (const Wish& other : horse_.wishes) {
      if (!same_text(other.what, word) || !contradict(other, kind, kg)) continue;
      findings_.error(node.span,
                      {fmt::format("`{}` cannot be `{}` here and `{}` in line {}", word,
                                   name_of(kind), name_of(other.kind), other.position.line),
                       "keep one of the two", ""});
      return;
    }
    horse_.wishes.push_back({kind, word, KgAsFed{kg}, node.span.position});
  }

  /// Two wishes for one word that no amount can meet, or that say the same.
  static bool contradict(const Wish& other, WishKind kind, double kg) {
    if (other.kind == kind) return true;
    const auto least = [](WishKind k, double amount) {
      return k == WishKind::at_least || k == WishKind::exactly ? amount : 0.0;
    };
    const auto most = [](WishKind k, double amount) {
      if (k == WishKind::none) return 0.0;
      return k == WishKind::at_least ? 1e12 : amount;
    };
    const double other_kg = other.amount.in_kg();
    return least(kind, kg) > most(other.kind, other_kg) ||
           least(other.kind, other_kg) > most(kind, kg);
  }

  void read_instruction(const YamlNode& node) {
    const MapReader map(node, "an instruction", instruction_keys, findings_);
    if (!map.is_map()) return;
    const YamlEntry* rule = map.need("rule", "write `rule: forage/min`; reports name the rules");
    const YamlEntry* limit = map.need("limit", "write `limit: 1.25`, in the unit of the rule");
    const YamlEntry* by = map.need("by", "write who gave it and when: `by: \"vet, 2026-10-02\"`");
    if (rule == nullptr || limit == nullptr || by == nullptr) return;
    const auto id = text_of(rule->value, "`rule`", findings_);
    const auto number_text = text_of(limit->value, "`limit`", findings_);
    const auto who = name_in(by->value, "`by`", findings_);
    if (!id || !number_text || !who) return;
    if (find_rule(*id) == nullptr) {
      std::vector<std::string> ids;
      for (const Rule& known : rule_table()) ids.emplace_back(known.id);
      findings_.error(rule->value.span,
                      {fmt::format("there is no rule `{}`", *id), near_or_all(*id, ids), ""});
      return;
    }
    for (const Instruction& other : horse_.instructions) {
      if (other.rule != *id) continue;
      findings_.error(rule->value.span,
                      {fmt::format("`{}` is instructed a second time", *id), "keep the later one",
                       fmt::format("the first is in line {}", other.position.line)});
      return;
    }
    const auto number = accepted(read_bare_number(*number_text), limit->value, findings_);
    if (!number) return;
    if (auto complaint = sign_complaint(*number, *number_text, Sign::not_negative)) {
      complaint->help = "write `limit: 1.25`, in the unit of the rule";
      findings_.error(limit->value.span, std::move(*complaint));
      return;
    }
    const Instruction instruction{*id, *number, *who, node.span.position};
    if (const auto objection = objection_to(instruction, horse_)) {
      findings_.error(limit->value.span, {*objection, "ask who gave the instruction", ""});
      return;
    }
    horse_.instructions.push_back(instruction);
  }

  const MapReader& map_;
  const FeedNames& names_;
  Horse& horse_;
  Findings& findings_;
};

}  // namespace

void read_wishes(const MapReader& horse_keys_read, const FeedNames& names, Horse& horse) {
  WishReader reader(horse_keys_read, names, horse);
  reader.read_feeds();
  reader.read_fed_now();
  reader.read_instructions();
}

}  // namespace haymow
