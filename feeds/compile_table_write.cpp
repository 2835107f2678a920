#include <fmt/format.h>

#include "feeds/compile_table_rows.h"

namespace haymow::compile_table {
namespace {

std::string quoted(const std::string& text) {
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') result += '\\';
    result += c == '\n' ? ' ' : c;
  }
  return result + '"';
}

/// Absent entries are negative in the rows; see feed_table_data.h.
double or_negative(const std::optional<double>& value) { return value.value_or(-1.0); }

std::string soaking_row(const std::optional<SoakingEntry>& soaking) {
  if (!soaking) return "{}";
  return fmt::format("{{{}, {}, {}, {}}}", soaking->water_parts, soaking->cold_minutes,
                     or_negative(soaking->warm_minutes), soaking->source);
}

std::string arrays_of(std::size_t i, const FeedEntry& feed) {
  std::string also;
  for (const std::string& other : feed.also) also += quoted(other) + ", ";
  std::string traits;
  for (const FeedTrait trait : feed.traits) {
    traits += fmt::format("FeedTrait({}), ", static_cast<int>(trait));
  }
  std::string figures;
  for (const auto& [nutrient, figure] : feed.figures) {
    figures += fmt::format("{{Nutrient({}), {}, {}}}, ", static_cast<int>(nutrient), figure.value,
                           figure.source);
  }
  return fmt::format(
      "constexpr std::array<std::string_view, {1}> also_{0}{{{2}}};\n"
      "constexpr std::array<FeedTrait, {3}> traits_{0}{{{4}}};\n"
      "constexpr std::array<FigureRow, {5}> figures_{0}{{{{{6}}}}};\n",
      i, feed.also.size(), also, feed.traits.size(), traits, feed.figures.size(), figures);
}

std::string row_of(std::size_t i, const FeedEntry& feed) {
  return fmt::format(
      "    {{{1}, also_{0}, FeedGroup({2}), traits_{0}, {3}, {4}, figures_{0}, {5}, {6}, {7}, {8}, "
      "{9}, {10}, {11}}},\n",
      i, quoted(feed.name), static_cast<int>(feed.group), feed.dry_matter.value,
      feed.dry_matter.source, soaking_row(feed.soaking), or_negative(feed.daily_most_kg),
      or_negative(feed.daily_most_per_kg), or_negative(feed.kg_per_litre), quoted(feed.note),
      quoted(feed.position.file), feed.position.line);
}

std::string row_of(const SourceEntry& source) {
  return fmt::format("    {{{}, {}, {}, {}, FigureOrigin::{}, {}}},\n", quoted(source.key),
                     quoted(source.title), quoted(source.year), quoted(source.address),
                     source.origin, quoted(source.note));
}

}  // namespace

std::string as_cpp(const Tables& tables) {
  std::string arrays;
  std::string feeds;
  for (std::size_t i = 0; i < tables.feeds.size(); ++i) {
    arrays += arrays_of(i, tables.feeds[i]);
    feeds += row_of(i, tables.feeds[i]);
  }
  std::string sources;
  for (const SourceEntry& source : tables.sources) sources += row_of(source);
  return fmt::format(
      "// Written by compile_table from feeds/tables/*.yaml. Do not edit.\n"
      "#include <array>\n\n#include \"feeds/feed_table_data.h\"\n\n"
      "namespace haymow::table_data {{\nnamespace {{\n\n{}"
      "constexpr std::array<FeedRow, {}> feeds{{{{\n{}}}}};\n\n"
      "constexpr std::array<SourceRow, {}> sources{{{{\n{}}}}};\n\n"
      "}}  // namespace\n\n"
      "std::span<const FeedRow> feed_rows() {{ return feeds; }}\n"
      "std::span<const SourceRow> source_rows() {{ return sources; }}\n\n"
      "}}  // namespace haymow::table_data\n",
      arrays, tables.feeds.size(), feeds, tables.sources.size(), sources);
}

}  // namespace haymow::compile_table
