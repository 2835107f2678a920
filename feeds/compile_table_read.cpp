#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "feeds/compile_table_rows.h"
#include "feeds/located_yaml.h"
#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "feeds/quantity.h"
#include "model/nutrient.h"

namespace haymow::compile_table {
namespace {

constexpr std::array<std::string_view, 7> source_keys{"key",    "title", "year",   "address",
                                                      "origin", "note",  "used by"};
constexpr std::array<std::string_view, 10> feed_keys{
    "name",    "also",       "group",        "traits", "dry matter", "per kg dry matter",
    "soaking", "most a day", "bulk density", "note"};
constexpr std::array<std::string_view, 4> soaking_keys{"water", "cold", "warm", "from"};

template <class Names>
std::vector<std::string> all_names(const Names& kinds) {
  std::vector<std::string> names;
  names.reserve(kinds.size());
  for (const auto kind : kinds) names.emplace_back(name_of(kind));
  return names;
}

std::vector<std::string> nutrient_names() {
  std::vector<std::string> names;
  names.reserve(all_nutrients().size());
  for (const Nutrient nutrient : all_nutrients()) names.emplace_back(traits_of(nutrient).name);
  return names;
}

/// Reads one table file into the tables, mistakes into its findings.
class Reader {
 public:
  Reader(Findings& findings, Tables& tables) : findings_(findings), tables_(tables) {}

  void read_source(const YamlNode& node);
  void read_feed(const YamlNode& node);

 private:
  void complain(const YamlNode& at, std::string message, std::string help = "") {
    findings_.error(at.span, Complaint{std::move(message), std::move(help), ""});
  }
  static std::string needed_text(const MapReader& map, std::string_view key);
  /// `words` as "number unit".
  std::optional<double> quantity(const YamlNode& at, const std::string& words,
                                 std::string_view unit);
  /// "number unit from source".
  std::optional<Sourced> figure(const YamlNode& node, std::string_view unit);
  std::size_t source_named(const YamlNode& at, const std::string& key);
  void claim_name(const YamlNode& at, const std::string& name);

  void read_kind(const MapReader& map, const YamlNode& node, FeedEntry& feed);
  void read_composition(const YamlNode& node, FeedEntry& feed);
  void read_handling(const MapReader& map, FeedEntry& feed);
  SoakingEntry soaking(const YamlNode& node);

  Findings& findings_;
  Tables& tables_;
};

std::string Reader::needed_text(const MapReader& map, std::string_view key) {
  map.need(key, "see docs/reference/feed-table.md");
  return map.text(key).value_or("");
}

std::optional<double> Reader::quantity(const YamlNode& at, const std::string& words,
                                       std::string_view unit) {
  const auto read = accepted(read_leading_number(words), at, findings_);
  if (!read) return std::nullopt;
  if (read->rest != unit || read->number < 0.0) {
    complain(at, "found " + ticked(words) + ", expected a number in " + std::string{unit});
    return std::nullopt;
  }
  return read->number;
}

std::optional<Sourced> Reader::figure(const YamlNode& node, std::string_view unit) {
  const std::size_t from = node.text.find(" from ");
  if (node.kind != YamlKind::text || from == std::string::npos) {
    complain(node, "expected `number " + std::string{unit} + " from source`");
    return std::nullopt;
  }
  const std::optional<double> number = quantity(node, node.text.substr(0, from), unit);
  const std::size_t source = source_named(node, node.text.substr(from + 6));
  if (!number) return std::nullopt;
  return Sourced{*number, source};
}

std::size_t Reader::source_named(const YamlNode& at, const std::string& key) {
  std::vector<std::string> keys;
  keys.reserve(tables_.sources.size());
  for (std::size_t i = 0; i < tables_.sources.size(); ++i) {
    keys.push_back(tables_.sources[i].key);
    if (keys.back() != key) continue;
    tables_.sources[i].used = true;
    return i;
  }
  const std::string near = suggestion(key, keys);
  complain(at, "source " + ticked(key) + " is not in sources.yaml",
           near.empty() ? "add it there" : near);
  return 0;
}

void Reader::claim_name(const YamlNode& at, const std::string& name) {
  const auto [other, fresh] = tables_.names.emplace(lower_case(name), at.span.position);
  if (fresh) return;
  complain(at, ticked(name) + " already names a feed at " + other->second.file + ":" +
                   std::to_string(other->second.line));
}

void Reader::read_source(const YamlNode& node) {
  const MapReader map(node, "a source", source_keys, findings_);
  SourceEntry entry;
  entry.key = needed_text(map, "key");
  entry.title = needed_text(map, "title");
  entry.year = needed_text(map, "year");
  entry.address = map.text("address").value_or("");
  entry.origin = needed_text(map, "origin");
  entry.note = map.text("note").value_or("");
  entry.span = node.span;
  if (const YamlEntry* user = map.find("used by")) {
    if (user->value.text != "needs" && user->value.text != "own feeds") {
      complain(user->value, "only `needs` and `own feeds` have sources besides the table");
    }
    entry.used = true;
  }
  const std::vector<std::string> origins{"printed", "calculated", "estimated", "memory"};
  if (std::find(origins.begin(), origins.end(), entry.origin) == origins.end()) {
    complain(node, ticked(entry.origin) + " is not an origin", "write " + either_of(origins));
  }
  for (const SourceEntry& other : tables_.sources) {
    if (other.key == entry.key) complain(node, ticked(entry.key) + " is listed twice");
  }
  tables_.sources.push_back(std::move(entry));
}

void Reader::read_feed(const YamlNode& node) {
  const MapReader map(node, "a feed", feed_keys, findings_);
  FeedEntry feed;
  feed.position = node.span.position;
  read_kind(map, node, feed);
  const std::string_view help = "see docs/reference/feed-table.md";
  if (const YamlEntry* dry_matter = map.need("dry matter", help)) {
    feed.dry_matter = figure(dry_matter->value, "g").value_or(Sourced{1.0, 0});
    if (feed.dry_matter.value < 1.0 || feed.dry_matter.value > 1000.0) {
      complain(dry_matter->value, "dry matter must lie between 1 and 1000 g in a kg");
    }
  }
  if (const YamlEntry* composition = map.need("per kg dry matter", help)) {
    read_composition(composition->value, feed);
  }
  read_handling(map, feed);
  feed.note = map.text("note").value_or("");
  tables_.feeds.push_back(std::move(feed));
}

void Reader::read_kind(const MapReader& map, const YamlNode& node, FeedEntry& feed) {
  feed.name = needed_text(map, "name");
  claim_name(node, feed.name);
  if (const YamlEntry* also = map.find("also")) {
    for (const YamlNode& other : also->value.items) {
      feed.also.push_back(other.text);
      claim_name(other, other.text);
    }
  }
  const std::string group = needed_text(map, "group");
  if (const auto known = feed_group_named(group)) {
    feed.group = *known;
  } else if (const YamlEntry* given = map.find("group")) {
    complain(given->value, ticked(group) + " is not a group",
             "write " + either_of(all_names(all_feed_groups())));
  }
  const YamlEntry* traits = map.find("traits");
  if (traits == nullptr) return;
  for (const YamlNode& trait : traits->value.items) {
    if (const auto known = feed_trait_named(trait.text)) {
      feed.traits.insert(*known);
    } else {
      complain(trait, ticked(trait.text) + " is not a trait",
               "write " + either_of(all_names(all_feed_traits())));
    }
  }
}

void Reader::read_composition(const YamlNode& node, FeedEntry& feed) {
  if (node.kind != YamlKind::map) complain(node, "expected one figure a line");
  for (const YamlEntry& entry : node.entries) {
    const std::optional<Nutrient> nutrient = nutrient_named(entry.key.text);
    if (!nutrient) {
      complain(entry.key, ticked(entry.key.text) + " is not a nutrient",
               suggestion(entry.key.text, nutrient_names()));
      continue;
    }
    const auto known = figure(entry.value, traits_of(*nutrient).unit);
    if (known && !feed.figures.emplace(*nutrient, *known).second) {
      complain(entry.key, ticked(entry.key.text) + " is given twice, under two of its names");
    }
  }
}

void Reader::read_handling(const MapReader& map, FeedEntry& feed) {
  if (const YamlEntry* given = map.find("soaking")) feed.soaking = soaking(given->value);
  if (const YamlEntry* density = map.find("bulk density")) {
    if (const auto known = figure(density->value, "kg/l")) feed.kg_per_litre = known->value;
  }
  const YamlEntry* most = map.find("most a day");
  if (most == nullptr) return;
  // "100 g" a horse, or "100 g per 500 kg" of its bodyweight.
  const std::string& words = most->value.text;
  const std::size_t per = words.find(" per ");
  if (const auto grams = quantity(most->value, words.substr(0, per), "g")) {
    feed.daily_most_kg = *grams / 1000.0;
  }
  if (per == std::string::npos) return;
  feed.daily_most_per_kg = quantity(most->value, words.substr(per + 5), "kg");
}

SoakingEntry Reader::soaking(const YamlNode& node) {
  const MapReader map(node, "soaking", soaking_keys, findings_);
  const auto amount = [&](std::string_view key, std::string_view unit) -> std::optional<double> {
    const YamlEntry* given = map.find(key);
    if (given == nullptr) return std::nullopt;
    return quantity(given->value, given->value.text, unit);
  };
  needed_text(map, "water");
  needed_text(map, "cold");
  SoakingEntry entry;
  entry.water_parts = amount("water", "parts").value_or(0.0);
  entry.cold_minutes = amount("cold", "min").value_or(0.0);
  entry.warm_minutes = amount("warm", "min");
  entry.source = source_named(node, needed_text(map, "from"));
  return entry;
}

const std::vector<YamlNode>& items_of(Findings& findings, const YamlNode& root) {
  if (root.kind != YamlKind::list) {
    findings.error(root.span, Complaint{"expected a list, each entry starting with `- `", "", ""});
  }
  return root.items;
}

}  // namespace

void read_sources(Findings& findings, Tables& tables) {
  const YamlNode root = read_yaml(findings);
  Reader reader(findings, tables);
  for (const YamlNode& node : items_of(findings, root)) reader.read_source(node);
}

void read_feeds(Findings& findings, Tables& tables) {
  const YamlNode root = read_yaml(findings);
  Reader reader(findings, tables);
  for (const YamlNode& node : items_of(findings, root)) reader.read_feed(node);
}

void refuse_unused_sources(Findings& findings, const Tables& tables) {
  for (const SourceEntry& source : tables.sources) {
    if (source.used) continue;
    findings.error(source.span, Complaint{"no figure comes from " + ticked(source.key),
                                          "take it out, or give a figure that source", ""});
  }
}

}  // namespace haymow::compile_table
