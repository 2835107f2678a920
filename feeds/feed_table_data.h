// The feed table as constant data in the program. The build writes the rows
// from tables/*.yaml (compile_table.cpp); nothing is read at run time.
#pragma once

#include <span>
#include <string_view>

#include "model/feed.h"

namespace haymow::table_data {

/// Indices point into source_rows(). Values per kg of dry matter.
struct FigureRow {
  Nutrient nutrient = Nutrient::energy;
  double value = 0.0;
  int source = 0;
};

/// Negative where the feed has no such entry.
struct SoakingRow {
  double water_parts = -1.0;
  double cold_minutes = -1.0;
  double warm_minutes = -1.0;
  int source = -1;
};

struct FeedRow {
  std::string_view name;
  std::span<const std::string_view> also;
  FeedGroup group = FeedGroup::hay;
  std::span<const FeedTrait> traits;
  double dry_matter_g = 0.0;
  int dry_matter_source = 0;
  std::span<const FigureRow> figures;
  SoakingRow soaking;
  double daily_most_kg = -1.0;      // as fed
  double daily_most_per_kg = -1.0;  // of bodyweight; negative: per horse
  double kg_per_litre = -1.0;
  std::string_view note;
  std::string_view file;
  int line = 0;
};

struct SourceRow {
  std::string_view key;
  std::string_view title;
  std::string_view year;
  std::string_view address;
  FigureOrigin origin = FigureOrigin::memory;
  std::string_view note;
};

/// In the order of the table files.
[[nodiscard]] std::span<const FeedRow> feed_rows();
[[nodiscard]] std::span<const SourceRow> source_rows();

}  // namespace haymow::table_data
