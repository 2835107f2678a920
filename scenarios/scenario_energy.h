// The energy of feeds whose certificate or label states none: estimated by one
// published equation for all of them, or reported with what would be enough.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "feeds/findings.h"
#include "feeds/map_reader.h"
#include "model/energy_estimate.h"
#include "model/stable.h"

namespace haymow {

/// An offer whose own figures have no energy among them.
struct EnergyGap {
  std::size_t offer = 0;
  SourceSpan at;  // the key `analysis` or `label`
  bool analysis = false;
};

/// The equation that the keeper asks for; absent: the first that serves all feeds.
[[nodiscard]] std::optional<EnergyEquation> energy_equation_of(const MapReader& file,
                                                               Findings& findings);

/// Puts an estimate into each offer of `gaps`, with a remark that names the equation,
/// its error and what the others give. One equation for all, since any two differ by
/// up to 13 % on one hay. A feed based on the table keeps the table's energy where its
/// own figures do not speak against it, or the equation cannot be used on them; any
/// other feed is reported.
void fill_energy(std::vector<Offer>& offers, const std::vector<EnergyGap>& gaps,
                 std::optional<EnergyEquation> asked, Findings& findings);

}  // namespace haymow
