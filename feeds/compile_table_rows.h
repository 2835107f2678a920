// The feed table between its YAML and the C++ the build makes of it. Used by
// the build step compile_table only, never by the program that users run.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "feeds/findings.h"
#include "model/feed.h"

namespace haymow::compile_table {

struct Sourced {
  double value = 0.0;
  std::size_t source = 0;  // index into Tables::sources
};

struct SourceEntry {
  std::string key;
  std::string title;
  std::string year;
  std::string address;
  std::string origin;
  std::string note;
  SourceSpan span;
  bool used = false;  // by a figure of the table, or said to be by the needs
};

struct SoakingEntry {
  double water_parts = 0.0;
  double cold_minutes = 0.0;
  std::optional<double> warm_minutes;
  std::size_t source = 0;
};

struct FeedEntry {
  std::string name;
  std::vector<std::string> also;
  FeedGroup group = FeedGroup::hay;
  std::set<FeedTrait> traits;
  Sourced dry_matter;
  std::map<Nutrient, Sourced> figures;
  std::optional<SoakingEntry> soaking;
  std::optional<double> daily_most_kg;
  std::optional<double> daily_most_per_kg;
  std::optional<double> kg_per_litre;
  std::string note;
  SourcePosition position;
};

struct Tables {
  std::vector<SourceEntry> sources;
  std::vector<FeedEntry> feeds;
  std::map<std::string, SourcePosition> names;  // lower case; every name and other name
};

/// Adds what the file in `findings` holds to `tables`; mistakes go to `findings`.
void read_sources(Findings& findings, Tables& tables);
void read_feeds(Findings& findings, Tables& tables);
/// Reports every source no figure comes from; `findings` is of the source file.
void refuse_unused_sources(Findings& findings, const Tables& tables);

/// A C++ file that defines feed_rows() and source_rows() of feed_table_data.h.
[[nodiscard]] std::string as_cpp(const Tables& tables);

}  // namespace haymow::compile_table
