#include "feeds/feed_table.h"

#include "feeds/diagnostic.h"
#include "feeds/feed_table_data.h"
#include "feeds/plain_text.h"

namespace haymow {
namespace {

Figure figure_from(double value, int source) {
  const table_data::SourceRow& row = table_data::source_rows()[static_cast<std::size_t>(source)];
  return Figure{value, row.origin, std::string{row.key}};
}

std::optional<Soaking> soaking_from(const table_data::SoakingRow& row) {
  if (row.source < 0) return std::nullopt;
  Soaking soaking;
  soaking.water_parts = row.water_parts;
  soaking.cold_minutes = row.cold_minutes;
  if (row.warm_minutes >= 0.0) soaking.warm_minutes = row.warm_minutes;
  soaking.source = table_data::source_rows()[static_cast<std::size_t>(row.source)].key;
  return soaking;
}

Feed feed_from(const table_data::FeedRow& row) {
  Feed feed;
  feed.name = row.name;
  feed.also.assign(row.also.begin(), row.also.end());
  feed.group = row.group;
  feed.traits.insert(row.traits.begin(), row.traits.end());
  feed.dry_matter = figure_from(row.dry_matter_g, row.dry_matter_source);
  for (const table_data::FigureRow& figure : row.figures) {
    feed.composition[figure.nutrient] = figure_from(figure.value, figure.source);
  }
  feed.soaking = soaking_from(row.soaking);
  if (row.daily_most_kg >= 0.0) {
    feed.daily_most = DailyMost{KgAsFed{row.daily_most_kg}, std::nullopt};
    if (row.daily_most_per_kg >= 0.0) feed.daily_most->per = Bodyweight{row.daily_most_per_kg};
  }
  if (row.kg_per_litre >= 0.0) feed.kg_per_litre = row.kg_per_litre;
  feed.note = row.note;
  feed.position = SourcePosition{std::string{row.file}, row.line, 1};
  return feed;
}

}  // namespace

const std::vector<Feed>& feed_table() {
  // Built on first use, then constant: the same rows for every caller.
  static const std::vector<Feed> table = [] {
    std::vector<Feed> feeds;
    feeds.reserve(table_data::feed_rows().size());
    for (const table_data::FeedRow& row : table_data::feed_rows()) feeds.push_back(feed_from(row));
    return feeds;
  }();
  return table;
}

const std::vector<Source>& bibliography() {
  static const std::vector<Source> sources = [] {
    std::vector<Source> all;
    all.reserve(table_data::source_rows().size());
    for (const table_data::SourceRow& row : table_data::source_rows()) {
      all.push_back(Source{std::string{row.key}, std::string{row.title}, std::string{row.year},
                           std::string{row.address}, row.origin, std::string{row.note}});
    }
    return all;
  }();
  return sources;
}

const Feed* find_feed(std::string_view name) {
  for (const Feed& feed : feed_table()) {
    if (same_text(feed.name, name)) return &feed;
    for (const std::string& other : feed.also) {
      if (same_text(other, name)) return &feed;
    }
  }
  return nullptr;
}

const Source* find_source(std::string_view key) {
  for (const Source& source : bibliography()) {
    if (source.key == key) return &source;
  }
  return nullptr;
}

std::vector<std::string> near_feed_names(std::string_view name) {
  std::vector<std::string> names;
  for (const Feed& feed : feed_table()) {
    names.push_back(feed.name);
    names.insert(names.end(), feed.also.begin(), feed.also.end());
  }
  return near_names(name, names);
}

}  // namespace haymow
