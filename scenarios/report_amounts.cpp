#include "scenarios/report_amounts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "model/meal_shares.h"
#include "scenarios/report_parts.h"

namespace haymow {
namespace {

// A day's hay in one lot is eaten by noon. Common practice, no source.
constexpr int least_lots = 2;

// "2 scoops", "half a scoop", "2.5 slices".
std::string counted_whole(double count, const std::string& word) {
  if (count == 1.0) return "1 " + word;
  if (count == 0.5) return "half a " + word;
  return fmt::format("{:g} {}s", count, word);
}

// Scoops or slices in `put_out`, where the steps count them; else nothing.
std::optional<std::string> whole_portions(const HorseAnswer& answer, std::size_t offer,
                                          KgAsFed put_out) {
  const auto& fed_in = answer.question.offers[offer].fed_in;
  if (!fed_in || !answer.practical) return std::nullopt;
  const double halves = put_out / fed_in->weight * 2.0;
  if (std::abs(halves - std::round(halves)) > 1e-6) return std::nullopt;
  return counted_whole(std::round(halves) / 2.0, fed_in->word);
}

std::string steps_sentence(Fineness fineness) {
  switch (fineness) {
    case Fineness::usual:
      return "";
    case Fineness::half:
      return "No ration in the usual steps was found to keep every limit, so these are half "
             "steps: weigh to 50 g, balancers to 25 g, minerals and oil to the gram.";
    case Fineness::fine:
      return "No ration in the usual steps or in half steps was found to keep every limit, so "
             "these are fine ones: weigh to 10 g, minerals and oil to the gram.";
  }
  return "";
}

// "scoops and slices": what the file deals out whole.
std::string portion_words(const std::vector<Offer>& offers) {
  std::vector<std::string> words;
  for (const Offer& offer : offers) {
    if (!offer.fed_in) continue;
    const std::string plural = offer.fed_in->word + "s";
    if (std::find(words.begin(), words.end(), plural) == words.end()) words.push_back(plural);
  }
  return listed(words);
}

std::string portions_sentence(const HorseAnswer& answer) {
  const std::string words = portion_words(answer.question.offers);
  switch (answer.practical->choices.portions) {
    case PortionUse::whole:
      return "";
    case PortionUse::half:
      return fmt::format(
          "No ration in whole {} was found to keep every limit: here halves are used, too.", words);
    case PortionUse::by_weight:
      return fmt::format(
          "No ration in whole or half {} was found to keep every limit: go by the weight.", words);
  }
  return "";
}

// Feeds that lie in the bucket in the cheapest ration and not in the practical one.
std::string besides(const HorseAnswer& answer, const Wording& words) {
  std::vector<std::string> others;
  for (const Portion& p : answer.ration->portions) {
    if (fed(answer, p.offer)) continue;
    others.push_back(
        fmt::format("{} {}", words.mass(p.put_out.in_kg()), answer.question.offers[p.offer].name));
  }
  return others.empty() ? "" : ", with " + listed(others);
}

std::string gap_sentence(const PracticalRation& practical) {
  if (practical.within_gap) return "";
  const double gap = practical.search_gap.value_or(practical.certificate.relative_gap);
  return fmt::format(
      "The search for cheaper steps was cut short: these keep every limit, but steps up to "
      "{:.1f} % cheaper may exist.",
      std::ceil(1000.0 * gap) / 10.0);
}

void say_what_steps_cost(const HorseAnswer& answer, const Wording& words, Section& section) {
  if (!answer.practical) {
    section.sentences.emplace_back(
        "No ration in whole steps of the scale keeps every limit: weigh these amounts exactly.");
    return;
  }
  const PracticalRation& practical = *answer.practical;
  const double extra = std::max(0.0, (practical.ration.cost - answer.ration->cost).in_units());
  section.sentences.push_back(fmt::format(
      "Amounts are in steps a person can weigh; without steps the least cost is {}, {} less{}.",
      words.money(answer.ration->cost.in_units()), words.money(extra), besides(answer, words)));
  const int in_bucket = static_cast<int>(std::count_if(
      practical.ration.portions.begin(), practical.ration.portions.end(),
      [&](const Portion& p) { return answer.question.offers[p.offer].feed.is_bucket_feed(); }));
  const int asked = bucket_feeds_asked(answer.question.horse);
  if (in_bucket > asked) {
    section.sentences.push_back(
        fmt::format("With at most {} feed{} in the bucket no ration in whole steps was found: this "
                    "one has {}.",
                    asked, asked == 1 ? "" : "s", in_bucket));
  }
  for (std::string sentence :
       {portions_sentence(answer), steps_sentence(practical.choices.fineness),
        gap_sentence(practical)}) {
    if (!sentence.empty()) section.sentences.push_back(std::move(sentence));
  }
}

// True when every bucket of the day holds the same.
bool alike(const std::vector<Meal>& meals) {
  const auto same = [](const MealPortion& a, const MealPortion& b) {
    return a.offer == b.offer && a.steps == b.steps;
  };
  return std::all_of(meals.begin(), meals.end(), [&](const Meal& meal) {
    return std::equal(meal.portions.begin(), meal.portions.end(), meals[0].portions.begin(),
                      meals[0].portions.end(), same);
  });
}

// The meals of a ration that is weighed to the gram: each its share of every feed.
std::vector<Meal> by_share(const HorseAnswer& answer) {
  std::vector<Meal> meals;
  for (const MealShare& share : meal_shares(answer.question)) {
    Meal meal{share.name, share.share, {}, KgDryMatter{}, 0.0};
    for (const Portion& p : answer.ration->portions) {
      const Offer& offer = answer.question.offers[p.offer];
      if (!offer.feed.is_bucket_feed()) continue;
      meal.portions.push_back({p.offer, 1, p.put_out * share.share});
      meal.dry_matter += p.dry_matter * share.share;
    }
    meal.starch_g =
        answer.ration->starch_per_meal_g * share.share / largest_meal_share(answer.question);
    meals.push_back(std::move(meal));
  }
  return meals;
}

std::string in_meal(const HorseAnswer& answer, const Wording& words, const Meal& meal,
                    std::size_t offer) {
  for (const MealPortion& p : meal.portions) {
    if (p.offer == offer) return weighed_out(answer, words, offer, p.put_out);
  }
  return "";
}

std::optional<std::string> forage_sentence(const HorseAnswer& answer, const Wording& words) {
  const Ration& ration = ration_to_feed(answer);
  const int lots = std::max(least_lots, ration.meals);
  std::vector<std::string> forages;
  for (const Portion& p : ration.portions) {
    const FeedGroup group = answer.question.offers[p.offer].feed.group;
    if (!answer.question.offers[p.offer].feed.is_long_forage()) continue;
    if (group == FeedGroup::grass) continue;
    forages.push_back(fmt::format("{} {}", answer.question.offers[p.offer].name,
                                  listed(forage_lots_told(answer, p, words))));
  }
  if (forages.empty()) return std::nullopt;
  std::string sentence = fmt::format("Forage beside the meals, in {} lots over the day: ", lots);
  for (std::size_t i = 0; i < forages.size(); ++i) {
    sentence += (i > 0 ? "; " : "") + forages[i];
  }
  return sentence + ".";
}

}  // namespace

std::string weighed_out(const HorseAnswer& answer, const Wording& words, std::size_t offer,
                        KgAsFed put_out) {
  const std::string weight = words.weighed(put_out.in_kg());
  const auto whole = whole_portions(answer, offer, put_out);
  return whole ? fmt::format("{} ({})", weight, *whole) : weight;
}

std::vector<Meal> meals_to_feed(const HorseAnswer& answer) {
  return answer.practical ? answer.practical->meals : by_share(answer);
}

std::vector<int> forage_lots(int steps, int meals) {
  const int lots = std::max(least_lots, meals);
  std::vector<int> out(static_cast<std::size_t>(lots), steps / lots);
  for (int i = 0; i < steps % lots; ++i) ++out[static_cast<std::size_t>(lots - 1 - i)];
  return out;
}

std::vector<std::string> forage_lots_told(const HorseAnswer& answer, const Portion& p,
                                          const Wording& words) {
  const int lots = std::max(least_lots, ration_to_feed(answer).meals);
  std::vector<std::string> parts;
  if (answer.practical) {
    const KgAsFed step = answer.practical->weighings[p.offer].step;
    for (const int steps : forage_lots(answer.practical->steps[p.offer], lots)) {
      if (steps > 0) parts.push_back(weighed_out(answer, words, p.offer, step * steps));
    }
  } else {
    parts.assign(static_cast<std::size_t>(lots), words.weighed(p.put_out.in_kg() / lots));
  }
  return parts;
}

Section amounts_section(const HorseAnswer& answer, const Wording& words) {
  const Ration& ration = ration_to_feed(answer);
  Section section{"What to feed", Table{}, {}};
  Table& table = *section.table;
  table.headings = {"feed", "a day", "dry matter", "cost"};
  for (const Portion& p : ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (answer.question.grazes(p.offer)) {
      table.rows.push_back({offer.name, "grazed", words.mass(p.dry_matter.in_kg()), ""});
      continue;
    }
    table.rows.push_back({offer.name, weighed_out(answer, words, p.offer, p.put_out),
                          words.mass(p.dry_matter.in_kg()), words.money(p.cost.in_units())});
  }
  table.rows.push_back(
      {"in all", "", words.mass(ration.dry_matter.in_kg()), words.money(ration.cost.in_units())});

  const double bodyweight = answer.question.horse.bodyweight.in_kg();
  section.sentences.push_back(
      fmt::format("Forage is {:.0f} % of the dry matter and {:.2f} % of bodyweight; {} a month.",
                  100.0 * ration.forage_share(), 100.0 * ration.forage.in_kg() / bodyweight,
                  words.money_with_code(ration.cost.in_units() * days_in_month)));
  say_what_steps_cost(answer, words, section);
  return section;
}

Section meals_section(const HorseAnswer& answer, const Wording& words) {
  const Ration& ration = ration_to_feed(answer);
  std::vector<Meal> meals = meals_to_feed(answer);
  const bool any_bucket = std::any_of(meals.begin(), meals.end(),
                                      [](const Meal& meal) { return !meal.portions.empty(); });
  Section section{"Meal by meal", {}, {}};
  if (any_bucket) {
    Table table;
    if (alike(meals)) {
      const std::string each =
          meals.size() == 1 ? meals[0].name : fmt::format("each of {} meals", meals.size());
      meals.resize(1);
      meals[0].name = each == "meal 1" ? "the one meal" : each;
    }
    table.headings = {"in the bucket"};
    for (const Meal& meal : meals) table.headings.push_back(meal.name);
    for (const Portion& p : ration.portions) {
      const Offer& offer = answer.question.offers[p.offer];
      if (!offer.feed.is_bucket_feed()) continue;
      std::vector<std::string> row{offer.name};
      for (const Meal& meal : meals) row.push_back(in_meal(answer, words, meal, p.offer));
      table.rows.push_back(std::move(row));
    }
    std::vector<std::string> dry{"dry matter"};
    std::vector<std::string> starch{"starch"};
    for (const Meal& meal : meals) {
      dry.push_back(words.mass(meal.dry_matter.in_kg()));
      starch.push_back(fmt::format("{:.0f} g", meal.starch_g));
    }
    table.rows.push_back(std::move(dry));
    table.rows.push_back(std::move(starch));
    section.table = std::move(table);
  }
  if (auto sentence = forage_sentence(answer, words)) section.sentences.push_back(*sentence);
  return section;
}

}  // namespace haymow
