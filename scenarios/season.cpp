#include "scenarios/season.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

#include "feeds/plain_text.h"
#include "model/grazing.h"
#include "model/horse_on_day.h"
#include "model/nrc_2007_drivers.h"
#include "scenarios/fed_now.h"
#include "scenarios/run.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/season_months.h"

namespace haymow {
namespace {

// A youngster's ration is looked at again every four weeks (common practice, no source).
constexpr int days_between_growth_steps = 28;

int days_of_season(const Date& from, const Date& until) {
  return static_cast<int>(days_between(from, until).in_days()) + 1;
}

// Months since the first of the season's.
std::size_t month_of(const Date& from, int day) {
  const Date date = days_after(from, day);
  return static_cast<std::size_t>((date.year - from.year) * months_in_year + date.month -
                                  from.month);
}

std::size_t calendar_month(const Date& from, int day) {
  return static_cast<std::size_t>(days_after(from, day).month - 1);
}

void check_season(const Scenario& scenario) {
  if (!scenario.from || !scenario.until) {
    throw std::invalid_argument("a season needs a first and a last day");
  }
}

// The horse by which a week is planned, with the cold of the month.
Horse horse_in_week(const Scenario& scenario, const Horse& horse, const SeasonWeek& week) {
  const int middle = week.first_day + week.days / 2;
  int day = middle;
  if (std::holds_alternative<Growing>(horse.stage)) {
    day = middle / days_between_growth_steps * days_between_growth_steps +
          days_between_growth_steps / 2;
  }
  Horse later = horse_on(horse, day);
  // What it does changes on its day, whatever it weighs.
  for (const StageFrom& stage : horse.calendar.stages) {
    if ((stage.day <= middle) != (stage.day <= day)) later = horse_on(horse, middle);
  }
  const auto& monthly = scenario.climate_c.at(calendar_month(*scenario.from, middle));
  if (later.cold && horse.calendar.cold_by_month && monthly) later.cold->temperature_c = *monthly;
  return later;
}

std::string text_of(const LifeStage& stage) {
  std::string text = fmt::format("{}", stage.index());
  if (const auto* idle = std::get_if<Idle>(&stage)) {
    text += fmt::format("/{}", static_cast<int>(idle->level));
  } else if (const auto* stallion = std::get_if<Stallion>(&stage)) {
    text += fmt::format("/{}", stallion->breeding);
  } else if (const auto* working = std::get_if<Working>(&stage)) {
    text += fmt::format("/{}", static_cast<int>(working->level));
  } else if (const auto* in_foal = std::get_if<Pregnant>(&stage)) {
    text += fmt::format("/{}", in_foal->month);
  } else if (const auto* in_milk = std::get_if<Lactating>(&stage)) {
    text += fmt::format("/{}", in_milk->month);
  } else if (const auto* growing = std::get_if<Growing>(&stage)) {
    text += fmt::format("/{}/{}", growing->age_months,
                        growing->work ? static_cast<int>(*growing->work) : -1);
  }
  return text;
}

// Cold above the critical temperature asks for nothing.
std::string text_of(const std::optional<Cold>& cold) {
  if (!cold || cold->temperature_c >= cold->critical_c) return "";
  return fmt::format("{}/{}/{}", cold->temperature_c, cold->critical_c,
                     cold->percent_per_degree.value_or(-1.0));
}

std::string grazing_text(const Horse& horse, int month) {
  if (!horse.grazing) return "";
  const GrassIntake grass = grass_eaten(horse, month);
  return fmt::format("{}/{}/{}/{}", grass.low.in_kg(), grass.expected.in_kg(), grass.high.in_kg(),
                     grass_feed_of(month));
}

/// All that a ration question takes from a horse, in a text: two horses with the same
/// text are asked for the same ration. Its name, what it is fed now and when it is fed
/// are no part of that.
std::string identity_of(const Horse& horse, int month) {
  std::string text =
      fmt::format("{}|{}|{}|{}|{}|{}", horse.bodyweight.in_kg(),
                  horse.mature_weight ? horse.mature_weight->in_kg() : -1.0, text_of(horse.stage),
                  horse.meals.value_or(0), horse.energy_factor, horse.bucket_feeds.value_or(0));
  for (const HealthState state : horse.health) text += fmt::format("|h{}", static_cast<int>(state));
  if (horse.condition) {
    text += fmt::format("|c{}/{}/{}", horse.condition->now, horse.condition->aim,
                        horse.condition->within ? horse.condition->within->in_days() : -1.0);
  }
  text += "|" + text_of(horse.cold) + "|" + grazing_text(horse, month);
  for (const Wish& wish : horse.wishes) {
    text += fmt::format("|w{}/{}/{}", static_cast<int>(wish.kind), wish.what, wish.amount.in_kg());
  }
  for (const Instruction& one : horse.instructions) {
    text += fmt::format("|i{}/{}", one.rule, one.number);
  }
  for (const MealShare& meal : horse.meal_shares) text += fmt::format("|m{}", meal.share);
  return text;
}

RationQuestion ration_question(const Horse& horse, const std::vector<Offer>& offers, int month) {
  const int fewest = horse.health.contains(HealthState::cannot_chew) ? least_meals_of_mash : 1;
  RationQuestion question = question_for(horse, offers, horse.meals.value_or(fewest));
  if (horse.grazing) question = with_grass(std::move(question), month);
  choose_fewest_meals(question);
  return question;
}

FeedSupply supply_of(const Offer& offer, const Scenario& scenario,
                     const std::vector<SeasonWeek>& weeks) {
  const SupplyTerms& terms = offer.terms;
  FeedSupply supply;
  for (const SeasonWeek& week : weeks) {
    const auto& monthly = terms.price_per_kg.at(calendar_month(*scenario.from, week.first_day));
    supply.price_per_kg.push_back(monthly.value_or(offer.price_per_kg));
  }
  supply.can_be_bought = terms.can_be_bought;
  supply.can_be_had = terms.can_be_had;
  supply.pack = terms.pack;
  supply.pack_name = terms.pack_name;
  for (const PriceFrom& cheaper : terms.cheaper) {
    supply.cheaper.push_back({cheaper.from, offer.price_per_kg - cheaper.price_per_kg});
  }
  if (terms.by_the_load) {
    supply.delivery = DeliveryTerms{terms.by_the_load->charge, terms.by_the_load->load};
  }
  supply.least_order = terms.least_order;
  supply.keeps = terms.keeps;
  supply.keeps_opened = terms.keeps_opened;
  for (std::size_t s = 0; s < scenario.stores.size(); ++s) {
    if (!same_text(scenario.stores[s].name, terms.kept_in)) continue;
    supply.store = s;
    if (scenario.stores[s].room_cubic_metres) {
      supply.cubic_metres_per_kg = terms.cubic_metres_per_kg.value_or(0.0);
    }
  }
  return supply;
}

// What a horse gets now, one an offer; nothing where it gets what is not on offer, since
// the change from that is no matter of amounts of these.
std::optional<std::vector<double>> fed_before(const Horse& horse,
                                              const std::vector<Offer>& offers) {
  if (horse.fed_now.empty()) return std::nullopt;
  FedNow fed = fed_now_of(horse, offers);
  if (!fed.extra.empty()) return std::nullopt;
  fed.amounts.resize(offers.size());
  return fed.amounts;
}

std::vector<std::optional<Money>> budget_of(const Scenario& scenario,
                                            const std::vector<MonthOfSeason>& months) {
  std::vector<std::optional<Money>> budget;
  bool any = false;
  for (const MonthOfSeason& m : months) {
    budget.push_back(scenario.budget.at(static_cast<std::size_t>(m.month - 1)));
    any = any || budget.back();
  }
  if (!any) budget.clear();
  return budget;
}

}  // namespace

std::vector<SeasonWeek> weeks_of(const Date& from, const Date& until) {
  std::vector<SeasonWeek> weeks;
  const int days = days_of_season(from, until);
  for (int day = 0; day < days; day += days_in_week) {
    weeks.push_back({day, std::min(days_in_week, days - day), month_of(from, day)});
  }
  return weeks;
}

std::vector<int> days_by_month(const Date& from, const SeasonWeek& week, std::size_t months) {
  std::vector<int> days(months, 0);
  for (int day = week.first_day; day < week.first_day + week.days; ++day) {
    ++days.at(month_of(from, day));
  }
  return days;
}

SeasonQuestion season_question(const Scenario& scenario) {
  check_season(scenario);
  const Date& from = *scenario.from;
  SeasonQuestion season;
  season.weeks = weeks_of(from, *scenario.until);
  const auto months = months_of(scenario.from, scenario.until);
  for (const MonthOfSeason& m : months) {
    season.months.push_back(fmt::format("{:04}-{:02}", m.year, m.month));
  }
  season.offers = scenario.stable.offers;
  season.stores = scenario.stores;
  season.budget = budget_of(scenario, months);
  for (Offer& offer : season.offers) {
    season.supply.push_back(supply_of(offer, scenario, season.weeks));
    // Offer::on_hand has what can be had besides in it.
    offer.on_hand = offer.terms.on_hand;
  }
  std::map<std::string, std::size_t> known;
  for (const Horse& horse : scenario.stable.horses) {
    if (is_refused(horse)) continue;
    SeasonHorse asked{horse.name, {}, fed_before(horse, season.offers)};
    for (const SeasonWeek& week : season.weeks) {
      const Horse then = horse_in_week(scenario, horse, week);
      const int middle = week.first_day + week.days / 2;
      const int month = static_cast<int>(calendar_month(from, middle)) + 1;
      const auto [place, is_new] =
          known.try_emplace(identity_of(then, month), season.rations.size());
      if (is_new) season.rations.push_back(ration_question(then, season.offers, month));
      asked.ration_of_week.push_back(place->second);
    }
    season.horses.push_back(std::move(asked));
  }
  return season;
}

std::vector<std::size_t> refused_horses(const Scenario& scenario) {
  std::vector<std::size_t> horses;
  for (std::size_t h = 0; h < scenario.stable.horses.size(); ++h) {
    if (is_refused(scenario.stable.horses[h])) horses.push_back(h);
  }
  return horses;
}

std::vector<std::string> season_assumptions(const Scenario& scenario) {
  std::vector<std::string> sentences;
  check_season(scenario);
  const int last = days_of_season(*scenario.from, *scenario.until) - 1;
  const auto told = [&](int day) { return iso_text(days_after(*scenario.from, day)); };
  for (const Horse& horse : scenario.stable.horses) {
    const auto foaling = expected_foaling(horse);
    if (!foaling) continue;
    if (!horse.calendar.foaling && *foaling > 0 && *foaling <= last) {
      sentences.push_back(
          fmt::format("{} is in month {} on the first day, so she is expected to foal on {}; write "
                      "`foaling` if you know better",
                      horse.name, std::get<Pregnant>(horse.stage).month, told(*foaling)));
    }
    const int weaned = *foaling + static_cast<int>(6.0 * nrc::days_per_month) + 1;
    if (!horse.calendar.weaning && weaned <= last) {
      sentences.push_back(fmt::format(
          "{}'s foal is taken to leave her on {}, six months old; write `weaned` if it is another "
          "day",
          horse.name, told(weaned)));
    }
  }
  return sentences;
}

}  // namespace haymow
