#include "scenarios/season_months.h"

#include <algorithm>
#include <chrono>
#include <stdexcept>
#include <string>
#include <utility>

#include "feeds/feed_table.h"
#include "model/grazing.h"
#include "scenarios/scenario_dates.h"

namespace haymow {
namespace {

int last_day_of(int year, int month) {
  const std::chrono::year_month_day_last last{
      std::chrono::year{year},
      std::chrono::month_day_last{std::chrono::month{static_cast<unsigned>(month)}}};
  return static_cast<int>(static_cast<unsigned>(last.day()));
}

bool earlier(const Date& a, const Date& b) { return days_between(a, b).in_days() > 0.0; }

// Two months in which a horse eats the same grass, as much of it, in the same way.
bool same_grass(const Horse& horse, int a, int b) {
  const GrassIntake in_a = grass_eaten(horse, a);
  const GrassIntake in_b = grass_eaten(horse, b);
  if (in_a.expected < mouthful && in_b.expected < mouthful) return true;
  const bool as_much =
      in_a.low == in_b.low && in_a.expected == in_b.expected && in_a.high == in_b.high;
  const auto& out_a = horse.grazing->in(a);
  const auto& out_b = horse.grazing->in(b);
  const bool same_turnout = out_a && out_b && out_a->hours == out_b->hours &&
                            out_a->sward == out_b->sward && out_a->muzzle == out_b->muzzle;
  return as_much && same_turnout && grass_feed_of(a) == grass_feed_of(b);
}

std::string free_name(std::string name, const std::vector<Offer>& offers) {
  const auto taken = [&](const std::string& n) {
    return std::any_of(offers.begin(), offers.end(), [&](const Offer& o) { return o.name == n; });
  };
  while (taken(name)) name += ", grazed";
  return name;
}

}  // namespace

std::vector<MonthOfSeason> months_of(const std::optional<Date>& from,
                                     const std::optional<Date>& until) {
  std::vector<MonthOfSeason> months;
  if (!from || !until) return months;
  for (Date day = *from; !earlier(*until, day);) {
    const Date month_end{day.year, day.month, last_day_of(day.year, day.month)};
    const Date end = earlier(*until, month_end) ? *until : month_end;
    months.push_back({day.year, day.month, days_between(day, end) + Days{1.0}});
    day = day.month == months_in_year ? Date{day.year + 1, 1, 1} : Date{day.year, day.month + 1, 1};
  }
  return months;
}

std::vector<GrassSpell> spells_of(const Horse& horse, const std::vector<MonthOfSeason>& season) {
  std::vector<GrassSpell> spells;
  if (!horse.grazing || season.empty()) {
    GrassSpell all{horse.grazing ? horse.grazing->month : std::nullopt, season, Days{}};
    for (const MonthOfSeason& m : season) all.days += m.days;
    spells.push_back(std::move(all));
    return spells;
  }
  for (const MonthOfSeason& m : season) {
    const auto known = std::find_if(spells.begin(), spells.end(), [&](const GrassSpell& s) {
      return same_grass(horse, *s.month, m.month);
    });
    GrassSpell& spell =
        known != spells.end() ? *known : spells.emplace_back(GrassSpell{m.month, {}, Days{}});
    spell.months.push_back(m);
    spell.days += m.days;
  }
  return spells;
}

RationQuestion with_grass(RationQuestion question, int month) {
  const GrassIntake intake = grass_eaten(question.horse, month);
  if (intake.expected < mouthful) return question;
  const std::string name(grass_feed_of(month));
  const Feed* feed = find_feed(name);
  if (feed == nullptr) throw std::logic_error("no feed for the grass of a month: " + name);
  Offer grass;
  grass.name = free_name(name, question.offers);
  grass.feed = *feed;
  question.offers.push_back(std::move(grass));
  question.grass = GrassToday{question.offers.size() - 1, intake.expected, intake.expected,
                              intake.low, intake.high};
  return question;
}

}  // namespace haymow
