// Build step: reads tables/*.yaml strictly and writes the rows of
// feed_table_data.h as C++. A mistake in a table stops the build with
// file:line:column. Not part of the program that users run.
//
//   compile_table OUT.cpp sources.yaml TABLE.yaml...
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "model/feed.h"
#include "model/nutrient.h"

namespace {

using haymow::FeedGroup;
using haymow::FeedTrait;
using haymow::FigureOrigin;
using haymow::Nutrient;

struct Sourced {
  double value = 0.0;
  int source = -1;
};

struct SourceEntry {
  std::string key, title, year, address, origin, note;
  std::string where;
  bool used = false;
};

struct FeedEntry {
  std::string name;
  std::vector<std::string> also;
  FeedGroup group = FeedGroup::hay;
  std::vector<FeedTrait> traits;
  Sourced dry_matter;
  std::map<Nutrient, Sourced> figures;
  double water_parts = -1.0, cold_minutes = -1.0, warm_minutes = -1.0;
  int soaking_source = -1;
  double most_kg = -1.0, most_per_kg = -1.0, kg_per_litre = -1.0;
  std::string note, file;
  int line = 0;
};

/// One table file being read: knows its name, collects what is wrong with it.
class Tables {
 public:
  void read_sources(const std::string& path);
  void read_feeds(const std::string& path);
  void check_use();
  [[nodiscard]] int mistakes() const { return mistakes_; }
  [[nodiscard]] std::string as_cpp() const;

 private:
  using Keys = std::map<std::string, YAML::Node>;

  void complain(const YAML::Node& at, const std::string& what) {
    std::cerr << path_ << ':' << at.Mark().line + 1 << ':' << at.Mark().column + 1
              << ": error: " << what << '\n';
    ++mistakes_;
  }
  std::optional<YAML::Node> load(const std::string& path);
  Keys keys_of(const YAML::Node& map, const std::set<std::string>& known);
  std::string text(const YAML::Node& node);
  std::vector<std::string> texts(const YAML::Node& list);
  /// "890 g from key": the number, its unit checked; the source marked as used.
  std::optional<Sourced> figure(const YAML::Node& node, std::string_view unit);
  std::optional<double> quantity(const YAML::Node& node, const std::string& words,
                                 std::string_view unit);
  int source_named(const YAML::Node& node, const std::string& key);
  void read_feed(const YAML::Node& node);
  void read_kind(const Keys& keys, FeedEntry& feed);
  void read_composition(const YAML::Node& node, FeedEntry& feed);
  void read_soaking(const YAML::Node& node, FeedEntry& feed);
  void read_daily_most(const YAML::Node& node, FeedEntry& feed);
  void claim_name(const YAML::Node& node, const std::string& name);

  std::string path_;
  int mistakes_ = 0;
  std::vector<SourceEntry> sources_;
  std::vector<FeedEntry> feeds_;
  std::map<std::string, std::string> names_;  // lower case -> where it was given
};

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

/// A plain decimal number, the whole of `text`: no signs, no octal look, no nan.
std::optional<double> plain_number(const std::string& text) {
  const bool digits_only = !text.empty() && text.size() < 16 &&
                           text.find_first_not_of("0123456789.") == std::string::npos &&
                           std::count(text.begin(), text.end(), '.') <= 1 && text.front() != '.' &&
                           text.back() != '.';
  if (!digits_only) return std::nullopt;
  if (text.size() > 1 && text[0] == '0' && text[1] != '.') return std::nullopt;
  return std::strtod(text.c_str(), nullptr);
}

std::optional<YAML::Node> Tables::load(const std::string& path) {
  // Messages and positions name the file, not the folder of whoever builds.
  path_ = "feeds/tables/" + path.substr(path.find_last_of('/') + 1);
  try {
    YAML::Node root = YAML::LoadFile(path);
    if (root.IsSequence()) return root;
    complain(root, "expected a list, each item starting with `- `");
  } catch (const YAML::Exception& e) {
    std::cerr << path_ << ':' << e.mark.line + 1 << ':' << e.mark.column + 1 << ": error: " << e.msg
              << '\n';
    ++mistakes_;
  }
  return std::nullopt;
}

Tables::Keys Tables::keys_of(const YAML::Node& map, const std::set<std::string>& known) {
  Keys keys;
  if (!map.IsMap()) {
    complain(map, "expected keys with values");
    return keys;
  }
  for (const auto& entry : map) {
    const YAML::Node& key = entry.first;
    const YAML::Node& value = entry.second;
    const std::string name = text(key);
    if (!known.contains(name)) complain(key, "unknown key `" + name + "`");
    if (!keys.emplace(name, value).second) complain(key, "`" + name + "` is given twice");
  }
  return keys;
}

std::string Tables::text(const YAML::Node& node) {
  if (node.IsScalar() && !node.Scalar().empty()) return node.Scalar();
  complain(node, "expected words");
  return {};
}

std::vector<std::string> Tables::texts(const YAML::Node& list) {
  std::vector<std::string> result;
  if (!list.IsSequence()) {
    complain(list, "expected a list in square brackets");
    return result;
  }
  for (const YAML::Node& item : list) result.push_back(text(item));
  return result;
}

int Tables::source_named(const YAML::Node& node, const std::string& key) {
  for (std::size_t i = 0; i < sources_.size(); ++i) {
    if (sources_[i].key != key) continue;
    sources_[i].used = true;
    return static_cast<int>(i);
  }
  complain(node, "source `" + key + "` is not in sources.yaml");
  return 0;
}

std::optional<double> Tables::quantity(const YAML::Node& node, const std::string& words,
                                       std::string_view unit) {
  const std::size_t space = words.find(' ');
  const std::optional<double> number = plain_number(words.substr(0, space));
  if (space == std::string::npos || !number || words.substr(space + 1) != unit) {
    complain(node, "found `" + words + "`, expected a number in " + std::string{unit});
    return std::nullopt;
  }
  return number;
}

std::optional<Sourced> Tables::figure(const YAML::Node& node, std::string_view unit) {
  const std::string words = text(node);
  const std::size_t from = words.find(" from ");
  if (from == std::string::npos) {
    complain(node,
             "found `" + words + "`, expected `number " + std::string{unit} + " from source`");
    return std::nullopt;
  }
  const std::optional<double> value = quantity(node, words.substr(0, from), unit);
  const int source = source_named(node, words.substr(from + 6));
  if (!value) return std::nullopt;
  return Sourced{*value, source};
}

void Tables::read_sources(const std::string& path) {
  const std::optional<YAML::Node> root = load(path);
  if (!root) return;
  std::set<std::string> seen;
  for (const YAML::Node& node : *root) {
    Keys keys = keys_of(node, {"key", "title", "year", "address", "origin", "note"});
    const auto words = [&](const char* key, bool needed) {
      if (keys.contains(key)) return text(keys[key]);
      if (needed) complain(node, std::string{"`"} + key + "` is missing");
      return std::string{};
    };
    SourceEntry entry;
    entry.key = words("key", true);
    entry.title = words("title", true);
    entry.year = words("year", true);
    entry.address = words("address", false);
    entry.origin = words("origin", true);
    entry.note = words("note", false);
    entry.where = path_ + ':' + std::to_string(node.Mark().line + 1);
    const std::set<std::string> origins{"printed", "calculated", "estimated", "memory"};
    if (!origins.contains(entry.origin)) {
      complain(node, "origin `" + entry.origin +
                         "` is not one of printed, calculated, estimated, memory");
    }
    if (!seen.insert(entry.key).second) complain(node, "`" + entry.key + "` is listed twice");
    sources_.push_back(std::move(entry));
  }
}

void Tables::read_feeds(const std::string& path) {
  const std::optional<YAML::Node> root = load(path);
  if (!root) return;
  for (const YAML::Node& node : *root) read_feed(node);
}

void Tables::claim_name(const YAML::Node& node, const std::string& name) {
  const std::string here = path_ + ':' + std::to_string(node.Mark().line + 1);
  const auto [other, fresh] = names_.emplace(lower(name), here);
  if (!fresh) complain(node, "`" + name + "` already names a feed at " + other->second);
}

void Tables::read_feed(const YAML::Node& node) {
  const Keys keys =
      keys_of(node, {"name", "also", "group", "traits", "dry matter", "per kg dry matter",
                     "soaking", "most a day", "bulk density", "note"});
  for (const char* needed : {"name", "group", "dry matter", "per kg dry matter"}) {
    if (keys.contains(needed)) continue;
    complain(node, std::string{"`"} + needed + "` is missing");
    return;
  }
  FeedEntry feed;
  feed.file = path_;
  feed.line = node.Mark().line + 1;
  read_kind(keys, feed);
  if (const auto dm = figure(keys.at("dry matter"), "g")) {
    feed.dry_matter = *dm;
    if (dm->value < 1.0 || dm->value > 1000.0) {
      complain(keys.at("dry matter"), "dry matter must lie between 1 and 1000 g in a kg");
    }
  }
  read_composition(keys.at("per kg dry matter"), feed);
  if (keys.contains("soaking")) read_soaking(keys.at("soaking"), feed);
  if (keys.contains("most a day")) read_daily_most(keys.at("most a day"), feed);
  if (keys.contains("bulk density")) {
    if (const auto density = figure(keys.at("bulk density"), "kg/l")) {
      feed.kg_per_litre = density->value;
    }
  }
  if (keys.contains("note")) feed.note = text(keys.at("note"));
  feeds_.push_back(std::move(feed));
}

void Tables::read_kind(const Keys& keys, FeedEntry& feed) {
  feed.name = text(keys.at("name"));
  claim_name(keys.at("name"), feed.name);
  if (keys.contains("also")) {
    feed.also = texts(keys.at("also"));
    for (const std::string& other : feed.also) claim_name(keys.at("also"), other);
  }
  const std::string group = text(keys.at("group"));
  if (const auto known = haymow::feed_group_named(group)) {
    feed.group = *known;
  } else {
    complain(keys.at("group"), "`" + group + "` is not a group of feeds");
  }
  if (!keys.contains("traits")) return;
  for (const std::string& trait : texts(keys.at("traits"))) {
    if (const auto known = haymow::feed_trait_named(trait)) {
      feed.traits.push_back(*known);
    } else {
      complain(keys.at("traits"), "`" + trait + "` is not a trait of feeds");
    }
  }
}

void Tables::read_composition(const YAML::Node& node, FeedEntry& feed) {
  if (!node.IsMap()) {
    complain(node, "expected a list of figures");
    return;
  }
  for (const auto& entry : node) {
    const YAML::Node& key = entry.first;
    const YAML::Node& value = entry.second;
    const std::optional<Nutrient> nutrient = haymow::nutrient_named(text(key));
    if (!nutrient) {
      complain(key, "`" + text(key) + "` is not a nutrient");
      continue;
    }
    const auto known = figure(value, haymow::traits_of(*nutrient).unit);
    if (!known) continue;
    if (!feed.figures.emplace(*nutrient, *known).second) {
      complain(key, "`" + text(key) + "` is given twice");
    }
  }
}

void Tables::read_soaking(const YAML::Node& node, FeedEntry& feed) {
  Keys keys = keys_of(node, {"water", "cold", "warm", "from"});
  for (const char* needed : {"water", "cold", "from"}) {
    if (keys.contains(needed)) continue;
    complain(node, std::string{"soaking: `"} + needed + "` is missing");
    return;
  }
  const auto amount = [&](const char* key, const char* unit) {
    return quantity(keys[key], text(keys[key]), unit).value_or(-1.0);
  };
  feed.water_parts = amount("water", "parts");
  feed.cold_minutes = amount("cold", "min");
  if (keys.contains("warm")) feed.warm_minutes = amount("warm", "min");
  feed.soaking_source = source_named(keys["from"], text(keys["from"]));
}

void Tables::read_daily_most(const YAML::Node& node, FeedEntry& feed) {
  const std::string words = text(node);
  const std::size_t per = words.find(" per ");
  const auto grams = quantity(node, words.substr(0, per), "g");
  if (grams) feed.most_kg = *grams / 1000.0;
  if (per == std::string::npos) return;
  feed.most_per_kg = quantity(node, words.substr(per + 5), "kg").value_or(-1.0);
}

void Tables::check_use() {
  for (const SourceEntry& source : sources_) {
    if (source.used) continue;
    std::cerr << source.where << ":1: error: no figure comes from `" << source.key << "`\n";
    ++mistakes_;
  }
}

std::string quoted(const std::string& text) {
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') result += '\\';
    result += c == '\n' ? ' ' : c;
  }
  return result + '"';
}

void write_arrays(std::ostream& out, std::size_t i, const FeedEntry& feed) {
  out << "constexpr std::array<std::string_view, " << feed.also.size() << "> also_" << i << "{";
  for (const std::string& other : feed.also) out << quoted(other) << ", ";
  out << "};\nconstexpr std::array<FeedTrait, " << feed.traits.size() << "> traits_" << i << "{";
  for (const FeedTrait trait : feed.traits) out << "FeedTrait(" << static_cast<int>(trait) << "), ";
  out << "};\nconstexpr std::array<FigureRow, " << feed.figures.size() << "> figures_" << i << "{{";
  for (const auto& [nutrient, figure] : feed.figures) {
    out << "{Nutrient(" << static_cast<int>(nutrient) << "), " << figure.value << ", "
        << figure.source << "}, ";
  }
  out << "}};\n";
}

void write_row(std::ostream& out, std::size_t i, const FeedEntry& feed) {
  out << "    {" << quoted(feed.name) << ", also_" << i << ", FeedGroup("
      << static_cast<int>(feed.group) << "), traits_" << i << ", " << feed.dry_matter.value << ", "
      << feed.dry_matter.source << ", figures_" << i << ", {" << feed.water_parts << ", "
      << feed.cold_minutes << ", " << feed.warm_minutes << ", " << feed.soaking_source << "}, "
      << feed.most_kg << ", " << feed.most_per_kg << ", " << feed.kg_per_litre << ", "
      << quoted(feed.note) << ", " << quoted(feed.file) << ", " << feed.line << "},\n";
}

std::string Tables::as_cpp() const {
  std::ostringstream out;
  out.precision(15);
  out << "// Written by compile_table from feeds/tables/*.yaml. Do not edit.\n"
         "#include <array>\n\n#include \"feeds/feed_table_data.h\"\n\n"
         "namespace haymow::table_data {\nnamespace {\n\n";
  for (std::size_t i = 0; i < feeds_.size(); ++i) write_arrays(out, i, feeds_[i]);
  out << "constexpr std::array<FeedRow, " << feeds_.size() << "> feeds{{\n";
  for (std::size_t i = 0; i < feeds_.size(); ++i) write_row(out, i, feeds_[i]);
  out << "}};\n\nconstexpr std::array<SourceRow, " << sources_.size() << "> sources{{\n";
  for (const SourceEntry& source : sources_) {
    out << "    {" << quoted(source.key) << ", " << quoted(source.title) << ", "
        << quoted(source.year) << ", " << quoted(source.address)
        << ", FigureOrigin::" << source.origin << ", " << quoted(source.note) << "},\n";
  }
  out << "}};\n\n}  // namespace\n\n"
         "std::span<const FeedRow> feed_rows() { return feeds; }\n"
         "std::span<const SourceRow> source_rows() { return sources; }\n\n"
         "}  // namespace haymow::table_data\n";
  return out.str();
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  if (arguments.size() < 3) {
    std::cerr << "usage: compile_table OUT.cpp sources.yaml TABLE.yaml...\n";
    return 2;
  }
  Tables tables;
  tables.read_sources(arguments[1]);
  for (std::size_t i = 2; i < arguments.size(); ++i) tables.read_feeds(arguments[i]);
  tables.check_use();
  if (tables.mistakes() > 0) return 1;
  std::ofstream out(arguments[0]);
  out << tables.as_cpp();
  out.close();
  return out.fail() ? 1 : 0;
}
