#include "scenarios/located_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

// As in located_yaml.cpp.
constexpr std::size_t most_levels = 20;
constexpr std::size_t most_values = 100'000;
constexpr std::string_view record_form =
    "a record is one JSON object on one line: {\"key\": \"17\", \"horses\": [...]}";

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

/// Builds the tree from the events of the JSON parser. The parser does not say where
/// a value stands; but between two events there is nothing except blanks, commas and
/// colons, so the place is where those end.
class TreeBuilder {
 public:
  using Parsed = nlohmann::json;

  explicit TreeBuilder(Findings& findings) : findings_(findings), text_(findings.text()) {}

  // What nlohmann::json::sax_parse calls. False stops it.
  bool null() {
    YamlNode node;
    node.span = word();
    return add(std::move(node));
  }
  bool boolean(bool value) { return scalar(value ? "true" : "false", word()); }
  bool number_integer(Parsed::number_integer_t /*value*/) { return number(); }
  bool number_unsigned(Parsed::number_unsigned_t /*value*/) { return number(); }
  bool number_float(Parsed::number_float_t /*value*/, const std::string& /*written*/) {
    return number();
  }
  bool string(std::string& value) { return scalar(std::move(value), quoted()); }
  // Not of JSON, but part of the interface.
  static bool binary(Parsed::binary_t& /*value*/) { return false; }
  bool start_object(std::size_t /*count*/) { return open(YamlKind::map); }
  bool start_array(std::size_t /*count*/) { return open(YamlKind::list); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }
  bool key(std::string& name) {
    YamlNode node;
    node.kind = YamlKind::text;
    node.span = quoted();
    node.text = std::move(name);
    levels_.back().key = std::move(node);
    return true;
  }
  bool parse_error(std::size_t position, const std::string& last_token,
                   const Parsed::exception& /*error*/) {
    const std::size_t at = std::min(position > 0 ? position - 1 : 0, text_.size());
    const bool ends = at >= text_.size() || last_token.empty();
    findings_.error({findings_.position_of(at), 1},
                    {ends ? "this is not JSON: it ends too early"
                          : fmt::format("this is not JSON: `{}` does not belong here", last_token),
                     std::string(record_form), ""});
    broken_ = true;
    return false;
  }

  [[nodiscard]] YamlNode take_root() { return broken_ ? YamlNode{} : std::move(root_); }

 private:
  struct Level {
    YamlNode node;
    std::optional<YamlNode> key;  // of a map: read, its value not yet
  };

  /// Where the next token starts.
  std::size_t next_token() {
    while (cursor_ < text_.size() &&
           (is_blank(text_[cursor_]) || text_[cursor_] == ',' || text_[cursor_] == ':')) {
      ++cursor_;
    }
    return cursor_;
  }
  /// The place of the text from `from` to the cursor.
  [[nodiscard]] SourceSpan span_from(std::size_t from) const {
    const auto width = character_count(text_.substr(from, cursor_ - from));
    return {findings_.position_of(from), static_cast<int>(std::max<std::size_t>(width, 1))};
  }
  SourceSpan word() {
    const std::size_t from = next_token();
    while (cursor_ < text_.size() && !is_blank(text_[cursor_]) &&
           std::string_view(",]}").find(text_[cursor_]) == std::string_view::npos) {
      ++cursor_;
    }
    return span_from(from);
  }
  SourceSpan quoted() {
    const std::size_t from = next_token();
    ++cursor_;
    while (cursor_ < text_.size() && text_[cursor_] != '"')
      cursor_ += text_[cursor_] == '\\' ? 2 : 1;
    cursor_ = std::min(cursor_ + 1, text_.size());
    return span_from(from);
  }

  bool number() {
    const std::size_t from = next_token();
    const SourceSpan span = word();
    return scalar(std::string(text_.substr(from, cursor_ - from)), span);
  }
  bool scalar(std::string value, const SourceSpan& span) {
    YamlNode node;
    node.kind = YamlKind::text;
    node.text = std::move(value);
    node.span = span;
    return add(std::move(node));
  }

  bool open(YamlKind kind) {
    const std::size_t from = next_token();
    ++cursor_;
    Level level;
    level.node.kind = kind;
    level.node.span = {findings_.position_of(from), 1};
    if (levels_.size() >= most_levels) {
      return stop(level.node.span,
                  fmt::format("more than {} levels inside one another", most_levels));
    }
    levels_.push_back(std::move(level));
    return true;
  }
  bool close() {
    next_token();
    ++cursor_;
    YamlNode node = std::move(levels_.back().node);
    levels_.pop_back();
    return add(std::move(node));
  }

  bool add(YamlNode node) {
    if (++values_ > most_values) {
      return stop(node.span, fmt::format("more than {} values in one record", most_values));
    }
    if (levels_.empty()) {
      root_ = std::move(node);
    } else if (Level& level = levels_.back(); level.node.kind == YamlKind::list) {
      level.node.items.push_back(std::move(node));
    } else {
      add_entry(level, std::move(node));
    }
    return true;
  }

  void add_entry(Level& level, YamlNode value) {
    YamlNode key = *std::exchange(level.key, std::nullopt);
    auto& entries = level.node.entries;
    const auto first = std::find_if(entries.begin(), entries.end(),
                                    [&](const YamlEntry& e) { return e.key.text == key.text; });
    if (first != entries.end()) {
      findings_.error(key.span,
                      {fmt::format("`{}` stands here twice", key.text), "delete one of the two",
                       fmt::format("the first is in line {}", first->key.span.position.line)});
      return;
    }
    if (value.kind == YamlKind::nothing) value.span = key.span;
    entries.push_back({std::move(key), std::move(value)});
  }

  bool stop(const SourceSpan& at, std::string message) {
    findings_.error(at, {std::move(message), "check the brackets", ""});
    broken_ = true;
    return false;
  }

  Findings& findings_;
  std::string_view text_;
  std::size_t cursor_ = 0;
  std::size_t values_ = 0;
  bool broken_ = false;
  std::vector<Level> levels_;
  YamlNode root_;
};

}  // namespace

YamlNode read_json(Findings& findings) {
  TreeBuilder builder(findings);
  static_cast<void>(nlohmann::json::sax_parse(findings.text(), &builder));
  return builder.take_root();
}

}  // namespace haymow
