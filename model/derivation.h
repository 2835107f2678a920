// Why demands cannot all hold, as a chain a person can follow: what is asked,
// what follows from it for one quantity, and the demand that this breaks. Facts
// only, no sentences. Every number that follows is the optimum of a linear program
// over the demands told so far, certified apart from the solver.
// Facts, then what follows, then the contradiction: the order in which a good
// solver of version clashes tells them (the pubgrub algorithm's error reports).
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "model/formulate.h"

namespace haymow {

/// What some demands leave possible of one quantity, at best for the demand on it.
struct Implied {
  double value = 0.0;                   // in the unit of the row it is about
  std::vector<std::size_t> carried_by;  // the offers of that extreme, most first
};

/// One demand, and what it adds to those before it.
struct DerivationStep {
  RowMeaning fact;
  /// A floor that few of many offers count towards: those, else empty.
  std::vector<std::size_t> only;
  /// The least of `only` together, kg as fed a day, that the facts so far ask for.
  std::optional<KgAsFed> least_of_them;
  /// What the facts so far leave of the clash's quantity; absent when they do not
  /// bound it, or leave as much as before.
  std::optional<Implied> implied;
};

struct Derivation {
  std::vector<DerivationStep> steps;
  RowMeaning clash;  // the demand that breaks
  /// Of a floor that few of many offers count towards: those, else empty.
  std::vector<std::size_t> only;
  Implied best;  // what all steps leave of its quantity: not enough, or too much
  /// True when every demand given is told.
  bool tells_all = false;
};

/// The chain for `conflict`, rows of `formulation` that cannot all hold, told with
/// energy last where it is among them. `multipliers`: one a row of the formulation;
/// a demand whose multiplier is 0 has no part in the proof and is left out.
/// Nothing when no chain could be certified.
[[nodiscard]] std::optional<Derivation> derive(const Formulation& formulation,
                                               std::span<const std::size_t> conflict,
                                               std::span<const double> multipliers);

/// The program whose optimum is Implied::value, for anyone who would solve it again:
/// minimise (a ceiling) or, with the sign turned, maximise (a floor) the quantity
/// of `clash` under `facts`. A share is made linear by scaling the amounts so that
/// the whole is 1 (Charnes & Cooper 1962); the last column is then the scale.
[[nodiscard]] LinearProgram implied_program(const Formulation& formulation, const RowMeaning& clash,
                                            std::span<const RowMeaning> facts);

}  // namespace haymow
