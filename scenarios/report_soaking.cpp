#include "scenarios/report_soaking.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "model/handling.h"
#include "model/meal_shares.h"
#include "scenarios/report_parts.h"

namespace haymow {
namespace {

constexpr double minutes_told_as_hours = 120.0;
std::string time_told(double minutes) {
  return minutes >= minutes_told_as_hours ? fmt::format("{:.3g} hours", minutes / 60.0)
                                          : fmt::format("{:.3g} minutes", minutes);
}

std::string litres_told(double litres) {
  return litres < 1.0 ? fmt::format("{:.2f}", litres) : fmt::format("{:.1f}", litres);
}

/// "put it in at 06:15 (warm: 06:45) for 07:00 and at ...".
std::string times_told(const std::vector<PutIn>& times) {
  std::vector<std::string> told;
  for (const PutIn& time : times) {
    const std::string warm = time.warm ? fmt::format(" (warm: {})", moment_told(*time.warm)) : "";
    told.push_back(fmt::format("{}{} for {}", moment_told(time.cold), warm, clock_time(time.fed)));
  }
  return listed(told);
}

/// "500 g dry in 2.0 litres (2.0 kg) of water".
std::string in_water(KgAsFed dry, const SoakedFeed& feed, const Wording& words) {
  const double litres = feed.litres_for(dry);
  return fmt::format("{} dry in {} litres ({}) of water", words.weighed(dry.in_kg()),
                     litres_told(litres), words.mass(litres));
}

/// "500 g dry in 2.0 litres (2.0 kg) of water a meal", or meal by meal.
std::string amounts_told(const SoakedFeed& feed, const std::vector<MealShare>& meals,
                         const Wording& words) {
  if (feed.is_alike()) return in_water(feed.dry_a_meal, feed, words) + " a meal";
  std::vector<std::string> told;
  for (std::size_t m = 0; m < feed.dry_by_meal.size(); ++m) {
    if (feed.dry_by_meal[m] < least_portion) continue;
    told.push_back(
        fmt::format("{} for {}", in_water(feed.dry_by_meal[m], feed, words), meals[m].name));
  }
  return listed(told);
}

std::string feed_told(const SoakedFeed& feed, const Offer& offer,
                      const std::vector<MealShare>& meals, const Wording& words) {
  std::string times = time_told(feed.how.cold_minutes) + " in cold water";
  if (feed.how.warm_minutes)
    times += fmt::format(" or {} in warm", time_told(*feed.how.warm_minutes));
  std::string told =
      fmt::format("Soak {}: {}, {}, in a bucket of at least {:.0f} litres: it swells.", offer.name,
                  amounts_told(feed, meals, words), times, feed.bucket_litres);
  told += feed.times.empty() ? " Put it in so long before each feed."
                             : fmt::format(" Put it in at {}.", times_told(feed.times));
  if (feed.for_the_teeth) {
    told += " It is hard, and this horse cannot chew: feed it as a mash, without a lump.";
  }
  return told;
}

std::string hay_told(const SoakedHay& hay, const Offer& offer, const Wording& words) {
  return fmt::format(
      "Soak {}: {} a day, weighed dry, {} in clean cold water that covers it; each lot just before "
      "it is fed. Feed it at once and never keep more than a day's. Pour the water away where no "
      "animal drinks it and no ditch takes it.",
      offer.name, words.mass(hay.dry_a_day.in_kg()), time_told(hay.minutes));
}

void add_hay(const SoakedHay& hay, const HorseAnswer& answer, const Wording& words,
             Section& section) {
  const Offer& offer = answer.question.offers[hay.offer];
  section.sentences.push_back(hay_told(hay, offer, words));
  section.sentences.push_back(fmt::format(
      "Soaking is planned to wash out {:.2g} % of its dry matter (derived, from memory; one trade "
      "page's net lost 29 %): so much more is put out. Published losses of its sugar run from "
      "{:.0f} to {:.0f} % ({}): none of it is reckoned with here. Have it analysed, or choose hay "
      "of low sugar.",
      100.0 * hay.dry_matter_lost, hay.published_sugar_loss.least_percent,
      hay.published_sugar_loss.most_percent, hay.published_sugar_loss.source));
  section.sentences.emplace_back(
      "Phosphorus, potassium and magnesium always fall, calcium in young hay, by how much is not "
      "known (Martinson et al. 2012): they are counted here as if none were lost, so do not leave "
      "out the minerals.");
  const double forage =
      100.0 * ration_to_feed(answer).forage.in_kg() / answer.question.horse.bodyweight.in_kg();
  // With soaked hay, less than the floor is for the vet: when to stop and refer.
  if (forage < least_forage_percent) {
    section.sentences.push_back(fmt::format(
        "Forage is {:.2f} % of bodyweight: with soaked hay less than {:.2g} % is for the vet to "
        "agree to.",
        forage, least_forage_percent));
  }
}

}  // namespace

std::string moment_told(const Moment& moment) {
  std::string at = clock_time(moment.at);
  switch (moment.day) {
    case 0:
      return at;
    case -1:
      return at + " the day before";
    case 1:
      return at + " the day after";
    default:
      return moment.day < 0 ? fmt::format("{} {} days before", at, -moment.day)
                            : fmt::format("{} {} days after", at, moment.day);
  }
}

SoakingPlan soaking_plan_of(const HorseAnswer& answer) {
  if (!answer.practical) return soaking_plan(answer.question, *answer.ration, {});
  return soaking_plan(answer.question, answer.practical->ration, answer.practical->meals);
}

std::vector<SoakingPlan> soaking_plans(const std::vector<HorseAnswer>& answers) {
  std::vector<SoakingPlan> plans;
  for (const HorseAnswer& answer : answers) {
    if (answer.status == AnswerStatus::found) plans.push_back(soaking_plan_of(answer));
  }
  return plans;
}

std::vector<std::string> soaking_care(const SoakingPlan& plan) {
  std::vector<std::string> care;
  if (plan.feeds.empty()) return care;
  care.push_back(fmt::format(
      "Soaked feed keeps {:.0f} hours once it is ready, in hot or humid weather {:.0f} or less: "
      "throw away what smells of vinegar or wine, and wash the bucket. What the bag says about "
      "water and time comes before this page.",
      soaked_keeps_hours, soaked_keeps_hours_when_hot));
  const bool timed = std::any_of(plan.feeds.begin(), plan.feeds.end(),
                                 [](const SoakedFeed& feed) { return !feed.times.empty(); });
  if (timed) {
    care.push_back(fmt::format(
        "The times are the latest: in cool weather cold water may be put on up to {:.0f} "
        "hours sooner.",
        soaked_keeps_hours));
  }
  const bool slow = std::any_of(plan.feeds.begin(), plan.feeds.end(), [](const SoakedFeed& feed) {
    return feed.how.cold_minutes > soaked_keeps_hours_when_hot * 60.0;
  });
  if (slow) {
    care.emplace_back(
        "In hot weather it can ferment while it soaks: soak it in a cool place, or in warm water "
        "for the short time where there is one.");
  }
  return care;
}

std::vector<std::string> what_to_soak(const HorseAnswer& answer, const Wording& words) {
  const SoakingPlan plan = soaking_plan_of(answer);
  std::vector<std::string> out;
  for (const SoakedFeed& feed : plan.feeds) {
    out.push_back(
        feed_told(feed, answer.question.offers[feed.offer], meal_shares(answer.question), words));
  }
  for (const SoakedHay& hay : plan.hay) {
    out.push_back(hay_told(hay, answer.question.offers[hay.offer], words));
  }
  return out;
}

Section soaking_section(const HorseAnswer& answer, const Wording& words) {
  Section section{"What to soak", {}, {}};
  const SoakingPlan plan = soaking_plan_of(answer);
  for (const SoakedFeed& feed : plan.feeds) {
    section.sentences.push_back(
        feed_told(feed, answer.question.offers[feed.offer], meal_shares(answer.question), words));
  }
  for (std::string& sentence : soaking_care(plan)) section.sentences.push_back(std::move(sentence));
  for (const SoakedHay& hay : plan.hay) add_hay(hay, answer, words, section);
  return section;
}

Section yard_soaking_section(const std::vector<HorseAnswer>& answers, const Wording& words) {
  Section section{"To soak for the whole yard", {}, {}};
  const std::vector<SoakingPlan> plans = soaking_plans(answers);
  const auto soaks = [](const SoakingPlan& plan) {
    return !plan.feeds.empty() || !plan.hay.empty();
  };
  if (std::count_if(plans.begin(), plans.end(), soaks) < 2) return section;
  const std::vector<Offer>& offers = answers.front().question.offers;
  for (const YardSoaking& yard : soaking_of_yard(plans)) {
    section.sentences.push_back(
        yard.hay ? fmt::format("- {}: {} a day, weighed dry.", offers[yard.offer].name,
                               words.mass(yard.dry.in_kg()))
                 : fmt::format("- {}: {} dry in {} litres of water a feed; {:.0f} litres of "
                               "bucket in all.",
                               offers[yard.offer].name, words.mass(yard.dry.in_kg()),
                               litres_told(yard.water_litres), yard.bucket_litres));
  }
  return section;
}

}  // namespace haymow
