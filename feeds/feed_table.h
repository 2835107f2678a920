// The built-in table of generic feeds with its bibliography. The truth is
// feeds/tables/*.yaml; every figure there names its unit and its source.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "model/feed.h"

namespace haymow {

/// One entry of the bibliography. `origin` says how figures with this key are
/// known: printed, calculated, estimated or memory.
struct Source {
  std::string key;
  std::string title;
  std::string year;
  std::string address;
  FigureOrigin origin = FigureOrigin::memory;
  std::string note;
};

/// Generic feeds, in the order of the table files.
[[nodiscard]] const std::vector<Feed>& feed_table();
[[nodiscard]] const std::vector<Source>& bibliography();

/// By name or other name, letter case ignored; nothing when unknown.
[[nodiscard]] const Feed* find_feed(std::string_view name);
[[nodiscard]] const Source* find_source(std::string_view key);

/// Up to three names of the table near to one it does not have.
[[nodiscard]] std::vector<std::string> near_feed_names(std::string_view name);

}  // namespace haymow
