#include "model/energy_estimate.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "model/energy_equations.h"
#include "model/letter_case.h"

namespace haymow {
namespace {

// Limits of the equations, grams per kg of dry matter.
// Pagan: a correction is due for each per cent of fat above 5 (see energy_equations.h);
// whether of the feed or its dry matter is not said, so it is not applied but ends here.
constexpr double most_fat_of_pagan_g = 50.0;
// Zeyner and Kienzle: lkvsachsen.de on the GfE system of 2025.
constexpr double most_fat_of_zeyner_g = 80.0;
constexpr double most_fibre_of_zeyner_g = 350.0;
// Fonnesbeck's curve for forage turns upward here: 0.11 / (2 x 0.00112) per cent.
constexpr double most_adf_of_fonnesbeck_g = 491.0;
// The printed rows of the table from crude fibre, per cent as fed; 9 is "about 8".
constexpr double least_fibre_of_table_percent = 4.0;
constexpr double most_fibre_of_table_percent = 12.0;
constexpr double most_fat_of_table_percent = 9.0;

constexpr std::array all_equations{EnergyEquation::pagan_1998, EnergyEquation::zeyner_kienzle_2002,
                                   EnergyEquation::fonnesbeck_1981,
                                   EnergyEquation::crude_fibre_table};

bool is_called(const Feed& feed, std::initializer_list<std::string_view> words) {
  const std::string names = small_letters(feed.name) + "\n" + small_letters(feed.based_on);
  return std::any_of(words.begin(), words.end(),
                     [&](std::string_view word) { return names.find(word) != std::string::npos; });
}

bool is_super_fibre(const Feed& feed) {
  return feed.has(FeedTrait::beet) ||
         is_called(feed, {"beet pulp", "soya hull", "soy hull", "soybean hull"});
}

bool is_oat_hulls(const Feed& feed) { return is_called(feed, {"oat hull", "oathull", "oat husk"}); }

// The figure of an input; without end where it is not known, so that no limit is
// taken for kept.
double known(const Feed& feed, Nutrient n) {
  return feed.composition[n] ? feed.composition[n]->value : std::numeric_limits<double>::infinity();
}

std::vector<Nutrient> inputs_of(EnergyEquation equation, const Feed& feed) {
  using enum Nutrient;
  switch (equation) {
    case EnergyEquation::pagan_1998:
      return {crude_protein, crude_fat, ndf, adf, ash};
    case EnergyEquation::zeyner_kienzle_2002:
      return {crude_protein, crude_fat, crude_fibre, ash};
    case EnergyEquation::fonnesbeck_1981:
      // Whether it was made for a feed hangs on the fat, too; forage has little of it.
      return feed.is_forage() ? std::vector{crude_protein, adf} : std::vector{adf, crude_fat};
    case EnergyEquation::crude_fibre_table:
      return {crude_fat, crude_fibre};
  }
  return {};
}

bool says_what_feed_it_is(Nutrient n) {
  return n == Nutrient::crude_protein || n == Nutrient::crude_fibre || n == Nutrient::ndf ||
         n == Nutrient::adf;
}

/// Why an equation was not made for such a feed, whatever its figures; or "".
std::string unfit_kind(EnergyEquation equation, const Feed& feed) {
  if (feed.group == FeedGroup::oil || feed.group == FeedGroup::mineral ||
      feed.group == FeedGroup::supplement) {
    return "was made for whole feeds, not for oils, salts and powders";
  }
  switch (equation) {
    case EnergyEquation::pagan_1998:
    case EnergyEquation::fonnesbeck_1981:
      if (is_super_fibre(feed)) return "values the fibre of beet pulp and soya hulls too low";
      if (is_oat_hulls(feed)) return "values oat hulls too high";
      if (feed.has(FeedTrait::linseed)) return "values fat-rich feeds too low";
      return "";
    case EnergyEquation::zeyner_kienzle_2002:
      return "";
    case EnergyEquation::crude_fibre_table:
      return feed.group == FeedGroup::compound ? "" : "was made for bagged mixes only";
  }
  return "";
}

/// Why an equation does not reach to such figures, all of which are known; or "".
std::string unfit_figures(EnergyEquation equation, const Feed& feed) {
  const double fat = known(feed, Nutrient::crude_fat);
  const double fibre = known(feed, Nutrient::crude_fibre);
  const double as_fed_percent = feed.dry_matter_share() / 10.0;
  switch (equation) {
    case EnergyEquation::pagan_1998:
      return fat > most_fat_of_pagan_g ? "values feeds with more than 5 % of fat too low" : "";
    case EnergyEquation::zeyner_kienzle_2002:
      if (fat >= most_fat_of_zeyner_g) return "holds below 8 % of fat";
      return fibre >= most_fibre_of_zeyner_g ? "holds below 35 % of crude fibre" : "";
    case EnergyEquation::fonnesbeck_1981:
      if (feed.is_forage()) {
        return known(feed, Nutrient::adf) > most_adf_of_fonnesbeck_g ? "holds below 49 % of ADF"
                                                                     : "";
      }
      return fat > most_fat_of_pagan_g ? "values fat-rich feeds too low" : "";
    case EnergyEquation::crude_fibre_table:
      if (fat * as_fed_percent > most_fat_of_table_percent) return "holds up to about 8 % of fat";
      return fibre * as_fed_percent < least_fibre_of_table_percent ||
                     fibre * as_fed_percent > most_fibre_of_table_percent
                 ? "holds from 4 to 12 % of crude fibre"
                 : "";
  }
  return "";
}

std::optional<Worked> worked_by(EnergyEquation equation, const Feed& feed) {
  const Constituents parts = constituents_of(feed);
  switch (equation) {
    case EnergyEquation::pagan_1998:
      return pagan_1998(parts);
    case EnergyEquation::zeyner_kienzle_2002:
      return zeyner_kienzle_2002(parts);
    case EnergyEquation::fonnesbeck_1981:
      return feed.is_forage() ? fonnesbeck_1981_forage(parts) : fonnesbeck_1981_concentrate(parts);
    case EnergyEquation::crude_fibre_table:
      return crude_fibre_table(parts, feed.dry_matter_share());
  }
  return std::nullopt;
}

}  // namespace

const EnergyEquationTraits& traits_of(EnergyEquation equation) {
  static constexpr std::array<EnergyEquationTraits, all_equations.size()> table{{
      {"Pagan 1998", "pagan-1998"},
      {"Zeyner and Kienzle 2002", "zeyner-kienzle-2002"},
      {"Fonnesbeck 1981", "fonnesbeck-1981"},
      {"table from crude fibre", "crude-fibre-table"},
  }};
  return table[static_cast<std::size_t>(equation)];
}

std::span<const EnergyEquation> energy_equations() { return all_equations; }

std::optional<EnergyEquation> energy_equation_named(std::string_view name) {
  for (const EnergyEquation equation : all_equations) {
    if (same_letters(name, traits_of(equation).name)) return equation;
  }
  return std::nullopt;
}

EnergyEstimate estimate_energy(EnergyEquation equation, const Feed& feed) {
  EnergyEstimate estimate{equation, {}, {}, unfit_kind(equation, feed)};
  for (const Nutrient n : inputs_of(equation, feed)) {
    const auto& known = feed.composition[n];
    if (!known || (says_what_feed_it_is(n) && feed.is_taken_over(*known))) {
      estimate.lacking.push_back(n);
    }
  }
  if (!estimate.unfit.empty() || !estimate.lacking.empty()) return estimate;
  estimate.unfit = unfit_figures(equation, feed);
  if (!estimate.unfit.empty()) return estimate;
  estimate.energy = worked_by(equation, feed);
  // No feed gives less than nothing; figures that say so are beyond the equation.
  if (estimate.energy && estimate.energy->value <= 0.0) {
    estimate.energy.reset();
    estimate.unfit = "gives less than nothing for such figures";
  }
  return estimate;
}

std::vector<EnergyEstimate> all_energy_estimates(const Feed& feed) {
  std::vector<EnergyEstimate> all;
  all.reserve(all_equations.size());
  for (const EnergyEquation equation : all_equations) {
    all.push_back(estimate_energy(equation, feed));
  }
  return all;
}

bool differs_in_energy(const Feed& own, const Feed& base) {
  bool usable = false;
  for (const EnergyEquation equation : all_equations) {
    const auto of_own = estimate_energy(equation, own).energy;
    if (!of_own) continue;
    usable = true;
    const auto of_base = estimate_energy(equation, base).energy;
    if (!of_base) continue;
    return std::abs(of_own->value - of_base->value) > estimated_energy_error_mj / 2.0;
  }
  return usable;
}

std::optional<EnergyEquation> equation_for_all(std::span<const EnergyWanted> feeds) {
  std::optional<EnergyEquation> best;
  std::ptrdiff_t most = 0;
  for (const EnergyEquation equation : all_equations) {
    const auto can = [&](const EnergyWanted& w) {
      return estimate_energy(equation, *w.feed).energy.has_value();
    };
    if (!std::all_of(feeds.begin(), feeds.end(),
                     [&](const EnergyWanted& w) { return !w.must || can(w); })) {
      continue;
    }
    const std::ptrdiff_t count = std::count_if(feeds.begin(), feeds.end(), can);
    if (count > most) {
      best = equation;
      most = count;
    }
  }
  return best;
}

}  // namespace haymow
