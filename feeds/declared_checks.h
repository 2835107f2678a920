// Whether the figures of an analysis or label go together: parts are no more than
// the whole, and all are of one basis.
#pragma once

#include <map>
#include <vector>

#include "feeds/composition_units.h"
#include "feeds/declared_energy.h"
#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "model/nutrient.h"

namespace haymow {

/// One figure as it is written, and what it comes to.
struct DeclaredFigure {
  Content content;
  const YamlEntry* entry = nullptr;
  EnergySystem system = EnergySystem::digestible;  // of an energy
  double per_kg_dm = 0.0;                          // g, IU or MJ
};
using DeclaredFigures = std::map<Nutrient, DeclaredFigure>;

/// The basis of a content: as fed where none is written, as feed law has it.
[[nodiscard]] ContentBasis basis_of(const Content& content);

/// Reports figures of dry matter beside figures as fed, with the fewer of them
/// converted; true when all are of one basis. An error, not a warning: laboratories
/// print a column of each, whoever copies takes one column, and a figure from the
/// other is wrong by a seventh in hay and by half in haylage. Dry matter itself has
/// no basis and is not among `figures`.
bool check_bases(const std::vector<const DeclaredFigure*>& figures, double dry_matter_share,
                 Findings& findings);

/// Reports parts that add up to more than the dry matter, and ADF above NDF. Protein,
/// fat, ash, fibre and starch are apart from one another. Sugar counts only beside
/// crude fibre: sugar beet and citrus fibre is partly counted with both NDF and sugar.
void check_sums(const DeclaredFigures& figures, const SourceSpan& at, Findings& findings);

}  // namespace haymow
