#include "scenarios/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scenarios/curves.h"
#include "scenarios/report_amounts.h"
#include "scenarios/report_change.h"
#include "scenarios/report_parts.h"
#include "scenarios/report_soaking.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

bool is_soaked(const HorseAnswer& answer, const SoakingPlan& soaking, std::size_t offer) {
  const bool in_bucket = std::any_of(soaking.feeds.begin(), soaking.feeds.end(),
                                     [&](const SoakedFeed& feed) { return feed.offer == offer; });
  return in_bucket || answer.question.offers[offer].soaked_minutes.has_value();
}

std::string name_on_sheet(const HorseAnswer& answer, const SoakingPlan& soaking,
                          std::size_t offer) {
  const std::string& name = answer.question.offers[offer].name;
  return is_soaked(answer, soaking, offer) ? name + " (soaked)" : name;
}

// What the horse must not have, and what else differs from the others'.
std::vector<std::string> minded(const HorseAnswer& answer) {
  const Horse& horse = answer.question.horse;
  std::vector<std::string> out;
  for (const HealthState state : horse.health) out.emplace_back(name_of(state));
  std::vector<std::string> never;
  for (const Wish& wish : horse.wishes) {
    if (wish.kind == WishKind::none) never.push_back(wish.what);
  }
  if (!never.empty()) out.push_back("never " + listed(never));
  if (answer.change && answer.change->plan.changes) out.emplace_back("changing over: see below");
  for (const HorseAnswer& spell : answer.other_spells) {
    const MonthOfSeason& from = spell.spell.months.front();
    out.push_back(fmt::format("other amounts from {}", short_text(Date{from.year, from.month, 1})));
  }
  return out;
}

SheetRow row_of(const HorseAnswer& answer, const Wording& words) {
  SheetRow row;
  row.horses = {answer.question.horse.name};
  const SoakingPlan soaking = soaking_plan_of(answer);
  for (const Portion& p : ration_to_feed(answer).portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (!offer.feed.is_long_forage()) continue;
    if (answer.question.grazes(p.offer)) {
      row.forage.push_back(offer.name + ", grazed");
      continue;
    }
    row.forage.push_back(fmt::format("{} {}", name_on_sheet(answer, soaking, p.offer),
                                     listed(forage_lots_told(answer, p, words))));
  }
  for (const Meal& meal : meals_to_feed(answer)) {
    std::vector<std::string> bucket;
    for (const MealPortion& p : meal.portions) {
      if (p.put_out < least_portion) continue;
      bucket.push_back(fmt::format("{} {}", weighed_out(answer, words, p.offer, p.put_out),
                                   name_on_sheet(answer, soaking, p.offer)));
    }
    row.buckets.push_back(std::move(bucket));
  }
  row.mind = minded(answer);
  return row;
}

// Horses with the same in every bucket share a row.
void add_row(std::vector<SheetRow>& rows, SheetRow row) {
  for (SheetRow& other : rows) {
    if (other.forage == row.forage && other.buckets == row.buckets && other.mind == row.mind) {
      other.horses.push_back(std::move(row.horses.front()));
      return;
    }
  }
  rows.push_back(std::move(row));
}

std::vector<std::string> meal_names(const std::vector<HorseAnswer>& answers) {
  std::vector<std::string> names;
  for (const HorseAnswer& answer : answers) {
    if (answer.status != AnswerStatus::found) continue;
    const std::vector<Meal> meals = meals_to_feed(answer);
    if (meals.size() <= names.size()) continue;
    names.clear();
    for (const Meal& meal : meals) names.push_back(capitalised(meal.name));
  }
  return names;
}

std::string not_fed(const HorseAnswer& answer) {
  const std::string& name = answer.question.horse.name;
  return answer.status == AnswerStatus::refused
             ? name + ": no plan; this needs a vet"
             : name + ": no ration; the report says why. Do not guess one from this sheet";
}

// What is soaked alike is told once, for all who get it; so is how long it keeps.
Section soaking_of(const std::vector<HorseAnswer>& answers, const Wording& words) {
  std::vector<std::pair<std::string, std::vector<std::string>>> soaked;
  std::vector<std::string> care;
  for (const HorseAnswer& answer : answers) {
    if (answer.status != AnswerStatus::found) continue;
    for (const std::string& what : what_to_soak(answer, words)) {
      auto known = std::find_if(soaked.begin(), soaked.end(),
                                [&](const auto& entry) { return entry.first == what; });
      if (known == soaked.end()) known = soaked.insert(known, {what, {}});
      known->second.push_back(answer.question.horse.name);
    }
    for (const std::string& sentence : soaking_care(soaking_plan_of(answer))) {
      if (std::find(care.begin(), care.end(), sentence) == care.end()) care.push_back(sentence);
    }
  }
  Section out{"To soak", {}, {}};
  for (const auto& [what, horses] : soaked) {
    out.sentences.push_back(
        fmt::format("- {}{}: {}", listed(horses), horses.size() > 1 ? ", each" : "", what));
  }
  out.sentences.insert(out.sentences.end(), care.begin(), care.end());
  return out;
}

std::vector<Section> changes_of(const std::vector<HorseAnswer>& answers, const Wording& words) {
  std::vector<Section> out;
  for (const HorseAnswer& answer : answers) {
    const std::string& name = answer.question.horse.name;
    if (answer.status != AnswerStatus::found) continue;
    Report::Part part;
    add_change_sections(part, answer, words, false);
    for (Section& section : part.sections) {
      if (section.title == "Changing over") section.title = name + " changes over";
      out.push_back(std::move(section));
    }
    for (const HorseAnswer& spell : answer.other_spells) {
      const MonthOfSeason& from = spell.spell.months.front();
      out.push_back({fmt::format("{} from {}", name, short_text(Date{from.year, from.month, 1})),
                     {},
                     {headline(spell, words)}});
    }
  }
  return out;
}

// What all horses together are put out a day of an offer, kg.
double put_out_a_day(const std::vector<HorseAnswer>& answers, std::size_t offer) {
  double kg = 0.0;
  for (const HorseAnswer& answer : answers) {
    if (answer.status != AnswerStatus::found || answer.question.grazes(offer)) continue;
    for (const Portion& p : ration_to_feed(answer).portions) {
      if (p.offer == offer) kg += p.put_out.in_kg();
    }
  }
  return kg;
}

ToBuy to_buy_of(const Offer& offer, KgAsFed needed, KgAsFed on_hand, const Wording& words) {
  ToBuy out;
  out.feed = offer.name;
  KgAsFed bought = needed - on_hand;
  if (offer.terms.pack) {
    const double packs = std::ceil(bought / *offer.terms.pack - 1e-9);
    bought = *offer.terms.pack * packs;
    out.amount = fmt::format("{:.0f} {}{}", packs, offer.terms.pack_name, packs == 1.0 ? "" : "s");
    if (offer.terms.pack_name != "tonne") {
      out.amount += fmt::format(" of {:g} kg", offer.terms.pack->in_kg());
    }
  } else {
    out.amount = words.mass(bought.in_kg());
  }
  out.why = "needs " + words.mass(needed.in_kg());
  if (on_hand > KgAsFed{}) out.why += ", " + words.mass(on_hand.in_kg()) + " on hand";
  out.money = words.money((offer.cost_per_kg_delivered() * bought.in_kg()).in_units());
  return out;
}

std::vector<ToBuy> shopping(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                            int days, const Wording& words) {
  std::vector<ToBuy> out;
  const auto& offers = scenario.stable.offers;
  for (std::size_t f = 0; f < offers.size(); ++f) {
    const double a_day = put_out_a_day(answers, f);
    if (a_day <= 0.0) continue;
    const KgAsFed needed{a_day * days / (1.0 - offers[f].storage_loss)};
    const SupplyTerms& terms = offers[f].terms;
    const KgAsFed on_hand = terms.on_hand.value_or(
        terms.can_be_bought ? KgAsFed{} : offers[f].on_hand.value_or(KgAsFed{}));
    if (on_hand >= needed || !terms.can_be_bought) continue;
    out.push_back(to_buy_of(offers[f], needed, on_hand, words));
  }
  return out;
}

std::string certificate_of(const std::vector<HorseAnswer>& answers) {
  double violation = 0.0;
  bool any = false;
  for (const HorseAnswer& answer : answers) {
    if (answer.status != AnswerStatus::found) continue;
    any = true;
    violation = std::max(violation, answer.certificate.largest_violation);
    if (answer.practical) {
      violation = std::max(violation, answer.practical->certificate.largest_violation);
    }
  }
  if (!any) return "";
  return fmt::format(
      "Every ration here is certified: no limit is missed by more than {} of it. The report "
      "says why it is what it is.",
      violation < 1e-12 ? "1e-12" : fmt::format("{:.0e}", violation));
}

}  // namespace

Sheet feed_room_sheet(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                      Units units) {
  const Wording words(units, scenario.stable.money);
  Sheet sheet;
  sheet.title = scenario.stable.yard.empty() ? "Feed room" : scenario.stable.yard + ": feed room";
  if (scenario.from) sheet.from = "from " + short_text(*scenario.from);
  sheet.meals = meal_names(answers);
  for (const HorseAnswer& answer : answers) {
    if (answer.status == AnswerStatus::found) {
      add_row(sheet.rows, row_of(answer, words));
    } else {
      sheet.not_fed.push_back(not_fed(answer));
    }
  }
  sheet.soaking = soaking_of(answers, words);
  sheet.changes = changes_of(answers, words);
  sheet.shopping_days = usual_shopping_days;
  if (scenario.stable.season) {
    sheet.shopping_days =
        std::min(sheet.shopping_days, static_cast<int>(scenario.stable.season->in_days()));
  }
  sheet.to_buy = shopping(scenario, answers, sheet.shopping_days, words);
  sheet.cautions = cautions();
  sheet.stop = when_to_ask().front();
  sheet.money = scenario.stable.money;
  sheet.certificate = certificate_of(answers);
  return sheet;
}

}  // namespace haymow
