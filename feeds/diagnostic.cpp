#include "feeds/diagnostic.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

/// A file with more mistakes than this shows the first ones and a count.
constexpr std::size_t most_rendered = 20;
/// Characters of a source line that are shown; a longer one is cut round the caret.
constexpr int most_shown = 100;
constexpr int shown_before_caret = 40;

/// Characters that would move the cursor, colour the terminal or turn the
/// direction of writing.
bool is_hidden(char32_t code) {
  const bool control = code < 0x20 || (code >= 0x7F && code < 0xA0);
  const bool line_break = code == 0x2028 || code == 0x2029;
  const bool direction = (code >= 0x200E && code <= 0x200F) || (code >= 0x202A && code <= 0x202E) ||
                         (code >= 0x2066 && code <= 0x2069);
  return control || line_break || direction || code == 0xFEFF;
}

/// One character as it is safe to print.
std::string printable(std::string_view text, std::size_t at, const Character& c) {
  if (!c.code) return fmt::format("\\x{:02x}", static_cast<unsigned char>(text[at]));
  if (*c.code == U'\t') return " ";
  if (!is_hidden(*c.code)) return std::string(text.substr(at, c.bytes));
  if (*c.code < 0x100) return fmt::format("\\x{:02x}", static_cast<unsigned>(*c.code));
  return fmt::format("\\u{:04x}", static_cast<unsigned>(*c.code));
}

std::string printable(std::string_view text) {
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    result += printable(text, at, c);
    at += c.bytes;
  }
  return result;
}

/// The source line and, under it, the caret.
std::string line_with_caret(const Diagnostic& diagnostic) {
  const int column = std::max(diagnostic.position.column, 1);
  const bool cut = character_count(diagnostic.source_line) > most_shown;
  const int first = cut ? std::max(1, column - shown_before_caret) : 1;
  std::string shown = first > 1 ? "..." : "";
  std::string under(shown.size(), ' ');
  int at_column = 1;
  std::size_t at = 0;
  for (; at < diagnostic.source_line.size() && at_column < first + most_shown; ++at_column) {
    const Character c = character_at(diagnostic.source_line, at);
    const std::string piece = printable(diagnostic.source_line, at, c);
    at += c.bytes;
    if (at_column < first) continue;
    shown += piece;
    const std::size_t cells = character_count(piece);
    if (at_column < column) {
      under.append(cells, ' ');
    } else if (at_column == column) {
      under.append("^").append(cells - 1, '~');
    } else if (at_column < column + diagnostic.width) {
      under.append(cells, '~');
    }
  }
  if (at < diagnostic.source_line.size()) shown += "...";
  if (column >= at_column) under.append("^");  // just past the end of the line
  return fmt::format("  {}\n  {}\n", shown, under);
}

std::string render_all(const std::vector<Diagnostic>& diagnostics) {
  std::string text;
  for (std::size_t i = 0; i < diagnostics.size() && i < most_rendered; ++i) {
    text += render(diagnostics[i]);
  }
  if (diagnostics.size() > most_rendered) {
    text += fmt::format("and {} more\n", diagnostics.size() - most_rendered);
  }
  if (!text.empty()) text.pop_back();  // like any message, without a line break at its end
  return text;
}

/// Letters to change, add, drop or swap to make one name of the other
/// (Damerau 1964, in the restricted form: no part is edited twice).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before_last[j - 2] + 1);
      }
    }
    std::swap(before_last, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

}  // namespace

std::string render(const Diagnostic& diagnostic) {
  const std::string_view level = diagnostic.severity == Severity::error ? "error" : "warning";
  const SourcePosition& at = diagnostic.position;
  std::string text = printable(at.file);
  if (at.line > 0) text += fmt::format(":{}:{}", at.line, at.column);
  text += fmt::format(": {}: {}\n", level, printable(diagnostic.message));
  if (at.line > 0 && !diagnostic.source_line.empty()) text += line_with_caret(diagnostic);
  if (!diagnostic.note.empty()) text += fmt::format("  note: {}\n", printable(diagnostic.note));
  if (!diagnostic.help.empty()) text += fmt::format("  help: {}\n", printable(diagnostic.help));
  return text;
}

InputError::InputError(std::vector<Diagnostic> diagnostics)
    : std::runtime_error(render_all(diagnostics)), diagnostics_(std::move(diagnostics)) {}

std::vector<std::string> near_names(std::string_view wanted,
                                    const std::vector<std::string>& candidates, int most) {
  // Longer than any name we know; comparing it would only cost time.
  constexpr std::size_t longest = 80;
  if (wanted.size() > longest || most <= 0) return {};
  const std::string lowered = lower_case(wanted);
  // In a name of three letters two changes leave nothing of it.
  const std::size_t allowed =
      lowered.size() <= 3 ? 1 : std::max<std::size_t>(2, lowered.size() / 3);
  std::vector<std::pair<std::size_t, std::string>> near;
  for (const std::string& candidate : candidates) {
    if (candidate.size() > longest) continue;
    const std::size_t distance = edit_distance(lowered, lower_case(candidate));
    if (distance <= allowed) near.emplace_back(distance, candidate);
  }
  std::stable_sort(near.begin(), near.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (const auto& [distance, name] : near) {
    const bool twice = std::find(names.begin(), names.end(), name) != names.end();
    if (!twice && names.size() < static_cast<std::size_t>(most)) names.push_back(name);
  }
  return names;
}

}  // namespace haymow
