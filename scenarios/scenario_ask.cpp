#include "scenarios/scenario_ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <utility>

#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "feeds/yaml_changes.h"
#include "model/naming.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_ranges.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

/// Each question costs as much as the file itself (common practice, no source).
constexpr std::size_t most_questions = 40;

constexpr std::string_view question_example =
    "write `ask:` and below it `  - {what if: hay is 6 a bale, prices: {our hay: 6 per bale}}`";

YamlNode* node_at(YamlNode& root, std::string_view list, const SourcePosition& position) {
  YamlEntry* entry = entry_of(root, list);
  if (entry == nullptr) return nullptr;
  const auto found =
      std::find_if(entry->value.items.begin(), entry->value.items.end(), [&](const YamlNode& node) {
        return node.span.position.line == position.line &&
               node.span.position.column == position.column;
      });
  return found == entry->value.items.end() ? nullptr : &*found;
}

YamlNode text_node(std::string text, const SourceSpan& span) {
  YamlNode node;
  node.kind = YamlKind::text;
  node.text = std::move(text);
  node.span = span;
  return node;
}

YamlNode group_of(std::string key, YamlNode value) {
  YamlNode group;
  group.kind = YamlKind::map;
  group.span = value.span;
  const SourceSpan span = value.span;
  group.entries.push_back({text_node(std::move(key), span), std::move(value)});
  return group;
}

/// The entries of a group by name, such as `{our hay: ...}`; what is none is reported.
const std::vector<YamlEntry>& entries_by_name(const YamlEntry& entry, std::string_view example,
                                              Findings& findings) {
  if (entry.value.kind != YamlKind::map) {
    findings.error(entry.value.span,
                   {fmt::format("`{}` of a question is {}; expected names with what changes",
                                entry.key.text, describe(entry.value.kind)),
                    fmt::format("write `{}: {}`", entry.key.text, example), ""});
  }
  return entry.value.entries;
}

class QuestionReader {
 public:
  QuestionReader(const YamlNode& node, const YamlNode& root, const Scenario& base, bool complete,
                 Findings& findings)
      : mistakes_before_(findings.error_count()),
        map_(node, "a question", question_keys, findings),
        tree_(root),
        base_(base),
        complete_(complete),
        findings_(findings) {
    question_.position = node.span.position;
  }

  /// The question without its scenario; nothing when there is a mistake in it.
  std::optional<AskedQuestion> read() {
    if (!map_.is_map()) return std::nullopt;
    if (const YamlEntry* entry = map_.find("what if")) {
      if (auto name = name_in(entry->value, "`what if`", findings_)) question_.what_if = *name;
    }
    change_one_key("prices", "price", "{our hay: 6 per bale}");
    change_one_key("on hand", "on hand", "{our hay: 90 bales of 18 kg}");
    change_horses();
    change_season();
    change_offers("forage");
    change_offers("market");
    leave_out();  // last: what changes of a horse may be its own `none`
    if (findings_.error_count() > mistakes_before_) return std::nullopt;
    if (question_.changes.empty()) {
      findings_.error(map_.span(),
                      {"this question changes nothing in the file",
                       "write what is other than in the file, such as `prices: {our hay: 6 per "
                       "bale}`, or delete the question",
                       ""});
      return std::nullopt;
    }
    if (question_.what_if.empty()) question_.what_if = name_from_changes();
    return std::move(question_);
  }

  /// The file with the changes in it, after read().
  [[nodiscard]] const YamlNode& tree() const { return tree_; }

 private:
  // ---- names ----------------------------------------------------------------

  const Offer* offer_named(const YamlNode& name) {
    const auto& offers = base_.stable.offers;
    const std::string word = single_spaced(name.text);
    std::vector<const Offer*> meant;
    for (const Offer& offer : offers) {
      if (same_text(offer.name, word)) return &offer;
      if (refers_to(word, offer)) meant.push_back(&offer);
    }
    if (meant.size() == 1) return meant.front();
    if (meant.empty()) {
      refuse_feed(name, word);
      return nullptr;
    }
    std::vector<std::string> names;
    for (const Offer* offer : meant) names.push_back(ticked(offer->name));
    findings_.error(name.span, {fmt::format("`{}` can mean {}", word, either_of(names)),
                                "write which one changes", ""});
    return nullptr;
  }

  void refuse_feed(const YamlNode& node, const std::string& word) {
    if (!complete_) return;
    std::vector<std::string> names;
    for (const Offer& offer : base_.stable.offers) names.push_back(offer.name);
    findings_.error(node.span, {fmt::format("nothing on offer is called `{}`", word),
                                near_or_all(word, names), ""});
  }

  std::optional<std::size_t> horse_named(const YamlNode& name) {
    const auto& horses = base_.stable.horses;
    const std::string word = single_spaced(name.text);
    for (std::size_t h = 0; h < horses.size(); ++h) {
      if (same_text(horses[h].name, word)) return h;
    }
    if (complete_) {
      std::vector<std::string> names;
      for (const Horse& horse : horses) names.push_back(horse.name);
      findings_.error(name.span,
                      {fmt::format("no horse is called `{}`", word), near_or_all(word, names), ""});
    }
    return std::nullopt;
  }

  // ---- changes --------------------------------------------------------------

  /// Lays a change over an entry of the file and takes it down as one of `of`.
  void lay(YamlNode* onto, const YamlNode& change, const std::string& of) {
    if (onto == nullptr) return;  // the file has a mistake there
    if (const YamlEntry* name = entry_of(change, "name")) {
      findings_.error(name->key.span, {"a question cannot change a `name`",
                                       "delete this `name`; the answers are compared by it", ""});
      return;
    }
    for (YamlChange& change_made : lay_over(*onto, change)) {
      std::string key;
      for (const std::string& one : change_made.keys) key += (key.empty() ? "" : ", ") + one;
      if (is_changed(of, key)) {
        findings_.error(change.span,
                        {fmt::format("`{}` of `{}` is changed twice in this question", key, of),
                         "keep one of the two", ""});
        return;
      }
      question_.changes.push_back(
          {of, std::move(key), std::move(change_made.before), std::move(change_made.after)});
    }
  }

  [[nodiscard]] bool is_changed(const std::string& of, const std::string& key) const {
    return std::any_of(question_.changes.begin(), question_.changes.end(),
                       [&](const AskedChange& c) { return c.of == of && c.key == key; });
  }

  void lay_over_offer(const Offer& offer, const YamlNode& change) {
    lay(node_at(tree_, offer.own ? "forage" : "market", offer.position), change, offer.name);
    question_.for_every_horse = true;
  }

  void change_one_key(std::string_view asked, const std::string& key, std::string_view example) {
    const YamlEntry* entry = map_.find(asked);
    if (entry == nullptr) return;
    for (const YamlEntry& one : entries_by_name(*entry, example, findings_)) {
      const Offer* offer = offer_named(one.key);
      if (offer != nullptr) lay_over_offer(*offer, group_of(key, one.value));
    }
  }

  void change_offers(const std::string& list) {
    const YamlEntry* entry = map_.find(list);
    if (entry == nullptr) return;
    if (entry->value.kind == YamlKind::list) {
      add_offers(list, *entry);
      return;
    }
    const std::string example =
        list == "forage" ? "{our hay: {waste: 3 %}}" : "{oats: {price: 12 per 20 kg bag}}";
    for (const YamlEntry& one : entries_by_name(*entry, example, findings_)) {
      const Offer* offer = offer_named(one.key);
      if (offer == nullptr || !is_group(one)) continue;
      if (offer->own != (list == "forage")) {
        const std::string_view other = offer->own ? "forage" : "market";
        findings_.error(one.key.span,
                        {fmt::format("`{}` stands under `{}` in the file, not under `{}`",
                                     offer->name, other, list),
                         fmt::format("write it under `{}`", other), ""});
        continue;
      }
      lay_over_offer(*offer, one.value);
    }
  }

  /// A list is of further feeds, as in the file.
  void add_offers(const std::string& list, const YamlEntry& asked) {
    YamlEntry* there = entry_of(tree_, list);
    if (there == nullptr) {
      tree_.entries.push_back({asked.key, YamlNode{YamlKind::list, "", asked.value.span, {}, {}}});
      there = &tree_.entries.back();
    }
    for (const YamlNode& node : asked.value.items) {
      const YamlEntry* name = entry_of(node, "name");
      if (name == nullptr) name = entry_of(node, "feed");
      const std::string told = name == nullptr ? std::string() : written(name->value);
      there->value.items.push_back(node);
      question_.changes.push_back({told, "on offer", std::nullopt, "yes"});
    }
    question_.for_every_horse = true;
  }

  void change_horses() {
    const YamlEntry* entry = map_.find("horses");
    if (entry == nullptr) return;
    for (const YamlEntry& one : entries_by_name(*entry, "{Juniper: {work: heavy}}", findings_)) {
      const auto horse = horse_named(one.key);
      if (!horse || !is_group(one)) continue;
      const Horse& known = base_.stable.horses[*horse];
      const std::size_t before = question_.changes.size();
      lay(node_at(tree_, "horses", known.position), one.value, known.name);
      if (question_.changes.size() > before) question_.horses.push_back(*horse);
    }
  }

  bool is_group(const YamlEntry& entry) {
    if (entry.value.kind == YamlKind::map) return true;
    findings_.error(
        entry.value.span,
        {fmt::format("what changes of `{}` is {}; expected keys of the file with values",
                     entry.key.text, describe(entry.value.kind)),
         fmt::format("write it in braces, such as `{}: {{work: heavy}}`", entry.key.text), ""});
    return false;
  }

  void change_season() {
    const YamlEntry* entry = map_.find("season");
    if (entry == nullptr) return;
    lay(&tree_, group_of("season", entry->value), "the file");
    question_.for_every_horse = true;
  }

  /// Every horse does without: as `none` in the `feeds` of each.
  void leave_out() {
    const YamlEntry* entry = map_.find("without");
    if (entry == nullptr) return;
    for (const auto& [node, word] : words_in(entry->value, "without", "[alfalfa]", findings_)) {
      const auto& offers = base_.stable.offers;
      const bool known = std::any_of(offers.begin(), offers.end(),
                                     [&, &w = word](const Offer& o) { return refers_to(w, o); });
      if (!known) {
        refuse_feed(*node, word);
        continue;
      }
      bool changes = false;
      for (const Horse& horse : base_.stable.horses) {
        YamlNode* there = node_at(tree_, "horses", horse.position);
        if (there != nullptr) changes = add_none(*there, *node) || changes;
      }
      if (changes) question_.changes.push_back({word, "fed to any horse", std::nullopt, "no"});
    }
    question_.for_every_horse = true;
  }

  /// False when the horse does without it already.
  static bool add_none(YamlNode& horse, const YamlNode& word) {
    YamlEntry* feeds = entry_of(horse, "feeds");
    YamlNode list{YamlKind::list, "", word.span, {}, {}};
    if (feeds == nullptr) {
      list.items.push_back(word);
      horse.entries.push_back({text_node("feeds", word.span), group_of("none", std::move(list))});
      return true;
    }
    YamlEntry* none = entry_of(feeds->value, "none");
    if (none == nullptr) {
      list.items.push_back(word);
      feeds->value.entries.push_back({text_node("none", word.span), std::move(list)});
      return true;
    }
    auto& items = none->value.items;
    const bool there = std::any_of(items.begin(), items.end(), [&](const YamlNode& one) {
      return same_text(single_spaced(one.text), single_spaced(word.text));
    });
    if (!there) items.push_back(word);
    return !there;
  }

  [[nodiscard]] std::string name_from_changes() const {
    std::string name;
    for (const AskedChange& c : question_.changes) {
      if (!name.empty()) name += "; ";
      if (c.key == "on offer") {
        name += "with " + c.of;
      } else if (c.key == "fed to any horse") {
        name += "without " + c.of;
      } else {
        name += fmt::format("{} {}", subject_of(c), c.after.value_or("no longer given"));
      }
    }
    return name;
  }

  std::size_t mistakes_before_;  // counted before map_ sees unknown keys
  MapReader map_;
  YamlNode tree_;
  const Scenario& base_;
  bool complete_;
  Findings& findings_;
  AskedQuestion question_;
};

void check_names_differ(const std::vector<AskedQuestion>& before, const YamlNode& node,
                        const AskedQuestion& question, Findings& findings) {
  for (const AskedQuestion& other : before) {
    if (!same_text(other.what_if, question.what_if)) continue;
    findings.error(node.span, {fmt::format("two questions are called `{}`", question.what_if),
                               "give one of them another `what if`",
                               fmt::format("the first is in line {}", other.position.line)});
    return;
  }
}

}  // namespace

std::string subject_of(const AskedChange& change) {
  std::string key = change.key;
  for (auto at = key.find(", "); at != std::string::npos; at = key.find(", ", at)) {
    key.erase(at, 1);
  }
  return change.of == "the file" ? key : change.of + ": " + key;
}

std::vector<AskedQuestion> read_asked(const YamlNode& root, const Scenario& base, bool complete,
                                      const ScenarioReader& read, Findings& findings) {
  std::vector<AskedQuestion> asked;
  const YamlEntry* entry = MapReader(root, "the file", scenario_keys, findings).find("ask");
  if (entry == nullptr) return asked;
  const YamlNode& list = entry->value;
  if (list.kind != YamlKind::list) {
    findings.error(list.span, {fmt::format("`ask` is {}; expected a list", describe(list.kind)),
                               std::string(question_example), ""});
    return asked;
  }
  if (list.items.size() > most_questions) {
    findings.error(entry->key.span, {fmt::format("{} questions are asked; at most {} are answered",
                                                 list.items.size(), most_questions),
                                     "split them over several files", ""});
    return asked;
  }
  YamlNode without_questions = without_ranges(root);
  std::erase_if(without_questions.entries, [](const YamlEntry& e) { return e.key.text == "ask"; });
  for (const YamlNode& node : list.items) {
    QuestionReader reader(node, without_questions, base, complete, findings);
    auto question = reader.read();
    if (!question) continue;
    check_names_differ(asked, node, *question, findings);
    Findings found(findings.text(), findings.file());
    question->scenario = read(reader.tree(), found);
    question->scenario.remarks = found.remarks();
    question->scenario.as_if = question->what_if;
    findings.take_over(
        found, node.span.position.line,
        fmt::format("this is so in the question in line {}", node.span.position.line));
    asked.push_back(std::move(*question));
  }
  return asked;
}

}  // namespace haymow
