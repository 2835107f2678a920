#include "feeds/yaml_edit.h"

#include <algorithm>

#include "feeds/findings.h"
#include "feeds/yaml_changes.h"

namespace haymow {
namespace {

/// The bytes of a value in the file.
struct Stretch {
  std::size_t begin = 0;
  std::size_t end = 0;
};

bool opens_flow(char c) { return c == '{' || c == '['; }
bool closes_flow(char c) { return c == '}' || c == ']'; }

// The tree as it is compared: what is at which line does not matter.
bool same_tree(const YamlNode& a, const YamlNode& b) {
  const auto same_entry = [](const YamlEntry& x, const YamlEntry& y) {
    return x.key.text == y.key.text && same_tree(x.value, y.value);
  };
  return a.kind == b.kind && a.text == b.text &&
         std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(), same_tree) &&
         std::equal(a.entries.begin(), a.entries.end(), b.entries.begin(), b.entries.end(),
                    same_entry);
}

YamlNode* value_at(YamlNode& root, const YamlPath& path) {
  return const_cast<YamlNode*>(value_at(static_cast<const YamlNode&>(root), path));
}

std::optional<YamlNode> read(std::string_view text) {
  Findings findings(text, "");
  YamlNode root = read_yaml(findings);
  if (findings.error_count() > 0) return std::nullopt;
  return root;
}

/// A file and where its values lie in it.
class Places {
 public:
  explicit Places(std::string_view file) : text_(file), findings_(file, "") {
    root_ = read_yaml(findings_);
  }
  [[nodiscard]] bool sound() const { return findings_.error_count() == 0; }
  [[nodiscard]] const YamlNode& root() const { return root_; }
  [[nodiscard]] std::string_view text() const { return text_; }

  /// The byte where a value starts: positions count characters.
  [[nodiscard]] std::size_t begin_of(const YamlNode& node) const {
    const auto line = static_cast<std::size_t>(node.span.position.line) - 1;
    const std::string_view words = findings_.line_text(node.span.position.line);
    std::size_t byte = 0;
    for (int seen = 1; byte < words.size() && seen < node.span.position.column; ++seen) {
      ++byte;
      while (byte < words.size() && (static_cast<unsigned char>(words[byte]) & 0xC0) == 0x80) {
        ++byte;
      }
    }
    return findings_.offset_of(line, byte);
  }

  /// Absent for what is not worth finding: block scalars, empty values.
  [[nodiscard]] std::optional<Stretch> stretch_of(const YamlNode& node, bool in_flow) const {
    if (node.kind == YamlKind::nothing) return std::nullopt;
    const std::size_t begin = begin_of(node);
    if (begin >= text_.size()) return std::nullopt;
    if (node.kind == YamlKind::text) return text_stretch(begin, in_flow);
    if (opens_flow(text_[begin])) return flow_stretch(begin);
    return block_stretch(node, begin);
  }

  /// Whether the value at `path` stands inside brackets.
  [[nodiscard]] bool in_flow(const YamlPath& path) const {
    const YamlNode* node = &root_;
    for (std::size_t i = 0; i < path.size(); ++i) {
      if (is_flow(*node)) return true;
      node = value_at(*node, {path[i]});
      if (node == nullptr) return false;
    }
    return false;
  }
  [[nodiscard]] bool is_flow(const YamlNode& node) const {
    if (node.kind != YamlKind::map && node.kind != YamlKind::list) return false;
    const std::size_t begin = begin_of(node);
    return begin < text_.size() && opens_flow(text_[begin]);
  }

  [[nodiscard]] std::size_t line_begin(std::size_t byte) const {
    const std::size_t before = byte == 0 ? std::string_view::npos : text_.rfind('\n', byte - 1);
    return before == std::string_view::npos ? 0 : before + 1;
  }
  /// After the line break, or the end of the file.
  [[nodiscard]] std::size_t line_end(std::size_t byte) const {
    const std::size_t at = text_.find('\n', byte);
    return at == std::string_view::npos ? text_.size() : at + 1;
  }

 private:
  [[nodiscard]] std::optional<Stretch> text_stretch(std::size_t begin, bool in_flow) const {
    const char first = text_[begin];
    if (first == '"' || first == '\'') return quoted_stretch(begin);
    if (!in_flow && (first == '|' || first == '>')) return std::nullopt;
    std::size_t end = begin;
    for (; end < text_.size() && text_[end] != '\n' && text_[end] != '\r'; ++end) {
      const char c = text_[end];
      const char next = end + 1 < text_.size() ? text_[end + 1] : '\n';
      if (in_flow && (c == ',' || closes_flow(c))) break;
      if (c == ':' && (next == ' ' || next == '\n' || next == '\r')) break;
      if (c == '#' && end > begin && text_[end - 1] == ' ') break;
    }
    while (end > begin && text_[end - 1] == ' ') --end;
    return Stretch{begin, end};
  }

  [[nodiscard]] std::optional<Stretch> quoted_stretch(std::size_t begin) const {
    const char quote = text_[begin];
    for (std::size_t at = begin + 1; at < text_.size(); ++at) {
      if (quote == '"' && text_[at] == '\\') {
        ++at;
      } else if (text_[at] == quote) {
        const bool doubled = quote == '\'' && at + 1 < text_.size() && text_[at + 1] == quote;
        if (!doubled) return Stretch{begin, at + 1};
        ++at;
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Stretch> flow_stretch(std::size_t begin) const {
    int depth = 0;
    for (std::size_t at = begin; at < text_.size(); ++at) {
      const char c = text_[at];
      const char before = at > begin ? text_[at - 1] : ' ';
      const bool starts_text =
          before == ' ' || before == '\n' || before == ',' || opens_flow(before) || before == ':';
      if ((c == '"' || c == '\'') && starts_text) {
        const auto quoted = quoted_stretch(at);
        if (!quoted) return std::nullopt;
        at = quoted->end - 1;
      } else if (c == '#' && (before == ' ' || before == '\n')) {
        at = line_end(at) - 1;
      } else if (opens_flow(c)) {
        ++depth;
      } else if (closes_flow(c) && --depth == 0) {
        return Stretch{begin, at + 1};
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Stretch> block_stretch(const YamlNode& node,
                                                     std::size_t begin) const {
    Stretch out{begin, begin};
    const auto take = [&](const YamlNode& inner) {
      const auto stretch = stretch_of(inner, false);
      if (stretch) out.end = std::max(out.end, stretch->end);
      return stretch.has_value();
    };
    for (const YamlNode& item : node.items) {
      if (!take(item)) return std::nullopt;
    }
    for (const YamlEntry& entry : node.entries) {
      // An empty value ends with its key.
      if (!take(entry.value.kind == YamlKind::nothing ? entry.key : entry.value)) {
        return std::nullopt;
      }
    }
    return out;
  }

  std::string_view text_;
  Findings findings_;
  YamlNode root_;
};

std::string spliced(std::string_view file, const Stretch& place, std::string_view with) {
  std::string out(file.substr(0, place.begin));
  out += with;
  out += file.substr(place.end);
  return out;
}

// The text, if it is the tree that was meant.
std::optional<std::string> proven(std::string text, const YamlNode& meant) {
  const auto tree = read(text);
  if (!tree || !same_tree(*tree, meant)) return std::nullopt;
  return text;
}

// Between double quotes, as YAML takes every text; controls by their number.
std::string in_quotes(const std::string& words) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out = "\"";
  for (const char c : words) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20 || byte == 0x7f) {
      out += "\\x";
      out += digits[byte / 16];
      out += digits[byte % 16];
    } else {
      out += c;
    }
  }
  return out + '"';
}

YamlNode text_node(const std::string& words) {
  YamlNode node;
  node.kind = YamlKind::text;
  node.text = words;
  return node;
}

YamlPath parent_of(const YamlPath& path) { return {path.begin(), path.end() - 1}; }

bool is_blank(std::string_view words) {
  const std::size_t first = words.find_first_not_of(" \r\n");
  return first == std::string_view::npos || words[first] == '#';
}

// The place inside brackets before the closing one, after what stands there.
std::size_t before_closing(std::string_view file, const Stretch& flow) {
  std::size_t at = flow.end - 1;
  while (at > flow.begin + 1 && (file[at - 1] == ' ' || file[at - 1] == '\n')) --at;
  return at;
}

// `from` to `to` of a list inside brackets, with the comma that it no longer needs.
Stretch with_comma(std::string_view file, Stretch place) {
  std::size_t after = place.end;
  while (after < file.size() && file[after] == ' ') ++after;
  if (after < file.size() && file[after] == ',') {
    ++after;
    while (after < file.size() && file[after] == ' ') ++after;
    return {place.begin, after};
  }
  std::size_t before = place.begin;
  while (before > 0 && (file[before - 1] == ' ' || file[before - 1] == '\n')) --before;
  if (before > 0 && file[before - 1] == ',') return {before - 1, place.end};
  return place;
}

std::string line_break_before(std::string_view file, std::size_t at) {
  return at > 0 && file[at - 1] != '\n' ? "\n" : "";
}

}  // namespace

const YamlNode* value_at(const YamlNode& root, const YamlPath& path) {
  const YamlNode* node = &root;
  for (const auto& step : path) {
    if (const auto* key = std::get_if<std::string>(&step)) {
      const YamlEntry* entry = entry_of(*node, *key);
      if (entry == nullptr) return nullptr;
      node = &entry->value;
    } else {
      const std::size_t place = std::get<std::size_t>(step);
      if (place >= node->items.size()) return nullptr;
      node = &node->items[place];
    }
  }
  return node;
}

std::optional<std::string> with_text(std::string_view file, const YamlPath& path,
                                     const std::string& words) {
  const Places places(file);
  const YamlNode* node = places.sound() ? value_at(places.root(), path) : nullptr;
  if (node == nullptr || node->kind != YamlKind::text) return std::nullopt;
  const auto place = places.stretch_of(*node, places.in_flow(path));
  if (!place) return std::nullopt;
  YamlNode meant = places.root();
  *value_at(meant, path) = text_node(words);
  for (const std::string& as : {words, in_quotes(words)}) {
    if (auto text = proven(spliced(file, *place, as), meant)) return text;
  }
  return std::nullopt;
}

std::optional<std::string> with_yaml(std::string_view file, const YamlPath& path,
                                     const std::string& yaml) {
  const Places places(file);
  const auto value = read(yaml);
  const YamlNode* node = places.sound() ? value_at(places.root(), path) : nullptr;
  if (node == nullptr || !value) return std::nullopt;
  const auto place = places.stretch_of(*node, places.in_flow(path));
  if (!place) return std::nullopt;
  YamlNode meant = places.root();
  *value_at(meant, path) = *value;
  return proven(spliced(file, *place, yaml), meant);
}

std::optional<std::string> with_entry(std::string_view file, const YamlPath& path,
                                      const std::string& key, const std::string& yaml) {
  const Places places(file);
  const auto value = read(yaml);
  const YamlNode* group = places.sound() ? value_at(places.root(), path) : nullptr;
  if (group == nullptr || group->kind != YamlKind::map || !value) return std::nullopt;
  const auto place = places.stretch_of(*group, places.in_flow(path));
  if (!place) return std::nullopt;
  YamlNode meant = places.root();
  value_at(meant, path)->entries.push_back({text_node(key), *value});
  const std::string entry = key + ": " + yaml;
  if (places.is_flow(*group)) {
    const std::size_t at = before_closing(file, *place);
    return proven(spliced(file, {at, at}, (group->entries.empty() ? "" : ", ") + entry), meant);
  }
  const std::size_t indent = place->begin - places.line_begin(place->begin);
  const std::size_t at = places.line_end(place->end);
  const std::string line = line_break_before(file, at) + std::string(indent, ' ') + entry + "\n";
  return proven(spliced(file, {at, at}, line), meant);
}

std::optional<std::string> with_item(std::string_view file, const YamlPath& path,
                                     const std::string& yaml) {
  const Places places(file);
  const auto value = read(yaml);
  const YamlNode* list = places.sound() ? value_at(places.root(), path) : nullptr;
  if (list == nullptr || list->kind != YamlKind::list || !value) return std::nullopt;
  const auto place = places.stretch_of(*list, places.in_flow(path));
  if (!place) return std::nullopt;
  YamlNode meant = places.root();
  value_at(meant, path)->items.push_back(*value);
  if (places.is_flow(*list)) {
    const std::size_t at = before_closing(file, *place);
    return proven(spliced(file, {at, at}, (list->items.empty() ? "" : ", ") + yaml), meant);
  }
  const std::size_t indent = place->begin - places.line_begin(place->begin);
  const std::size_t at = places.line_end(place->end);
  const std::string line = line_break_before(file, at) + std::string(indent, ' ') + "- " + yaml;
  return proven(spliced(file, {at, at}, line + "\n"), meant);
}

std::optional<std::string> without(std::string_view file, const YamlPath& path) {
  if (path.empty()) return std::nullopt;
  const Places places(file);
  const YamlPath above = parent_of(path);
  const YamlNode* node = places.sound() ? value_at(places.root(), path) : nullptr;
  if (node == nullptr) return std::nullopt;
  const YamlNode& parent = *value_at(places.root(), above);
  if (parent.items.size() + parent.entries.size() < 2) return std::nullopt;

  const bool flow = places.in_flow(path);
  const YamlNode* first = node;  // what the stretch begins with
  YamlNode meant = places.root();
  YamlNode& meant_parent = *value_at(meant, above);
  if (const auto* key = std::get_if<std::string>(&path.back())) {
    first = &entry_of(parent, *key)->key;
    std::erase_if(meant_parent.entries, [&](const YamlEntry& e) { return e.key.text == *key; });
  } else {
    meant_parent.items.erase(meant_parent.items.begin() +
                             static_cast<std::ptrdiff_t>(std::get<std::size_t>(path.back())));
  }
  const auto last = places.stretch_of(node->kind == YamlKind::nothing ? *first : *node, flow);
  if (!last) return std::nullopt;
  const Stretch whole{places.begin_of(*first), last->end};
  if (flow) return proven(spliced(file, with_comma(file, whole), ""), meant);
  const Stretch lines{places.line_begin(whole.begin), places.line_end(whole.end)};
  // Only whole lines go: nothing else may stand on them but the dash of the item.
  const std::string_view before = file.substr(lines.begin, whole.begin - lines.begin);
  if (before.find_first_not_of(" -") != std::string_view::npos) return std::nullopt;
  if (!is_blank(file.substr(whole.end, lines.end - whole.end))) return std::nullopt;
  return proven(spliced(file, lines, ""), meant);
}

}  // namespace haymow
