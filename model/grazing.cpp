#include "model/grazing.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace haymow {
namespace {

struct Range {
  double low;
  double expected;
  double high;
};

// The first hours out are the hungry ones: ponies ate about 40 % of a day's dry
// matter in 3 hours, and 16 to 33 g per kg of bodyweight a day (Ince et al. 2005,
// abstract). The expected rate takes a day of 20 g per kg (NRC 2007, mature
// horses, by way of a published glossary): 0.4 x 20 / 3.
constexpr double hungry_hours = 3.0;
constexpr Range hungry_g_per_kg_hour{0.4 * 16.0 / 3.0, 0.4 * 20.0 / 3.0, 0.4 * 33.0 / 3.0};
// After that 0.5 kg an hour for 500 kg; on full turnout 0.45 to 0.64 are printed for
// 545 kg (trade advice, source not named). The ends are what the ponies ate in the
// rest of their 15 to 17 hours (Ince et al. 2005): 0.6 of the day in 13.
constexpr Range steady_g_per_kg_hour{0.6 * 16.0 / 13.0, 500.0 / 500.0, 0.6 * 33.0 / 13.0};

// A day's grass where nothing else ends it, g per kg of bodyweight. Grown horses:
// 7.3 kg for 545 kg (trade advice, source not named); about 20 (NRC 2007); 25 is
// what the rule intake/max has.
constexpr Range mature_g_per_kg{7300.0 / 545.0, 20.0, 25.0};
// In milk 28, at grass up to 31 (NRC 2007 by way of a glossary); the low end ours.
constexpr Range lactating_g_per_kg{20.0, 28.0, 31.0};
// Growing: 20 to 30 of all feeds (University of Wisconsin Extension 2004); the low
// end ours.
constexpr Range growing_g_per_kg{15.0, 25.0, 30.0};
// Ponies at grass can eat 38, reported from 29 to 49 (trade advice, source not named).
constexpr double pony_high_g_per_kg = 38.0;
// Which bodyweight is a pony's is ours: no source.
constexpr double heaviest_pony_kg = 350.0;

// A published table of intake by the state of the field has 0.11, 0.23, 0.34 and
// 0.45 for poor to excellent (trade advice, units unclear: only the ratios are
// used, and the next grade on either side is the range).
constexpr Range sward_share(Sward sward) {
  switch (sward) {
    case Sward::poor:
      return {0.12, 0.25, 0.5};
    case Sward::fair:
      return {0.25, 0.5, 0.75};
    case Sward::good:
      return {0.75, 1.0, 1.0};
    case Sward::none:
      break;
  }
  return {0.0, 0.0, 0.0};
}

// A muzzle takes away 30 to 80 % (a university, by way of a forum; trade advice).
constexpr Range muzzle_share{0.2, 0.45, 0.7};

// What grows, kg of dry matter a hectare and day, on fertilised dairy swards: Irish
// and British weekly figures 2010 to 2023 (farmersjournal.ie, AHDB, AgriSearch);
// November from memory. No useful growth from November to March (Horse & Hound), so
// the low end is none.
constexpr std::array<Range, months_in_year> growth_kg_per_ha{{{0.0, 4.0, 4.0},
                                                              {0.0, 4.0, 4.0},
                                                              {0.0, 22.0, 33.0},
                                                              {36.5, 45.0, 52.7},
                                                              {66.6, 73.0, 80.0},
                                                              {45.0, 65.0, 77.9},
                                                              {53.0, 57.0, 60.0},
                                                              {53.0, 57.0, 60.0},
                                                              {45.0, 52.0, 60.0},
                                                              {27.0, 37.0, 48.0},
                                                              {0.0, 10.0, 10.0},
                                                              {0.0, 4.0, 4.0}}};
// A horse paddock yields less than a dairy sward: half (no source), a third to all
// of it as the range (ours).
constexpr Range paddock_share{1.0 / 3.0, 0.5, 1.0};
// Horses leave what they soil: 50 to 65 % is eaten (common practice, no source).
constexpr Range eaten_share{0.5, 0.575, 0.65};
// Two horses to the hectare (a charity's guide, by way of a page on pasture).
constexpr double usual_hectares_a_horse = 0.5;

Range times(const Range& a, const Range& b) {
  return {a.low * b.low, a.expected * b.expected, a.high * b.high};
}

Range scaled(const Range& a, double k) { return {a.low * k, a.expected * k, a.high * k}; }

Range plus(const Range& a, const Range& b) {
  return {a.low + b.low, a.expected + b.expected, a.high + b.high};
}

Range appetite_of(const Horse& horse) {
  Range appetite = mature_g_per_kg;
  if (std::holds_alternative<Lactating>(horse.stage)) appetite = lactating_g_per_kg;
  if (std::holds_alternative<Growing>(horse.stage)) appetite = growing_g_per_kg;
  const double grown_kg = horse.mature_weight.value_or(horse.bodyweight).in_kg();
  if (grown_kg <= heaviest_pony_kg) appetite.high = std::max(appetite.high, pony_high_g_per_kg);
  return appetite;
}

Range in_the_time(const Turnout& turnout) {
  const Range hungry = scaled(hungry_g_per_kg_hour, std::min(turnout.hours, hungry_hours));
  const Range steady = scaled(steady_g_per_kg_hour, std::max(turnout.hours - hungry_hours, 0.0));
  const Range share =
      turnout.muzzle ? times(sward_share(turnout.sward), muzzle_share) : sward_share(turnout.sward);
  return times(plus(hungry, steady), share);
}

// kg of dry matter a day that grow and can be eaten on the horse's share of the field.
Range grown_for(const Horse& horse, int month) {
  double hectares = usual_hectares_a_horse;
  if (horse.grazing && horse.grazing->hectares_a_horse) hectares = *horse.grazing->hectares_a_horse;
  const Range& growth = growth_kg_per_ha.at(static_cast<std::size_t>(month - 1));
  return scaled(times(times(growth, paddock_share), eaten_share), hectares);
}

}  // namespace

std::string_view name_of(GrassLimit limit) {
  switch (limit) {
    case GrassLimit::hours:
      return "hours";
    case GrassLimit::appetite:
      return "appetite";
    case GrassLimit::growth:
      return "growth";
  }
  return "";
}

GrassIntake grass_eaten(const Horse& horse, int month, const Turnout& turnout) {
  const double kg_per_g_per_kg = horse.bodyweight.in_kg() / 1000.0;
  const Range time = scaled(in_the_time(turnout), kg_per_g_per_kg);
  const Range appetite = scaled(appetite_of(horse), kg_per_g_per_kg);
  const Range grown = grown_for(horse, month);
  GrassIntake intake;
  intake.low = KgDryMatter{std::min({time.low, appetite.low, grown.low})};
  intake.expected = KgDryMatter{std::min({time.expected, appetite.expected, grown.expected})};
  intake.high = KgDryMatter{std::min({time.high, appetite.high, grown.high})};
  if (grown.expected < std::min(time.expected, appetite.expected)) {
    intake.limit = GrassLimit::growth;
  } else if (appetite.expected < time.expected) {
    intake.limit = GrassLimit::appetite;
  }
  return intake;
}

GrassIntake grass_eaten(const Horse& horse, int month) {
  if (!horse.grazing || !horse.grazing->in(month)) return {};
  return grass_eaten(horse, month, *horse.grazing->in(month));
}

double hours_for(const Horse& horse, int month, const Turnout& turnout, KgDryMatter most) {
  if (grass_eaten(horse, month, turnout).expected <= most) return turnout.hours;
  // More than `most` is eaten, so the time is what has to end it.
  const double share = sward_share(turnout.sward).expected *
                       (turnout.muzzle ? muzzle_share.expected : 1.0) * horse.bodyweight.in_kg() /
                       1000.0;
  const double g_per_kg = most.in_kg() / share;
  const double hungry = g_per_kg / hungry_g_per_kg_hour.expected;
  if (hungry <= hungry_hours) return std::max(hungry, 0.0);
  return hungry_hours +
         (g_per_kg - hungry_hours * hungry_g_per_kg_hour.expected) / steady_g_per_kg_hour.expected;
}

std::string_view grass_feed_of(int month) {
  // The seasons of the table's four feeds are taken as the months of each in
  // north-western Europe (common practice, no source).
  if (month >= 3 && month <= 5) return "grass, spring";
  if (month >= 6 && month <= 8) return "grass, summer";
  if (month >= 9 && month <= 11) return "grass, autumn";
  return "grass, winter";
}

std::string_view month_name(int month) {
  static constexpr std::array<std::string_view, months_in_year> names{
      "January", "February", "March",     "April",   "May",      "June",
      "July",    "August",   "September", "October", "November", "December"};
  return names.at(static_cast<std::size_t>(month - 1));
}

}  // namespace haymow
