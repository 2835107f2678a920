// What a keeper writes about a feed: a laboratory's `analysis` or a bag's
// `label`. Both become figures per kg of dry matter, which take the place of the
// table's; what they do not give stays as the table has it, or unknown.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "model/feed.h"

namespace haymow {

enum class DeclarationKind {
  analysis,  // every figure says its basis: "g/kg DM", "% as fed"
  label,     // as fed where no basis is written, as feed law has it
};

/// Puts the figures of `node` into `feed`. `feed.dry_matter.value` is the table's
/// figure [g/kg], or 0 when there is none; a declared one replaces it, and a
/// missing one is assumed by group with a remark, or reported. Reported as well:
/// unknown words, units that do not fit, a word given twice, and parts that add
/// up to more than the whole.
void declare_composition(const YamlNode& node, DeclarationKind kind, Feed& feed,
                         Findings& findings);

/// A word of an analysis or label, and what it stands for.
struct CompositionWord {
  std::string word;
  std::optional<Nutrient> nutrient;  // absent: dry matter, moisture, ESC, NSC
};
/// Every word that is read, the main word of a nutrient before its other words.
/// Letter case does not matter.
[[nodiscard]] const std::vector<CompositionWord>& composition_words();

}  // namespace haymow
