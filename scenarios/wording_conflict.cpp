// Why there is no ration, and what would mend it, in sentences.
#include <fmt/format.h>

#include <algorithm>

#include "scenarios/wording.h"

namespace haymow {
namespace {

constexpr std::size_t most_carriers_told = 3;
// Below this, in any unit, a quantity is told as none.
constexpr double next_to_nothing = 1e-6;

std::vector<std::string> named_feeds(const std::vector<std::size_t>& chosen,
                                     const std::vector<Offer>& offers) {
  std::vector<std::string> names;
  names.reserve(chosen.size());
  for (const std::size_t offer : chosen) names.push_back(offers[offer].name);
  return names;
}

// ", even on hay alone", for the extreme that feeds carry.
std::string even_with(const Implied& implied, bool is_share, const std::vector<Offer>& offers) {
  if (implied.carried_by.empty()) return "";
  std::vector<std::string> names = named_feeds(implied.carried_by, offers);
  if (names.size() == 1) {
    return is_share ? fmt::format(", even if it were all {}", names.front())
                    : fmt::format(", even on {} alone", names.front());
  }
  if (names.size() > most_carriers_told) {
    names.resize(most_carriers_told - 1);
    names.emplace_back("others");
  }
  return fmt::format(", even with {}", listed(names));
}

std::string name_of_quantity(const RowMeaning& row) {
  return row.nutrient ? std::string(traits_of(*row.nutrient).name) : Wording::subject(row);
}

std::string follows(const Wording& words, const Derivation& told, const Implied& implied,
                    const std::vector<Offer>& offers) {
  const std::string name = name_of_quantity(told.clash);
  const bool ceiling = told.clash.side == Side::upper;
  if (!ceiling && implied.value < next_to_nothing) {
    return fmt::format("- So there can be no {} at all.", name);
  }
  // Whoever has just been told that only hay counts knows on what.
  const bool known = !told.only.empty() && implied.carried_by.size() <= told.only.size();
  return fmt::format("- So {} cannot be {} than {}{}.", name, ceiling ? "less" : "more",
                     words.quantity(implied.value, told.clash.unit),
                     known ? "" : even_with(implied, !told.clash.whole.empty(), offers));
}

std::string only_these(const std::vector<std::size_t>& only, const std::string& what,
                       const std::vector<Offer>& offers) {
  return fmt::format("- Of what is on offer only {} count{} towards {}",
                     listed(named_feeds(only, offers)), only.size() == 1 ? "s" : "", what);
}

std::string only_these(const Wording& words, const DerivationStep& step,
                       const std::vector<Offer>& offers) {
  std::string out = only_these(step.only, "that", offers);
  if (step.least_of_them) {
    out += fmt::format(": at least {} of {} must be eaten", words.mass(step.least_of_them->in_kg()),
                       step.only.size() == 1 ? "it" : "them together");
  }
  return out + ".";
}

// The feed's name in "maker/NAME/max" and "stock/NAME/max".
std::string feed_of(const RowMeaning& row) {
  const auto first = row.id.find('/') + 1;
  return row.id.substr(first, row.id.rfind('/') - first);
}

// A demand as it is told of one horse, without a full stop.
std::string told_of(const Wording& words, const RowMeaning& row, const Horse& horse) {
  const std::string bound = words.quantity(row.bound, row.unit);
  switch (row.family) {
    case RowFamily::need:
      return fmt::format("{} {} {} of {} a day", horse.name,
                         row.side == Side::lower ? "needs at least" : "should have at most", bound,
                         name_of_quantity(row));
    case RowFamily::maker:
      return fmt::format("the maker of {} allows at most {} a day", feed_of(row), bound);
    case RowFamily::stock:
      return fmt::format("the {} in the barn lasts for {} a day", feed_of(row), bound);
    case RowFamily::grazing:
      return fmt::format("{} eats grass at pasture, reckoned at {}", horse.name, bound);
    default:
      break;
  }
  if (!row.limit) return words.demand(row);
  const bool forbids = row.limit->number == 0.0;
  std::string out = forbids && !row.whole.empty()
                        ? fmt::format("no {} is allowed", Wording::subject(row))
                        : row.limit->sentence;
  std::vector<std::string> here;
  if (row.whole.empty() && !forbids) here.push_back(fmt::format("for {} {}", horse.name, bound));
  if (!row.limit->because.empty()) {
    here.push_back(fmt::format("because {} is {}", horse.name, row.limit->because));
  }
  if (here.empty()) return out;
  return fmt::format("{} ({})", out, fmt::join(here, ", "));
}

bool nothing_counts(const RowMeaning& row) {
  return row.family == RowFamily::need && row.side == Side::lower &&
         std::none_of(row.part.begin(), row.part.end(),
                      [](const Term& t) { return t.coefficient > 0.0; });
}

}  // namespace

std::vector<std::string> Wording::clash(const NoRation& no, const Horse& horse,
                                        const std::vector<Offer>& offers) const {
  std::vector<std::string> out;
  const auto say = [&](std::string sentence) { out.push_back(std::move(sentence)); };
  const auto fact = [&](const RowMeaning& row) {
    say(fmt::format("- {}.", capitalised(told_of(*this, row, horse))));
  };
  if (no.derivation) {
    const Derivation& told = *no.derivation;
    bool only_is_told = told.only.empty();
    const auto conclude = [&](const Implied& implied) {
      if (!only_is_told) say(only_these(told.only, name_of_quantity(told.clash), offers) + ".");
      only_is_told = true;
      say(follows(*this, told, implied, offers));
    };
    for (const DerivationStep& step : told.steps) {
      fact(step.fact);
      if (!step.only.empty()) say(only_these(*this, step, offers));
      if (step.implied) conclude(*step.implied);
    }
    if (told.steps.empty() && nothing_counts(told.clash)) {
      say(fmt::format(
          "- Nothing on offer has a known figure of {}, and the unknown counts as nothing.",
          name_of_quantity(told.clash)));
    } else if (told.steps.empty()) {
      conclude(told.best);
    }
    say(fmt::format("- But {}.", told_of(*this, told.clash, horse)));
    if (no.conflict_is_minimal && told.tells_all && !told.steps.empty()) {
      say("Drop any one of these demands and the others can hold together.");
    }
  } else {
    for (const RowMeaning& row : no.conflict) fact(row);
  }
  if (!no.conflict_is_minimal) say("A smaller set may exist: the search was not finished.");
  return out;
}

std::string Wording::change(const Mend& mend) const {
  const RowMeaning& row = *mend.row;
  const std::string to = quantity(mend.to, mend.unit);
  if (mend.kind == Mend::Kind::buy_more) {
    return fmt::format("more of {} in the barn, {} a day instead of {}", feed_of(row), to,
                       mass(row.bound));
  }
  if (row.family == RowFamily::grazing) {
    return fmt::format("grass at pasture of {} instead of {}", to, quantity(row.bound, mend.unit));
  }
  if (row.family == RowFamily::wish && row.wish_kind == WishKind::none) {
    return fmt::format("up to {} of {} instead of none", to, row.wish);
  }
  if (row.family == RowFamily::need) {
    return fmt::format("{} up to {} a day instead of {} (and watch the condition)",
                       name_of_quantity(row), to, quantity(row.bound, mend.unit));
  }
  const double from = row.limit && row.limit->number != 0.0 ? row.limit->number : row.bound;
  return fmt::format("{} {} {} instead of {}", subject(row),
                     row.side == Side::lower ? "at least" : "at most", to,
                     quantity(from, mend.unit));
}

std::string Wording::mend(const Mend& mend) const {
  const std::string cost = fmt::format("{} a day", money_with_code(mend.cost.in_units()));
  switch (mend.kind) {
    case Mend::Kind::add_feed: {
      std::vector<std::string> feeds;
      for (const Addition& addition : mend.additions) {
        feeds.push_back(fmt::format("{} of {}", mass(addition.amount.in_kg()), addition.feed.name));
      }
      return fmt::format("Add {} a day, not on offer now: the rest then costs {}.", listed(feeds),
                         cost);
    }
    case Mend::Kind::together: {
      std::vector<std::string> changes;
      bool ask = false;
      for (const Mend& part : mend.parts) {
        const bool vet = part.kind == Mend::Kind::vet;
        ask = ask || vet;
        changes.push_back(change(part) + (vet ? " (for the vet to say)" : ""));
      }
      return fmt::format(
          "No single change does it, two together do: {}, and {}; then {}.{}", changes.front(),
          changes.back(), cost,
          ask ? " Ask the vet or a registered nutritionist, and record the answer under "
                "`instructions`."
              : "");
    }
    case Mend::Kind::vet:
      return fmt::format(
          "Ask the vet or a registered nutritionist: {}; then {}. Record the answer "
          "under `instructions`.",
          change(mend), cost);
    case Mend::Kind::buy_more:
      return fmt::format("Have {}; then {}.", change(mend), cost);
    case Mend::Kind::keeper:
      break;
  }
  return fmt::format("{}; then {}.", capitalised(change(mend)), cost);
}

}  // namespace haymow
