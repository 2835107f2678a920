#include "scenarios/batch_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "feeds/source_text.h"
#include "feeds/yaml_changes.h"
#include "scenarios/located_json.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_parts.h"

namespace haymow {
namespace {

constexpr std::string_view key_word = "key";
/// Long enough for any database's (common practice, no source).
constexpr std::size_t longest_key = 200;

void drop(YamlNode& map, std::string_view key) {
  std::erase_if(map.entries, [&](const YamlEntry& e) { return e.key.text == key; });
}

// A record that has only these needs nothing of what is shared read again.
bool is_of_horses_alone(const YamlNode& record) {
  return std::all_of(record.entries.begin(), record.entries.end(),
                     [](const YamlEntry& e) { return e.key.text == "horses"; });
}

// What was found in a file shared by all records is told once, not with each.
void drop_shared(std::vector<Diagnostic>& diagnostics, const std::string& file) {
  std::erase_if(diagnostics, [&](const Diagnostic& d) { return d.position.file != file; });
}

// As written: whoever joins the answers to the records does so by these characters.
std::optional<std::string> sound_key(const YamlNode& node, Findings& findings) {
  const std::string& key = node.text;
  const bool control = std::any_of(key.begin(), key.end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
  });
  if (node.kind == YamlKind::text && !key.empty() && !control &&
      character_count(key) <= longest_key) {
    return key;
  }
  findings.error(node.span,
                 {node.kind != YamlKind::text
                      ? fmt::format("`key` is {}; expected a single value", describe(node.kind))
                  : key.empty() ? "`key` is empty"
                  : control     ? "`key` holds a control character"
                                : fmt::format("`key` has {} characters; at most {} are "
                                                  "read",
                                              character_count(key), longest_key),
                  "write a short text that no other record has: \"key\": \"17\"", ""});
  return std::nullopt;
}

// The key of a record of JSON lines, taken out of it.
std::optional<std::string> take_key(YamlNode& root, Findings& findings) {
  if (root.kind != YamlKind::map) {
    if (findings.error_count() == 0) {
      findings.error(root.span,
                     {fmt::format("the record is {}; expected a JSON object", describe(root.kind)),
                      "write {\"key\": \"17\", \"horses\": [...]}", ""});
    }
    root = YamlNode{};
    return std::nullopt;
  }
  std::optional<std::string> key;
  if (const YamlEntry* entry = entry_of(root, key_word)) {
    key = sound_key(entry->value, findings);
  } else {
    findings.error(root.span, {"the record has no `key`",
                               "add one that no other record has: \"key\": \"17\"", ""});
  }
  drop(root, key_word);
  return key;
}

Diagnostic trouble_with(const Record& record) {
  Diagnostic diagnostic;
  diagnostic.position = {record.file, record.line, 1};
  diagnostic.message = *record.trouble;
  return diagnostic;
}

}  // namespace

std::uint64_t digest_of(std::string_view text, std::uint64_t before) {
  // FNV-1a (Fowler, Noll & Vo, draft-eastlake-fnv), its bits mixed by the finaliser of
  // splitmix64 (Steele, Lea & Flood 2014).
  std::uint64_t hash = 0xcbf29ce484222325U ^ before;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3U;
  }
  hash ^= hash >> 30U;
  hash *= 0xbf58476d1ce4e5b9U;
  hash ^= hash >> 27U;
  hash *= 0x94d049bb133111ebU;
  return hash ^ (hash >> 31U);
}

struct SharedScenario::Parts {
  YamlNode root;        // without horses and questions
  YamlNode horse_side;  // what the reading of horses looks at besides them
  YardRead yard;
  std::vector<Diagnostic> remarks;
  std::size_t own_horses = 0;
};

SharedScenario::SharedScenario(std::string_view text, const std::string& file) {
  auto parts = std::make_unique<Parts>();
  Findings findings(without_byte_order_mark(text), file);
  parts->root = read_yaml(findings);
  findings.throw_if_any();
  YamlNode& root = parts->root;
  {
    const MapReader keys(root, "the file", scenario_keys, findings);
    parts->yard = read_yard(keys);
    if (const YamlEntry* horses = keys.find_quietly("horses")) {
      Scenario with_horses = parts->yard.scenario;
      read_horses(keys, parts->yard.complete, with_horses);
      parts->own_horses = horses->value.items.size();
    }
  }
  findings.throw_if_any();
  parts->remarks = findings.remarks();
  drop(root, "horses");
  drop(root, "ask");
  parts->horse_side.kind = YamlKind::map;
  for (const std::string_view key : {"season", "feeding times"}) {
    if (const YamlEntry* entry = entry_of(root, key)) parts->horse_side.entries.push_back(*entry);
  }
  parts_ = std::move(parts);
}

SharedScenario::~SharedScenario() = default;

const std::vector<Diagnostic>& SharedScenario::remarks() const { return parts_->remarks; }
std::size_t SharedScenario::own_horses() const { return parts_->own_horses; }
bool SharedScenario::has_stock() const {
  const Stable& stable = parts_->yard.scenario.stable;
  return stable.season && std::any_of(stable.offers.begin(), stable.offers.end(),
                                      [](const Offer& o) { return o.on_hand.has_value(); });
}

RecordReader::RecordReader(const SharedScenario* shared) : shared_(shared) {
  if (shared_ != nullptr) with_horses_ = shared_->parts_->yard.scenario;
}

RecordReader::Read RecordReader::read(const Record& record) {
  Read out;
  out.about.digest = digest_of(record.text);
  if (record.path) out.about.key = record.path;
  if (record.trouble) {
    out.diagnostics.push_back(trouble_with(record));
    return out;
  }
  Findings findings(record.path ? without_byte_order_mark(record.text) : record.text, record.file,
                    record.line);
  YamlNode root = record.path ? read_yaml(findings) : read_json(findings);
  if (!record.path) out.about.key = take_key(root, findings);
  const bool is_broken = root.kind == YamlKind::nothing && findings.error_count() > 0;
  if (!is_broken) {
    if (const YamlEntry* asked = entry_of(root, "ask")) {
      findings.remark(asked->key.span, {"questions under `ask` are not answered in a batch",
                                        "`haymow ration` answers them", ""});
      drop(root, "ask");
    }
    if (shared_ != nullptr && root.kind == YamlKind::map && is_of_horses_alone(root)) {
      const auto& parts = *shared_->parts_;
      for (const YamlEntry& entry : parts.horse_side.entries) root.entries.push_back(entry);
      const MapReader keys(root, "the record", scenario_keys, findings);
      with_horses_.stable.horses.clear();
      read_horses(keys, parts.yard.complete, with_horses_);
      out.scenario = &with_horses_;
    } else {
      if (shared_ != nullptr && root.kind == YamlKind::map) {
        for (const YamlEntry& entry : shared_->parts_->root.entries) {
          if (entry_of(root, entry.key.text) == nullptr) root.entries.push_back(entry);
        }
      }
      whole_ = scenario_in(root, findings);
      out.scenario = &whole_;
    }
  }
  if (findings.error_count() > 0 || is_broken) {
    out.scenario = nullptr;
    try {
      findings.throw_if_any();
    } catch (const InputError& error) {
      out.diagnostics = error.diagnostics();
    }
    return out;
  }
  out.diagnostics = findings.remarks();
  drop_shared(out.diagnostics, record.file);
  return out;
}

RecordKey key_of(const Record& record) {
  RecordKey about{record.path, digest_of(record.text)};
  if (record.path || record.trouble) return about;
  Findings findings(record.text, record.file, record.line);
  YamlNode root = read_json(findings);
  about.key = take_key(root, findings);
  return about;
}

}  // namespace haymow
