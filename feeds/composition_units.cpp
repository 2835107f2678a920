#include "feeds/composition_units.h"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "feeds/plain_text.h"
#include "model/units.h"

namespace haymow {
namespace {

struct ContentUnit {
  std::string_view name;
  ContentKind kind;
  double factor;  // to g, IU or MJ in a kg
};

constexpr std::array content_units{
    ContentUnit{"%", ContentKind::mass, 10.0},
    ContentUnit{"g/kg", ContentKind::mass, 1.0},
    ContentUnit{"mg/kg", ContentKind::mass, 1e-3},
    ContentUnit{"ppm", ContentKind::mass, 1e-3},
    ContentUnit{"mcg/kg", ContentKind::mass, 1e-6},
    ContentUnit{"mg/lb", ContentKind::mass, 1e-3 / kg_per_lb},
    ContentUnit{"IU/kg", ContentKind::units, 1.0},
    ContentUnit{"IU/lb", ContentKind::units, 1.0 / kg_per_lb},
    ContentUnit{"MJ/kg", ContentKind::energy, 1.0},
    ContentUnit{"kcal/kg", ContentKind::energy, mj_per_mcal / 1000.0},
    ContentUnit{"Mcal/kg", ContentKind::energy, mj_per_mcal},
    ContentUnit{"Mcal/lb", ContentKind::energy, mj_per_mcal / kg_per_lb},
};

/// Takes a basis off the end of the unit: "% DM" is "%" on dry matter.
std::optional<ContentBasis> split_basis(std::string& unit) {
  static constexpr std::array<std::pair<std::string_view, ContentBasis>, 6> endings{{
      {"in DM", ContentBasis::dry_matter},
      {"of DM", ContentBasis::dry_matter},
      {"DM", ContentBasis::dry_matter},
      {"dry matter", ContentBasis::dry_matter},
      {"as fed", ContentBasis::as_fed},
      {"as-fed", ContentBasis::as_fed},
  }};
  for (const auto& [ending, basis] : endings) {
    if (unit.size() < ending.size()) continue;
    const std::size_t start = unit.size() - ending.size();
    if (!same_text(std::string_view(unit).substr(start), ending)) continue;
    unit = std::string(trimmed(std::string_view(unit).substr(0, start)));
    return basis;
  }
  return std::nullopt;
}

}  // namespace

Reading<Content> read_content(std::string_view text) {
  Reading<NumberAndRest> leading = read_leading_number(text);
  if (leading.complaint) return Reading<Content>::refused(std::move(*leading.complaint));
  const NumberAndRest& found = *leading.value;
  if (auto complaint = sign_complaint(found.number, text, Sign::not_negative)) {
    return Reading<Content>::refused(std::move(*complaint));
  }
  std::string name = found.rest;
  const std::optional<ContentBasis> basis = split_basis(name);
  if (name.empty()) {
    return Reading<Content>::refused(
        {fmt::format("`{}` has no unit", single_spaced(text)), "", ""});
  }
  for (const ContentUnit& unit : content_units) {
    // MJ and mJ are a factor of 10^9 apart, but nobody writes the second in a feed.
    if (!same_text(unit.name, name)) continue;
    const double value = found.number * unit.factor;
    if (unit.kind == ContentKind::mass && value > 1000.0) {
      return Reading<Content>::refused(
          {fmt::format("`{}` is more than a kilogram in a kilogram", single_spaced(text)), "", ""});
    }
    return Reading<Content>::of({value, unit.kind, basis});
  }
  return Reading<Content>::refused({fmt::format("`{}` is not a unit of content", name), "", ""});
}

std::string scaled_content(std::string_view text, double factor) {
  const Reading<NumberAndRest> leading = read_leading_number(text);
  if (!leading.value) return std::string(text);
  std::string unit = leading.value->rest;
  (void)split_basis(unit);
  return fmt::format("{:.4g} {}", leading.value->number * factor, unit);
}

}  // namespace haymow
