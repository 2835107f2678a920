// One horse's ration as a linear program: a column for each offer (kg as fed a
// day), a row for each need, rule, stock and wish, and beside every row what it
// means, so that whatever the solver says of a row can be said in words.
// The page docs/explanation/linear-program.md has the algebra, family by family.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/requirements.h"
#include "model/rules.h"
#include "model/stable.h"
#include "solver/linear_program.h"

namespace haymow {

/// The highest known figure of each group, per kg of dry matter: what an
/// unknown counts as under a ceiling. A nutrient that no feed of a group has a
/// figure for stays absent, is left out of the sum and reported as unknown.
using HighestKnown = std::map<FeedGroup, PerNutrient<std::optional<double>>>;
[[nodiscard]] HighestKnown highest_known(const std::vector<Feed>& feeds);

/// The grass of a day: as much as the horse is expected to eat, no more and no
/// less, since nobody puts it out. A loosening may part `least` from `most`.
struct GrassToday {
  std::size_t offer = 0;  // the offer, at no price, that stands for it
  KgDryMatter least;
  KgDryMatter most;
  KgDryMatter low;  // the ends of what it may eat
  KgDryMatter high;
};

/// What decides one horse's ration.
struct RationQuestion {
  Horse horse;
  std::vector<Offer> offers;
  Requirements needs;
  std::vector<Limit> limits;
  int meals = 1;
  HighestKnown highest;
  /// The most of each offer this horse may have a day, as put out (before waste,
  /// after what the store loses), when the barn has to last; empty or one entry an offer.
  std::vector<std::optional<KgAsFed>> stock_a_day;
  /// The same for the ration in whole steps, where the horses before have taken a
  /// little less or more than their share; empty: as above.
  std::vector<std::optional<KgAsFed>> stock_in_steps = {};
  std::optional<GrassToday> grass = {};

  [[nodiscard]] bool grazes(std::size_t offer) const { return grass && grass->offer == offer; }
};

enum class RowFamily {
  need,
  tolerance,
  ratio,
  intake,
  forage,
  starch,
  meal,
  feed,
  maker,
  stock,
  grazing,
  wish,
  margin  // what a promise keeps back for bad batches (confidence.h)
};

/// What one row asks, in a person's terms. A plain row bounds `part`; a share
/// row bounds scale * part / whole. Both are linear in the program, the share
/// after multiplying out: part - bound / scale * whole <= 0.
struct RowMeaning {
  std::string id;  // the row's name in the program: "energy/min"
  RowFamily family = RowFamily::need;
  Side side = Side::lower;
  double bound = 0.0;  // in `unit`
  std::string unit;
  std::optional<Nutrient> nutrient;
  std::optional<Limit> limit;        // the rule it comes from, if from one
  std::optional<std::size_t> offer;  // maker, stock: which offer
  std::string wish;                  // wish: the keeper's word
  WishKind wish_kind = WishKind::none;
  std::vector<Term> part;
  std::vector<Term> whole;  // empty: a plain row
  double scale = 1.0;

  /// A limit of strength law or vet, or a maker's daily amount: never for the keeper
  /// alone to loosen.
  [[nodiscard]] bool is_welfare() const;
  /// What `amounts` (kg as fed of each offer) give, in `unit`; nothing for a
  /// share of nothing.
  [[nodiscard]] std::optional<double> value(const std::vector<double>& amounts) const;
  /// True when `amounts` keep the row, within `tolerance` relative.
  [[nodiscard]] bool kept(const std::vector<double>& amounts, double tolerance = 1e-6) const;
  /// How far the row's own bound moves for one `unit`: 1, or whole / scale.
  [[nodiscard]] double row_units(const std::vector<double>& amounts) const;
};

/// An unknown figure that a ceiling had to assume.
struct AssumedFigure {
  std::size_t offer = 0;
  Nutrient nutrient = Nutrient::starch;
  std::optional<double> value;  // per kg of dry matter; absent: left out of the sum
};

struct Formulation {
  LinearProgram program;
  std::vector<RowMeaning> rows;    // one a row of the program, in its order
  std::vector<RowMeaning> judged;  // reported, not forced; not in the program
  std::vector<AssumedFigure> assumed;
};

/// Throws std::invalid_argument if an offer's name is used twice.
[[nodiscard]] Formulation formulate(const RationQuestion& question);

/// The amount of `n` in a kilogram as fed that a floor may count on: 0 if unknown.
[[nodiscard]] double counted_low(const Feed& feed, Nutrient n);

/// The same less what the offer itself asks for: oil asks for vitamin E.
[[nodiscard]] double counted_as_floor(const RationQuestion& question, const Offer& offer,
                                      Nutrient n);

/// Forage for this horse: for one that cannot chew, soaked fibre too.
[[nodiscard]] bool counts_as_forage(const Feed& feed, const Horse& horse);

}  // namespace haymow
