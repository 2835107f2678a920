#include "scenarios/report_doubt.h"

#include <fmt/format.h>

#include <algorithm>

#include "model/floor_doubt.h"
#include "scenarios/promise_check.h"

namespace haymow {
namespace {

constexpr std::size_t most_floors_told = 3;
// Fewer failures than this are not worth a word: one batch in fifty.
constexpr double least_worth_telling = 0.02;

// "90 %", "99.9 %": a promise is not rounded up to more than it is.
std::string per_cent(double share) { return fmt::format("{:.3g} %", 100.0 * share); }

// "about 1 batch in 9", "about 7 batches in 10". What varies much is short more often
// than not, since few very good batches make the average.
std::string odds(double failing) {
  constexpr double more_than_even = 0.55;
  if (failing >= more_than_even) return fmt::format("about {:.0f} batches in 10", 10.0 * failing);
  return fmt::format("about 1 batch in {:.0f}", std::max(2.0, 1.0 / failing));
}

std::string names_of(const std::vector<Nutrient>& nutrients) {
  std::vector<std::string> names;
  for (const Nutrient n : nutrients) names.emplace_back(traits_of(n).name);
  return listed(names);
}

std::string told(const FloorDoubt& doubt, const HorseAnswer& answer) {
  const double below = 1.0 - doubt.nine_in_ten / doubt.floor;
  std::string sentence =
      fmt::format("{}: short in {}", capitalised(std::string(traits_of(doubt.nutrient).name)),
                  odds(1.0 - doubt.kept));
  if (below > 0.005) sentence += fmt::format(", by {:.0f} % or more in 1 of 10", 100.0 * below);
  return sentence + fmt::format("; mostly {}.", answer.question.offers[doubt.mostly].name);
}

Section first_to_break(const HorseAnswer& answer, const std::vector<FloorDoubt>& doubts) {
  Section section{"What a bad batch would break first", {}, {}};
  for (const FloorDoubt& doubt : doubts) {
    if (section.sentences.size() == most_floors_told) break;
    if (1.0 - doubt.kept < least_worth_telling) break;
    section.sentences.push_back(told(doubt, answer));
  }
  if (section.sentences.empty()) return {"", {}, {}};
  section.sentences.emplace_back("`--confidence 90` plans for batches like that.");
  return section;
}

Section promise_section(const HorseAnswer& answer, const Wording& words) {
  const PromiseMade& made = *answer.promise;
  const Promise& promise = made.promise;
  Section section{fmt::format("Kept in {} of batches", per_cent(promise.probability)), {}, {}};
  const PromiseCheck check = check_promise(answer);
  if (check.least_kept) {
    section.sentences.push_back(fmt::format(
        "Every floor by itself, feeds varying as published. Of {} batches drawn to check it the "
        "floor kept least often, {}, was met in {:.1f} %.",
        check.draws, traits_of(check.least_kept->nutrient).name, 100.0 * check.least_kept->kept));
  }
  const double extra = answer.solution.cost - made.cost_without.in_units();
  section.sentences.push_back(
      fmt::format("Without the promise the least cost is {}: safety costs {} a day.",
                  words.money(made.cost_without.in_units()), words.money(std::max(extra, 0.0))));
  if (promise.energy_left_out) {
    section.sentences.push_back(fmt::format(
        "Energy is not promised: under its ceiling there is no room for what varies, and the need "
        "is met in {} of batches. Score condition, or have the forage analysed.",
        check.energy_kept ? per_cent(*check.energy_kept) : "half"));
  }
  if (!promise.as_figured.empty()) {
    section.sentences.push_back(
        fmt::format("Nothing is published on how these vary in what is on offer, so they are kept "
                    "as the figures have them: {}.",
                    names_of(promise.as_figured)));
  }
  return section;
}

}  // namespace

Section doubt_section(const HorseAnswer& answer, const Wording& words) {
  if (answer.promise) return promise_section(answer, words);
  return first_to_break(answer, floor_doubts(answer.question, answer.amounts_to_feed()));
}

Report::Part no_promise_part(const HorseAnswer& answer, const Wording& words) {
  const PromiseMade& made = *answer.promise;
  Report::Part part{fmt::format("{}: no ration keeps every floor in {} of batches",
                                answer.question.horse.name, per_cent(made.promise.probability)),
                    false,
                    {}};
  Section why{"These cannot all hold, counting what batches like that have less", {}, {}};
  for (const RowMeaning& row : made.conflict) why.sentences.push_back("- " + words.demand(row));
  part.sections.push_back(std::move(why));
  Section instead{"What would do instead", {}, {}};
  if (made.most && *made.most > 0.5) {
    instead.sentences.push_back(
        fmt::format("- `--confidence {:.0f}` is the most that can be kept.", 100.0 * *made.most));
  }
  instead.sentences.push_back(fmt::format("- Without a promise the least cost is {} a day.",
                                          words.money_with_code(made.cost_without.in_units())));
  instead.sentences.emplace_back(
      "- Have the forage analysed and write `analysed: ` with the day: a fresh analysis leaves a "
      "third of what varies.");
  part.sections.push_back(std::move(instead));
  return part;
}

}  // namespace haymow
