#include "feeds/declared_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

constexpr double g_per_kg = 1000.0;
constexpr std::size_t most_converted = 3;

std::string_view name_of(ContentBasis basis) {
  return basis == ContentBasis::dry_matter ? "DM" : "as fed";
}

std::optional<double> grams(const DeclaredFigures& figures, Nutrient nutrient) {
  const auto found = figures.find(nutrient);
  if (found == figures.end()) return std::nullopt;
  return found->second.per_kg_dm;
}

}  // namespace

ContentBasis basis_of(const Content& content) {
  return content.basis.value_or(ContentBasis::as_fed);
}

bool check_bases(const std::vector<const DeclaredFigure*>& figures, double dry_matter_share,
                 Findings& findings) {
  const auto of = [&](ContentBasis basis) {
    std::vector<const DeclaredFigure*> some;
    std::copy_if(figures.begin(), figures.end(), std::back_inserter(some),
                 [&](const DeclaredFigure* f) { return basis_of(f->content) == basis; });
    std::sort(some.begin(), some.end(), [](const DeclaredFigure* a, const DeclaredFigure* b) {
      const SourcePosition& x = a->entry->value.span.position;
      const SourcePosition& y = b->entry->value.span.position;
      return x.line != y.line ? x.line < y.line : x.column < y.column;
    });
    return some;
  };
  const auto dry = of(ContentBasis::dry_matter);
  const auto fed = of(ContentBasis::as_fed);
  if (dry.empty() || fed.empty()) return true;
  const bool few_are_fed = fed.size() <= dry.size();
  const auto& few = few_are_fed ? fed : dry;
  const ContentBasis wanted = few_are_fed ? ContentBasis::dry_matter : ContentBasis::as_fed;
  std::vector<std::string> converted;
  for (const DeclaredFigure* f : few) {
    if (converted.size() == most_converted) break;
    converted.push_back(
        ticked(fmt::format("{}: {} {}", single_spaced(f->entry->key.text),
                           scaled_content(f->entry->value.text,
                                          few_are_fed ? 1.0 / dry_matter_share : dry_matter_share),
                           name_of(wanted))));
  }
  const std::string more =
      few.size() > most_converted ? fmt::format(" and {} more", few.size() - most_converted) : "";
  findings.error(
      few.front()->entry->value.span,
      {fmt::format("`{}` is {}, and {} of the figures are {}",
                   single_spaced(few.front()->entry->value.text),
                   few_are_fed ? "as fed" : "of dry matter", few_are_fed ? dry.size() : fed.size(),
                   few_are_fed ? "of dry matter" : "as fed"),
       fmt::format("copy one column of the certificate; if `{}` is right, write {}{}",
                   single_spaced(few.front()->entry->value.text), listed(converted), more),
       "a figure from the other column is wrong by the water in the feed"});
  return false;
}

void check_sums(const DeclaredFigures& figures, const SourceSpan& at, Findings& findings) {
  std::vector<Nutrient> parts{Nutrient::crude_protein, Nutrient::crude_fat, Nutrient::ash,
                              Nutrient::starch};
  if (grams(figures, Nutrient::ndf)) {
    parts.push_back(Nutrient::ndf);
  } else {
    parts.push_back(Nutrient::crude_fibre);
    parts.push_back(Nutrient::sugar);
  }
  double sum = 0.0;
  std::vector<std::string> named;
  for (const Nutrient n : parts) {
    const auto part = grams(figures, n);
    if (!part || *part > g_per_kg) continue;
    sum += *part;
    named.push_back(fmt::format("{} {:.0f}", traits_of(n).name, *part));
  }
  if (sum > g_per_kg * 1.0001) {
    findings.error(at, {fmt::format("the parts add up to {:.0f} g in 1000 g of dry matter", sum),
                        "check the figures and their basis", "g/kg DM: " + listed(named)});
  }
  const auto ndf = grams(figures, Nutrient::ndf);
  const auto adf = grams(figures, Nutrient::adf);
  if (ndf && adf && *adf > *ndf) {
    findings.error(figures.at(Nutrient::adf).entry->value.span,
                   {fmt::format("ADF of {:.0f} g/kg DM is more than the NDF of {:.0f}, of which "
                                "it is a part",
                                *adf, *ndf),
                    "check whether the two are exchanged", ""});
  }
}

}  // namespace haymow
