#include "feeds/yaml_changes.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  const std::string spaced = single_spaced(text);
  for (std::size_t at = 0; at < spaced.size();) {
    const std::size_t end = std::min(spaced.find(' ', at), spaced.size());
    words.push_back(spaced.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

std::optional<double> number_in(const std::string& word) {
  double number = 0.0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
  if (error != std::errc() || end != word.data() + word.size()) return std::nullopt;
  return number;
}

bool same_word(const std::string& a, const std::string& b) {
  if (same_text(a, b)) return true;
  const auto first = number_in(a);
  const auto second = number_in(b);
  return first && second && *first == *second;
}

bool same_value(const YamlNode& a, const YamlNode& b) {
  if (a.kind != b.kind || a.items.size() != b.items.size() ||
      a.entries.size() != b.entries.size()) {
    return false;
  }
  const auto words = words_of(a.text);
  const auto others = words_of(b.text);
  if (!std::equal(words.begin(), words.end(), others.begin(), others.end(), same_word)) {
    return false;
  }
  if (!std::equal(a.items.begin(), a.items.end(), b.items.begin(), same_value)) return false;
  return std::all_of(a.entries.begin(), a.entries.end(), [&](const YamlEntry& entry) {
    const YamlEntry* other = entry_of(b, entry.key.text);
    return other != nullptr && same_value(entry.value, other->value);
  });
}

void lay_entry(YamlNode& onto, const YamlEntry& change, std::vector<YamlChange>& changes) {
  YamlEntry* there = entry_of(onto, change.key.text);
  const bool gone = change.value.kind == YamlKind::nothing;
  if (there != nullptr && there->value.kind == YamlKind::map &&
      change.value.kind == YamlKind::map) {
    for (YamlChange& inner : lay_over(there->value, change.value)) {
      inner.keys.insert(inner.keys.begin(), change.key.text);
      changes.push_back(std::move(inner));
    }
    return;
  }
  if (there == nullptr ? gone : same_value(there->value, change.value)) return;
  YamlChange told{{change.key.text}, std::nullopt, std::nullopt};
  if (there != nullptr) told.before = written(there->value);
  if (!gone) told.after = written(change.value);
  changes.push_back(std::move(told));
  if (there != nullptr) {
    onto.entries.erase(onto.entries.begin() + (there - onto.entries.data()));
  }
  if (!gone) onto.entries.push_back(change);
}

}  // namespace

YamlEntry* entry_of(YamlNode& map, std::string_view key) {
  const auto found = std::find_if(map.entries.begin(), map.entries.end(),
                                  [&](const YamlEntry& entry) { return entry.key.text == key; });
  return found == map.entries.end() ? nullptr : &*found;
}

const YamlEntry* entry_of(const YamlNode& map, std::string_view key) {
  const auto found = std::find_if(map.entries.begin(), map.entries.end(),
                                  [&](const YamlEntry& entry) { return entry.key.text == key; });
  return found == map.entries.end() ? nullptr : &*found;
}

std::vector<YamlChange> lay_over(YamlNode& onto, const YamlNode& change) {
  std::vector<YamlChange> changes;
  for (const YamlEntry& entry : change.entries) lay_entry(onto, entry, changes);
  return changes;
}

std::string written(const YamlNode& node) {
  if (node.kind == YamlKind::text) return single_spaced(node.text);
  if (node.kind == YamlKind::nothing) return "nothing";
  std::string out = node.kind == YamlKind::list ? "[" : "{";
  const std::size_t empty = out.size();
  const auto add = [&](const std::string& part) {
    out += (out.size() == empty ? "" : ", ") + part;
  };
  for (const YamlNode& item : node.items) add(written(item));
  for (const YamlEntry& entry : node.entries) add(entry.key.text + ": " + written(entry.value));
  return out + (node.kind == YamlKind::list ? "]" : "}");
}

}  // namespace haymow
