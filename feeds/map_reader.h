// Reading a group of keys of which some are known: what is asked for and not
// there, and what is there and not known, is reported.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "feeds/quantity.h"

namespace haymow {

class MapReader {
 public:
  /// `node` is the value of `what`, such as "a horse"; `keys` are all it may
  /// hold. Reports at once a node that is not a map, and every unknown key.
  MapReader(const YamlNode& node, std::string what, std::span<const std::string_view> keys,
            Findings& findings);

  /// Where the map starts: what a missing key is reported at.
  [[nodiscard]] const SourceSpan& span() const { return node_.span; }
  [[nodiscard]] bool is_map() const { return node_.kind == YamlKind::map; }
  [[nodiscard]] Findings& findings() const { return findings_; }

  /// The entry, or null when the key is not there. An entry without a value is
  /// reported and null.
  const YamlEntry* find(std::string_view key) const;
  /// The entry with or without a value, or null; reports nothing.
  [[nodiscard]] const YamlEntry* find_quietly(std::string_view key) const;
  /// The entry; a missing one is reported with `help`, unless an unknown key that
  /// comes near it has been: that is one mistake.
  const YamlEntry* need(std::string_view key, std::string_view help) const;

  /// True when an unknown key comes near `key`. It is reported already, so that a
  /// missing `key` is no mistake of its own.
  [[nodiscard]] bool is_meant(std::string_view key) const;

  /// Text of the entry; absent when it is not there, or reported.
  std::optional<std::string> text(std::string_view key) const;
  /// Amount of the entry in the base unit of `dimension`.
  std::optional<double> amount(std::string_view key, const Dimension& dimension,
                               Sign sign = Sign::positive) const;

 private:
  const YamlNode& node_;
  std::string what_;
  std::vector<std::string> meant_;  // known keys that an unknown one comes near
  Findings& findings_;
};

/// The text of a value; anything else is reported as not being `expected`.
std::optional<std::string> text_of(const YamlNode& node, std::string_view expected,
                                   Findings& findings);

/// A value that `reading` accepts; its complaint is reported at the node.
template <class T>
std::optional<T> accepted(Reading<T> reading, const YamlNode& node, Findings& findings) {
  if (reading.complaint) findings.error(node.span, std::move(*reading.complaint));
  return std::move(reading.value);
}

/// "did you mean `a` or `b`?", or nothing when there is no near name.
[[nodiscard]] std::string suggestion(std::string_view wanted,
                                     const std::vector<std::string>& candidates);

}  // namespace haymow
