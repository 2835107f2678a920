// A report as plain text for a terminal.
#include <fmt/format.h>

#include <algorithm>

#include "scenarios/control_characters.h"
#include "scenarios/report.h"

namespace haymow {
namespace {

constexpr std::string_view bold = "\x1b[1m";
constexpr std::string_view ordinary = "\x1b[0m";

// Columns a UTF-8 text takes: its code points. Names are short and plain enough
// that wide characters do not matter more than a crooked edge.
std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

std::string wrapped(const std::string& raw, std::size_t width, std::size_t indent) {
  const std::string text = with_control_characters_told(raw);
  const std::size_t hang = indent + (text.starts_with("- ") ? 2 : 0);
  std::string out(indent, ' ');
  std::size_t column = indent;
  bool first_word = true;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = std::min(text.find(' ', at), text.size());
    // "34 %" stays on one line.
    while (end + 1 < text.size() && text[end + 1] == '%') {
      end = std::min(text.find(' ', end + 1), text.size());
    }
    const std::string word = text.substr(at, end - at);
    at = end + 1;
    if (!first_word && column + 1 + width_of(word) > width) {
      out += '\n' + std::string(hang, ' ');
      column = hang;
    } else if (!first_word) {
      out += ' ';
      ++column;
    }
    out += word;
    column += width_of(word);
    first_word = false;
  }
  return out + '\n';
}

std::string padded(const std::string& text, std::size_t width, bool left) {
  const std::string gap(width - std::min(width, width_of(text)), ' ');
  return left ? text + gap : gap + text;
}

std::string set_table(const Table& table, std::size_t width) {
  const std::size_t columns = table.headings.size();
  std::vector<std::size_t> widths;
  for (const std::string& h : table.headings) widths.push_back(width_of(h));
  std::vector<std::vector<std::string>> rows{table.headings};
  for (const auto& row : table.rows) rows.push_back(row);
  for (auto& row : rows) {
    for (std::string& cell : row) cell = with_control_characters_told(cell);
    for (std::size_t c = 0; c < columns; ++c) widths[c] = std::max(widths[c], width_of(row[c]));
  }
  std::string out;
  for (const auto& row : rows) {
    std::string line = "  ";
    for (std::size_t c = 0; c < columns; ++c) {
      // A long last column is prose: it is wrapped under itself.
      const bool prose = c + 1 == columns && widths[c] > 30 && width_of(line) + widths[c] > width;
      if (prose) {
        const std::size_t indent = width_of(line);
        const std::size_t room = indent + 24 < width ? width : indent + 24;
        line += wrapped(row[c], room, indent).substr(indent);
        line.pop_back();
      } else {
        const bool words = table.last_is_prose && c + 1 == columns;
        line += padded(row[c], widths[c], words || c < table.left_columns);
      }
      if (c + 1 < columns) line += "  ";
    }
    while (line.ends_with(' ')) line.pop_back();
    out += line + '\n';
  }
  return out;
}

std::string set_section(const Section& section, std::size_t width, bool colour) {
  if (section.sentences.empty() && !section.table) return "";
  std::string out = "\n";
  if (!section.title.empty()) {
    out += colour ? fmt::format("  {}{}{}\n", bold, with_control_characters_told(section.title),
                                ordinary)
                  : fmt::format("  {}\n", with_control_characters_told(section.title));
  }
  if (section.table) out += set_table(*section.table, width);
  for (const std::string& sentence : section.sentences) out += wrapped(sentence, width, 2);
  return out;
}

}  // namespace

std::string write_text(const Report& report, int width, bool colour) {
  const auto columns = static_cast<std::size_t>(std::clamp(width, 40, 200));
  const auto heading = [&](const std::string& text) {
    const std::string set = wrapped(text, columns, 0);
    return colour ? fmt::format("{}{}{}", bold, set, ordinary) : set;
  };
  std::string out;
  // One horse speaks for itself: its headline is the first line.
  const bool headed = report.parts.size() == 1 && !report.parts.front().headline.empty();
  if (!headed && !report.title.empty()) out += heading(report.title);
  for (const Report::Part& part : report.parts) {
    if (!part.headline.empty()) {
      if (!out.empty()) out += '\n';
      out += heading(part.headline);
    }
    for (const Section& section : part.sections) out += set_section(section, columns, colour);
  }
  for (const Section& section : report.closing) out += set_section(section, columns, colour);
  return out;
}

}  // namespace haymow
