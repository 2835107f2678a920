#include "scenarios/scenario_energy.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

#include "feeds/feed_table.h"
#include "feeds/plain_text.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

struct Spread {
  double least;
  double most;
};

/// What the equations other than `taken` give [MJ/kg DM].
std::optional<Spread> others_than(EnergyEquation taken, const Feed& feed) {
  std::optional<Spread> spread;
  for (const EnergyEstimate& e : all_energy_estimates(feed)) {
    if (e.equation == taken || !e.energy) continue;
    const double mj = e.energy->value;
    spread =
        spread ? Spread{std::min(spread->least, mj), std::max(spread->most, mj)} : Spread{mj, mj};
  }
  return spread;
}

std::string in_words(const std::optional<Spread>& others) {
  if (!others) return "";
  const std::string least = fmt::format("{:.1f}", others->least);
  const std::string most = fmt::format("{:.1f}", others->most);
  return least == most ? fmt::format(", by another {}", least)
                       : fmt::format(", by others {} to {}", least, most);
}

std::string joined_names(const std::vector<Nutrient>& nutrients) {
  std::vector<std::string> names;
  names.reserve(nutrients.size());
  for (const Nutrient n : nutrients) names.emplace_back(traits_of(n).name);
  return listed(names);
}

/// What would let the equation be used, or why it never can.
std::string obstacle(const EnergyEstimate& estimate) {
  if (!estimate.unfit.empty()) return estimate.unfit;
  return "needs " + joined_names(estimate.lacking);
}

/// The equation that asks for the fewest further figures, where one was made for
/// such a feed; for a bag, first one whose figures a bag has to declare.
std::optional<EnergyEstimate> nearest(const Feed& feed, bool on_a_bag) {
  std::optional<EnergyEstimate> best;
  for (EnergyEstimate& e : all_energy_estimates(feed)) {
    if (!e.unfit.empty() || e.lacking.empty()) continue;
    if (on_a_bag && e.equation == EnergyEquation::zeyner_kienzle_2002) return std::move(e);
    if (!best || e.lacking.size() < best->lacking.size()) best = std::move(e);
  }
  return best;
}

bool can_be_estimated(const Feed& feed) {
  const auto all = all_energy_estimates(feed);
  return std::any_of(all.begin(), all.end(),
                     [](const EnergyEstimate& e) { return e.energy.has_value(); });
}

bool must(const Offer& offer) { return !offer.feed.composition[Nutrient::energy].has_value(); }

void refuse(const Offer& offer, const EnergyGap& gap, Findings& findings) {
  const std::string example = gap.analysis ? "8.4 MJ/kg DM" : "10 MJ/kg";
  std::string help =
      fmt::format("add `energy: {}`, or `feed: ...` with the table feed most like it", example);
  std::string note;
  if (const auto near = nearest(offer.feed, !gap.analysis)) {
    help += fmt::format(", or its {}, from which it is estimated", joined_names(near->lacking));
  } else {
    note = "no equation was made for such a feed";
    for (const EnergyEstimate& e : all_energy_estimates(offer.feed)) {
      if (!e.unfit.empty()) {
        note = fmt::format("no equation was made for such a feed: {} {}",
                           traits_of(e.equation).name, e.unfit);
        break;
      }
    }
  }
  findings.error(gap.at, {fmt::format("no energy is given for {}, and there is no table feed to "
                                      "take it from",
                                      ticked(offer.name)),
                          std::move(help), std::move(note)});
}

/// Feeds that must have an energy and cannot have it by `equation`.
void refuse_without(EnergyEquation equation, bool asked, const Offer& offer, const EnergyGap& gap,
                    Findings& findings) {
  const EnergyEstimate estimate = estimate_energy(equation, offer.feed);
  findings.error(
      gap.at,
      {fmt::format("the energy of {} cannot be estimated by {}, {}", ticked(offer.name),
                   traits_of(equation).name,
                   asked ? "which the file asks for" : "as that of other feeds is"),
       fmt::format("add its energy: `energy: {}`{}", gap.analysis ? "8.4 MJ/kg DM" : "10 MJ/kg",
                   estimate.unfit.empty() ? ", or " + joined_names(estimate.lacking)
                   : asked                ? ", or ask for another equation"
                                          : ""),
       fmt::format("{} {}; two equations are never mixed, since they differ by up to 13 % on one "
                   "hay",
                   traits_of(equation).name, obstacle(estimate))});
}

void keep_from_table(EnergyEquation equation, const Offer& offer, const EnergyGap& gap,
                     Findings& findings) {
  findings.remark(
      gap.at,
      {fmt::format("the energy of {} stays that of {}, {:.1f} MJ a kg of dry matter, though its "
                   "{} differs: {}, by which energy is estimated here, {}",
                   ticked(offer.name), offer.feed.based_on,
                   offer.feed.composition[Nutrient::energy]->value,
                   gap.analysis ? "analysis" : "label", traits_of(equation).name,
                   obstacle(estimate_energy(equation, offer.feed))),
       "add the energy, or the figures named", ""});
}

void put(EnergyEquation equation, const Worked& energy, Offer& offer, const EnergyGap& gap,
         Findings& findings) {
  const EnergyEquationTraits& traits = traits_of(equation);
  auto& known = offer.feed.composition[Nutrient::energy];
  const std::string instead =
      known ? fmt::format(", instead of the {:.1f} of {}", known->value, offer.feed.based_on) : "";
  findings.remark(
      gap.at,
      {fmt::format("the energy of {} is estimated: {:.1f} MJ a kg of dry matter by {}, give or "
                   "take {:.0f}{}{}",
                   ticked(offer.name), energy.value, traits.name, estimated_energy_error_mj,
                   in_words(others_than(equation, offer.feed)), instead),
       "add `energy` if the maker or the laboratory states it", ""});
  known = Figure{energy.value, FigureOrigin::calculated, std::string(traits.source),
                 fmt::format("{}: {}", traits.name, written(energy, "MJ", 1))};
}

/// Where no equation serves all: the one that serves most of those that must have it.
EnergyEquation best_of(const std::vector<EnergyWanted>& wanted) {
  EnergyEquation best = energy_equations().front();
  std::ptrdiff_t most = -1;
  for (const EnergyEquation equation : energy_equations()) {
    const std::ptrdiff_t count =
        std::count_if(wanted.begin(), wanted.end(), [&](const EnergyWanted& w) {
          return w.must && estimate_energy(equation, *w.feed).energy.has_value();
        });
    if (count > most) {
      best = equation;
      most = count;
    }
  }
  return best;
}

}  // namespace

std::optional<EnergyEquation> energy_equation_of(const MapReader& file, Findings& findings) {
  const YamlEntry* entry = file.find("energy equation");
  if (entry == nullptr) return std::nullopt;
  const auto name = text_of(entry->value, "`energy equation`", findings);
  if (!name) return std::nullopt;
  const auto equation = energy_equation_named(single_spaced(*name));
  if (!equation) {
    std::vector<std::string> names;
    for (const EnergyEquation e : energy_equations()) names.emplace_back(traits_of(e).name);
    findings.error(entry->value.span, {fmt::format("{} is not an energy equation", ticked(*name)),
                                       near_or_all(*name, names), ""});
  }
  return equation;
}

void fill_energy(std::vector<Offer>& offers, const std::vector<EnergyGap>& gaps,
                 std::optional<EnergyEquation> asked, Findings& findings) {
  std::vector<EnergyWanted> wanted;
  std::vector<EnergyGap> open;
  for (const EnergyGap& gap : gaps) {
    const Offer& offer = offers[gap.offer];
    if (!can_be_estimated(offer.feed)) {
      // Nothing is known against the table's energy either.
      if (must(offer)) refuse(offer, gap, findings);
      continue;
    }
    const Feed* base = must(offer) ? nullptr : find_feed(offer.feed.based_on);
    if (base != nullptr && !differs_in_energy(offer.feed, *base)) continue;
    wanted.push_back({&offer.feed, must(offer)});
    open.push_back(gap);
  }
  if (open.empty()) return;
  const auto for_all = asked ? asked : equation_for_all(wanted);
  const EnergyEquation equation = for_all ? *for_all : best_of(wanted);
  for (const EnergyGap& gap : open) {
    Offer& offer = offers[gap.offer];
    const EnergyEstimate estimate = estimate_energy(equation, offer.feed);
    if (estimate.energy) {
      put(equation, *estimate.energy, offer, gap, findings);
    } else if (must(offer)) {
      refuse_without(equation, asked.has_value(), offer, gap, findings);
    } else {
      keep_from_table(equation, offer, gap, findings);
    }
  }
}

}  // namespace haymow
