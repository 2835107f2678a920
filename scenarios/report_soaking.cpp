#include "scenarios/report_soaking.h"

#include <fmt/format.h>

#include <string>

#include "scenarios/report_parts.h"

namespace haymow {
namespace {

constexpr double minutes_told_as_hours = 120.0;

std::string time_told(double minutes) {
  return minutes >= minutes_told_as_hours ? fmt::format("{:g} hours", minutes / 60.0)
                                          : fmt::format("{:g} minutes", minutes);
}

}  // namespace

Section soaking_section(const HorseAnswer& answer, const Wording& words) {
  Section section{"What to soak", {}, {}};
  const Ration& ration = ration_to_feed(answer);
  for (const Portion& p : ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (!offer.feed.soaking) continue;
    const Soaking& soak = *offer.feed.soaking;
    const double dry = p.put_out.in_kg() / ration.meals;
    std::string times = time_told(soak.cold_minutes) + " in cold water";
    if (soak.warm_minutes) times += fmt::format(" or {} in warm", time_told(*soak.warm_minutes));
    section.sentences.push_back(fmt::format("Soak {}: {} in {:.1f} litres of water a meal, {}.",
                                            offer.name, words.mass(dry), dry * soak.water_parts,
                                            times));
  }
  return section;
}

}  // namespace haymow
