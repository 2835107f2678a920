#include "feeds/located_yaml.h"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <map>
#include <optional>
#include <sstream>
#include <utility>

#include "feeds/plain_text.h"
#include "feeds/source_text.h"
#include "feeds/yaml_advice.h"

namespace haymow {
namespace {

// A scenario needs five levels and some thousand values (common practice, no source).
constexpr std::size_t most_levels = 20;
constexpr std::size_t most_values = 100'000;

/// Thrown, and caught, in this file only: the rest of the document is not read.
struct StopReading {};

/// Builds the tree from the events of the YAML parser. It listens to events and
/// not to YAML::Node because a node tree hides aliases and second documents.
class TreeBuilder final : public YAML::EventHandler {
 public:
  explicit TreeBuilder(Findings& findings) : findings_(findings) {}

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (++documents_ == 1) return;
    const SourceSpan here = span_at(mark);
    const bool dashes = findings_.line_text(here.position.line).substr(0, 3) == "---";
    stop(here, dashes
                   ? Complaint{"a second document starts here; a file holds one",
                               "move it to a file of its own", ""}
                   : Complaint{"this line does not belong to what stands above it",
                               "check the indent: entries side by side start in one column", ""});
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    refuse_decoration(mark, "", anchor);
    YamlNode node;
    node.span = span_at(mark);
    add(std::move(node));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    stop(span_at(mark), aliases_are_not_read());
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    refuse_decoration(mark, tag, anchor);
    YamlNode node;
    node.kind = YamlKind::text;
    node.text = value;
    node.span = span_at(mark);
    node.span.width = shown_width(node, byte_of(mark));
    last_text_ = byte_of(mark);
    add(std::move(node));
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(YamlKind::list, mark, tag, anchor);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(YamlKind::map, mark, tag, anchor);
  }
  void OnMapEnd() override { close(); }

  [[nodiscard]] YamlNode take_root() { return std::move(root_); }
  /// The byte where the last text of the document starts.
  [[nodiscard]] std::optional<std::size_t> last_text() const { return last_text_; }

 private:
  struct Level {
    YamlNode node;
    std::optional<YamlNode> key;  // of a map: read, its value not yet
    std::map<std::string, int> line_of_key;
  };

  [[nodiscard]] SourceSpan span_at(const YAML::Mark& mark) const {
    return {findings_.position_in(static_cast<std::size_t>(std::max(mark.line, 0)),
                                  static_cast<std::size_t>(std::max(mark.column, 0))),
            1};
  }
  [[nodiscard]] std::size_t byte_of(const YAML::Mark& mark) const {
    return findings_.offset_of(static_cast<std::size_t>(std::max(mark.line, 0)),
                               static_cast<std::size_t>(std::max(mark.column, 0)));
  }
  /// Characters to mark: the text, with its quotes, as far as it stays on its line.
  [[nodiscard]] int shown_width(const YamlNode& node, std::size_t byte) const {
    const std::string_view text = findings_.text();
    const bool quote = byte < text.size() && (text[byte] == '"' || text[byte] == '\'');
    const std::size_t wanted = character_count(node.text) + (quote ? 2 : 0);
    const std::size_t line = character_count(findings_.line_text(node.span.position.line));
    const auto before = static_cast<std::size_t>(node.span.position.column) - 1;
    const std::size_t left = line > before ? line - before : 1;
    return static_cast<int>(std::clamp<std::size_t>(wanted, 1, std::max<std::size_t>(left, 1)));
  }

  [[noreturn]] void stop(const SourceSpan& here, Complaint complaint) {
    findings_.error(here, std::move(complaint));
    throw StopReading{};
  }

  void refuse_decoration(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
    if (anchor != YAML::NullAnchor) stop(span_at(mark), aliases_are_not_read());
    // "?" is the parser's word for plain text, "!" for text in quotes.
    if (!tag.empty() && tag != "?" && tag != "!") stop(span_at(mark), tags_are_not_read());
  }

  void open(YamlKind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
    refuse_decoration(mark, tag, anchor);
    if (levels_.size() >= most_levels) {
      stop(span_at(mark), {fmt::format("more than {} levels inside one another", most_levels),
                           "check the brackets and the indent", ""});
    }
    Level level;
    level.node.kind = kind;
    level.node.span = span_at(mark);
    levels_.push_back(std::move(level));
  }

  void close() {
    YamlNode node = std::move(levels_.back().node);
    levels_.pop_back();
    if (node.kind == YamlKind::map) mend_split_numbers(node);
    add(std::move(node));
  }

  void add(YamlNode node) {
    if (++values_ > most_values) {
      stop(node.span, {fmt::format("more than {} values in one file", most_values), "", ""});
    }
    if (levels_.empty()) {
      root_ = std::move(node);
    } else if (Level& level = levels_.back(); level.node.kind == YamlKind::list) {
      level.node.items.push_back(std::move(node));
    } else if (!level.key) {
      level.key = std::move(node);
    } else {
      add_entry(level, std::move(node));
    }
  }

  void add_entry(Level& level, YamlNode value) {
    YamlNode key = *std::exchange(level.key, std::nullopt);
    if (key.kind != YamlKind::text) {
      findings_.error(key.span, {fmt::format("a key must be a word, not {}", describe(key.kind)),
                                 "write `key: value`", ""});
      return;
    }
    if (key.text == "<<") stop(key.span, aliases_are_not_read());
    const int line = key.span.position.line;
    const auto [first, is_new] = level.line_of_key.try_emplace(key.text, line);
    if (!is_new) {
      findings_.error(key.span,
                      {fmt::format("`{}` stands here twice", key.text), "delete one of the two",
                       fmt::format("the first is in line {}", first->second)});
      return;
    }
    // The parser places an empty value where the next line starts.
    if (value.kind == YamlKind::nothing) value.span = key.span;
    level.node.entries.push_back({std::move(key), std::move(value)});
  }

  /// `{fat: 4,5 %}` arrives as `fat: 4` and a key `5 %` without a value. That is
  /// one mistake: one message, and one entry is left.
  void mend_split_numbers(YamlNode& map) {
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    std::vector<YamlEntry> kept;
    for (YamlEntry& entry : map.entries) {
      const bool tail = entry.value.kind == YamlKind::nothing && !entry.key.text.empty() &&
                        digit(entry.key.text.front());
      const bool head = !kept.empty() && kept.back().value.kind == YamlKind::text &&
                        !kept.back().value.text.empty() && digit(kept.back().value.text.back());
      if (!tail || !head) {
        kept.push_back(std::move(entry));
        continue;
      }
      YamlEntry& first = kept.back();
      const std::string written = first.value.text + "." + entry.key.text;
      findings_.error(
          first.value.span,
          {fmt::format("the comma splits `{},{}` in two", first.value.text, entry.key.text),
           fmt::format("write a decimal point: `{}: {}`", first.key.text, written), ""});
      first.value.text = written;  // read on as if it had been written so
    }
    map.entries = std::move(kept);
  }

  Findings& findings_;
  std::vector<Level> levels_;
  YamlNode root_;
  std::optional<std::size_t> last_text_;
  std::size_t values_ = 0;
  int documents_ = 0;
};

/// The parser takes a quoted text without its closing quote to the end of the
/// file. Only the last text can be such a one. True when it is.
bool refuse_open_quote(std::size_t start, Findings& findings) {
  const std::string_view text = findings.text();
  if (start >= text.size() || (text[start] != '"' && text[start] != '\'')) return false;
  const char quote = text[start];
  for (std::size_t i = start + 1; i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (text[i] == quote) {
      if (quote == '"' || i + 1 >= text.size() || text[i + 1] != quote) return false;
      ++i;  // two single quotes stand for one
    }
  }
  findings.error(
      {findings.position_of(start), 1},
      {"this quote is never closed", fmt::format("add {} where the text ends", quote), ""});
  return true;
}

}  // namespace

std::string_view describe(YamlKind kind) {
  switch (kind) {
    case YamlKind::nothing:
      return "nothing";
    case YamlKind::text:
      return "a single value";
    case YamlKind::list:
      return "a list";
    case YamlKind::map:
      return "a group of keys";
  }
  return "";
}

YamlNode read_yaml(Findings& findings) {
  if (!is_readable_text(findings)) return {};
  TreeBuilder builder(findings);
  std::istringstream in{std::string(findings.text())};
  try {
    YAML::Parser parser(in);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const StopReading&) {
    return {};
  } catch (const YAML::Exception& exception) {
    report_syntax(exception.msg, exception.mark.line, exception.mark.column, findings);
    return {};
  }
  if (builder.last_text() && refuse_open_quote(*builder.last_text(), findings)) return {};
  return builder.take_root();
}

}  // namespace haymow
