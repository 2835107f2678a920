// Rations that others have worked out and printed, put through the program: the
// answer must be the printed one within its own rounding and the exact one
// closely. Only the limits that each example states are in force.
//
// The examples count as fed. Their feeds are given 1000 g of dry matter a kg, so
// that a figure as fed is one of dry matter. Where an example counts in pounds,
// per cent or TDN, a kilogram stands for its pound: the sums do not mind.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "model/no_ration.h"
#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/model/hand_made.h"

namespace haymow::worked_rations_test {
namespace {

using hand_made::exactly_of;
using hand_made::feed_of;
using hand_made::ids_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using hand_made::row_of;
using hand_made::supply_in;
using testing::Contains;
using testing::DoubleNear;

constexpr double all_dry = 1000.0;  // g of dry matter a kg
constexpr double per_cent = 10.0;   // g per kg

/// The answer to `question`, once it is optimal and certified.
std::vector<double> amounts_for(const RationQuestion& question) {
  const Formulation formulation = formulate(question);
  const Solution solution = solve(formulation.program);
  EXPECT_EQ(solution.status, Status::optimal);
  EXPECT_THAT(certify(formulation.program, solution), Holds());
  return solution.status == Status::optimal ? solution.columns
                                            : std::vector<double>(question.offers.size(), 0.0);
}

// --- A 500 kg gelding in moderate work: 24.6 Mcal and 984 g of protein. ---
// Teaching slides on balancing horse diets,
// https://studylib.net/doc/5624312/powerpoint-on-balancing-horse-diets .
// Grass hay is fixed at 5 kg and oil at 0.5 kg; 10.25 Mcal and 561 g are left:
//   1.75 alfalfa + 2.45 grain = 10.25,  180 alfalfa + 89 grain = 561.
enum GeldingFeed : std::size_t { grass_hay, alfalfa_hay, grain, oil };

RationQuestion gelding() {
  const auto as_fed = [](const std::string& name, FeedGroup group, double mcal, double protein) {
    return offer_of(feed_of(name, group, all_dry,
                            {{Nutrient::energy, mcal * mj_per_mcal},
                             {Nutrient::crude_protein, protein * per_cent}}),
                    1.0);
  };
  RationQuestion question = question_of(
      500.0,
      {as_fed("grass hay", FeedGroup::hay, 1.95, 8.46), as_fed("alfalfa", FeedGroup::hay, 1.75, 18),
       as_fed("grain", FeedGroup::cereal, 2.45, 8.9), as_fed("oil", FeedGroup::oil, 9.2, 0)},
      {exactly_of(Nutrient::energy, 24.6 * mj_per_mcal),
       exactly_of(Nutrient::crude_protein, 984.0)});
  question.horse.stage = Working{WorkLevel::moderate};
  question.horse.wishes = {{WishKind::exactly, "grass hay", KgAsFed{5.0}, {}},
                           {WishKind::exactly, "oil", KgAsFed{0.5}, {}}};
  return question;
}

TEST(WorkedRations, GeldingInModerateWork) {
  const std::vector<double> kg = amounts_for(gelding());
  EXPECT_THAT(kg[grain], DoubleNear(3.02, 0.01));  // printed; its author rounded on the way
  EXPECT_THAT(kg[alfalfa_hay], DoubleNear(1.62, 0.01));
  // (1.75 x 561 - 180 x 10.25) / (1.75 x 89 - 180 x 2.45), and back.
  EXPECT_NEAR(kg[grain], 863.25 / 285.25, 1e-7);
  EXPECT_NEAR(kg[alfalfa_hay], 462.2 / 285.25, 1e-7);
}

// With the grain rounded to 3 kg the two equations part company: 1.63 kg of
// alfalfa for the protein, 1.66 kg for the energy (the same slides).
TEST(WorkedRations, GeldingWithItsGrainRounded) {
  RationQuestion by_protein = gelding();
  by_protein.horse.wishes.push_back({WishKind::exactly, "grain", KgAsFed{3.0}, {}});
  RationQuestion by_energy = by_protein;
  by_protein.needs.rows = {exactly_of(Nutrient::crude_protein, 984.0)};
  by_energy.needs.rows = {exactly_of(Nutrient::energy, 24.6 * mj_per_mcal)};
  EXPECT_NEAR(amounts_for(by_protein)[alfalfa_hay], (561.0 - 267.0) / 180.0, 1e-7);  // 1.63
  EXPECT_NEAR(amounts_for(by_energy)[alfalfa_hay], (10.25 - 7.35) / 1.75, 1e-7);     // 1.66
}

// Right by its nutrients, and no ration for a horse: 6.6 kg of forage is 1.3 % of
// bodyweight, and half a kilogram of oil is more than a millilitre a kilogram.
TEST(WorkedRations, GeldingsRationBreaksTheForageFloor) {
  RationQuestion question = gelding();
  const std::vector<double> kg = amounts_for(question);
  question.limits = limits_for(question.horse);
  question.meals = 3;
  const std::vector<Broken> broken = broken_rows(formulate(question).rows, kg);
  EXPECT_THAT(ids_of(broken), testing::UnorderedElementsAre("forage/min", "oil/max"));
  for (const Broken& each : broken) {
    if (each.row.id != "forage/min") continue;
    EXPECT_NEAR(100.0 * each.value / 500.0, 1.3, 0.05);  // % of bodyweight
  }
}

// With the oil left to the rules the forage floor alone stands in the way: 7.5 kg
// of forage would need 2.5 kg of alfalfa, whose protein leaves too little grain.
TEST(WorkedRations, GeldingIsBlockedByTheForageFloor) {
  RationQuestion question = gelding();
  question.horse.wishes.pop_back();
  question.meals = 3;
  question.limits = limits_for(question.horse);
  const Formulation formulation = formulate(question);
  ASSERT_EQ(solve(formulation.program).status, Status::infeasible);
  const NoRation no_ration = explain_no_ration(question, formulation, {});
  EXPECT_TRUE(no_ration.conflict_is_minimal);
  EXPECT_GT(no_ration.proof_strength, certificate_tolerance);
  EXPECT_THAT(ids_of(no_ration.conflict), Contains("forage/min"));
  // Nothing else in the table is in the way.
  std::erase_if(question.limits, [](const Limit& limit) { return limit.id == "forage/min"; });
  EXPECT_EQ(solve(formulate(question).program).status, Status::optimal);
}

// --- Two feeds, two equations. ---
// https://slidetodoc.com/simultaneous-equations-diet-balancing-simultaneous-equations-used-to/
//   0.10 A + 0.35 B = 0.8 lb of protein,  0.80 A + 0.50 B = 4.0 lb of TDN.
// TDN stands in the place of energy.
TEST(WorkedRations, TwoFeedsByProteinAndTdn) {
  const auto feed = [](const std::string& name, double protein, double tdn) {
    return offer_of(feed_of(name, FeedGroup::compound, all_dry,
                            {{Nutrient::energy, tdn}, {Nutrient::crude_protein, protein}}),
                    1.0);
  };
  const std::vector<double> lb = amounts_for(
      question_of(500.0, {feed("A", 100.0, 0.80), feed("B", 350.0, 0.50)},
                  {exactly_of(Nutrient::energy, 4.0), exactly_of(Nutrient::crude_protein, 800.0)}));
  EXPECT_NEAR(lb[0], 4.36, 0.015);  // printed from a B already rounded to 1.04
  EXPECT_NEAR(lb[1], 1.04, 0.005);
  EXPECT_NEAR(lb[0], 1.0 / 0.23, 1e-7);
  EXPECT_NEAR(lb[1], 0.24 / 0.23, 1e-7);
}

// --- A yearling of 325 kg, 40 % timothy and 60 % grain. ---
// https://slideplayer.com./slide/10767959 : 2.80 Mcal/kg wanted, timothy has
// 2.06, so the grain must have 3.29 (exactly 3.2933); maize has 3.84, oats 3.20.
std::vector<double> grain_mix(double mcal_wanted) {
  const auto cereal = [](const std::string& name, double mcal) {
    return offer_of(feed_of(name, FeedGroup::cereal, all_dry, {{Nutrient::energy, mcal}}), 1.0);
  };
  RationQuestion question = question_of(325.0, {cereal("maize", 3.84), cereal("oats", 3.20)},
                                        {exactly_of(Nutrient::energy, mcal_wanted)});
  question.horse.wishes = {{WishKind::exactly, "cereal", KgAsFed{1.0}, {}}};
  return amounts_for(question);
}

TEST(WorkedRations, YearlingsGrainByTheSquare) {
  // Printed: 0.09 parts of maize and 0.55 of oats, of 0.64: 14.1 and 85.9 %.
  const std::vector<double> printed = grain_mix(3.29);
  EXPECT_NEAR(printed[0], 0.141, 0.0005);
  EXPECT_NEAR(printed[1], 0.859, 0.0005);
  EXPECT_NEAR(printed[0], 0.09 / 0.64, 1e-7);
}

// The same in one program, nothing rounded on the way: 14.6 % of the grain.
TEST(WorkedRations, YearlingsRationInOneProgram) {
  const auto feed = [](const std::string& name, FeedGroup group, double mcal) {
    return offer_of(feed_of(name, group, all_dry, {{Nutrient::energy, mcal}}), 1.0);
  };
  RationQuestion question =
      question_of(325.0,
                  {feed("timothy", FeedGroup::hay, 2.06), feed("maize", FeedGroup::cereal, 3.84),
                   feed("oats", FeedGroup::cereal, 3.20)},
                  {exactly_of(Nutrient::energy, 2.80)});
  question.horse.wishes = {{WishKind::exactly, "timothy", KgAsFed{0.4}, {}},
                           {WishKind::exactly, "cereal", KgAsFed{0.6}, {}}};
  const std::vector<double> kg = amounts_for(question);
  const double grain_mcal = (2.80 - 0.4 * 2.06) / 0.6;
  EXPECT_NEAR((3.84 * kg[1] + 3.20 * kg[2]) / 0.6, grain_mcal, 1e-7);
  EXPECT_NEAR(grain_mcal, 3.29, 0.005);
  EXPECT_NEAR(kg[1] / 0.6, (grain_mcal - 3.20) / 0.64, 1e-7);
  EXPECT_NEAR(kg[1] / 0.6, 0.146, 0.0005);
}

TEST(WorkedRations, YearlingsIntake) {
  // Printed: 1.8 to 2.7 % of 325 kg, 5.85 to 8.78 kg a day.
  const RationQuestion question =
      question_of(325.0, {offer_of(feed_of("hay", FeedGroup::hay, all_dry, {}), 1.0)}, {},
                  {limit_of("forage/min", 1.8), limit_of("intake/max", 2.7)});
  const Formulation formulation = formulate(question);
  EXPECT_NEAR(row_of(formulation.rows, "forage/min").bound, 5.85, 1e-9);
  EXPECT_NEAR(row_of(formulation.rows, "intake/max").bound, 8.78, 0.006);
}

// --- A mare's feed: 2,000 lb at 10 % protein from maize (9 %) and soya (45 %). ---
// http://slideplayer.com/slide/2349014/ has the setup; 1,944.4 and 55.6 lb by the
// square, 35 and 1 parts of 36. The weight stands in the place of energy, one a
// pound; soya is the dearer, so the least cost has just enough of it.
TEST(WorkedRations, MaresFeedAtLeastCost) {
  const auto feed = [](const std::string& name, FeedGroup group, double protein, double price) {
    return offer_of(
        feed_of(name, group, all_dry,
                {{Nutrient::energy, 1.0}, {Nutrient::crude_protein, protein * per_cent}}),
        price);
  };
  const std::vector<double> lb = amounts_for(question_of(
      500.0,
      {feed("maize", FeedGroup::cereal, 9.0, 0.2), feed("soya", FeedGroup::protein, 45.0, 0.5)},
      {exactly_of(Nutrient::energy, 2000.0), need_of(Nutrient::crude_protein, 200'000.0)}));
  EXPECT_NEAR(lb[0], 2000.0 * 35.0 / 36.0, 1e-5);
  EXPECT_NEAR(lb[1], 2000.0 / 36.0, 1e-5);
  EXPECT_NEAR(lb[0], 1944.4, 0.05);
  EXPECT_NEAR(lb[1], 55.6, 0.05);
}

// --- Squares from a page for cattle; the method is the same. ---
// https://animalrangeextension.montana.edu/beef/articles/pearson-sqaures.html
struct Square {
  const char* name;
  double low;     // % protein of the first feed
  double high;    // % protein of the second
  double wanted;  // % protein of the mix
  double total;   // lb of the mix
  double first;   // lb, as printed
  double second;
  double rounding;
};

class WorkedSquare : public testing::TestWithParam<Square> {};

TEST_P(WorkedSquare, ByTheProgram) {
  const Square& square = GetParam();
  const auto feed = [](const std::string& name, double protein) {
    return offer_of(
        feed_of(name, FeedGroup::compound, all_dry,
                {{Nutrient::energy, 1.0}, {Nutrient::crude_protein, protein * per_cent}}),
        1.0);
  };
  const std::vector<double> lb = amounts_for(
      question_of(500.0, {feed("first", square.low), feed("second", square.high)},
                  {exactly_of(Nutrient::energy, square.total),
                   exactly_of(Nutrient::crude_protein, square.wanted * per_cent * square.total)}));
  EXPECT_NEAR(lb[0], square.first, square.rounding);
  EXPECT_NEAR(lb[1], square.second, square.rounding);
  const double second = (square.wanted - square.low) / (square.high - square.low) * square.total;
  EXPECT_NEAR(lb[1], second, 1e-6);
  EXPECT_NEAR(lb[0], square.total - second, 1e-6);
}

INSTANTIATE_TEST_SUITE_P(
    Printed, WorkedSquare,
    testing::Values(
        // Hay and silage. The page has hay the richer: 13.8 % hay.
        Square{"SilageAndHay", 10.8, 12.25, 11.0, 100.0, 86.2, 13.8, 0.05},
        Square{"HayAndSupplement", 8.95, 40.0, 9.8, 100.0, 97.3, 2.7, 0.05},
        // 19.8 lb and 0.55 lb (exactly 0.558: cut off, not rounded).
        Square{"HayAndSupplementByWeight", 8.95, 40.0, 9.8, 20.4, 19.8, 0.55, 0.05},
        // Four feeds: each pair is mixed first, then the two mixes.
        Square{"GlutenFeedAndSoya", 24.0, 54.0, 39.0, 100.0, 50.0, 50.0, 1e-6},
        Square{"MaizeAndHulls", 10.0, 12.0, 10.8, 100.0, 60.0, 40.0, 1e-6},
        Square{"GrainAndSupplement", 10.8, 39.0, 15.0, 100.0, 85.1, 14.9, 0.05}),
    [](const auto& each) { return std::string(each.param.name); });

// --- Potassium for a horse with HYPP. ---
// 15 lb of hay at 1.0 % and 6 lb of grain at 0.8 %: printed 0.942 % (exactly
// 0.9429, cut off), below the 1.0 % allowed. Trade advice, source not named.
TEST(WorkedRations, PotassiumOfAHyppRation) {
  Horse horse;
  horse.bodyweight = Bodyweight{500.0};
  horse.health = {HealthState::hypp};
  RationQuestion question = question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, all_dry, {{Nutrient::potassium, 10.0}}), 1.0),
       offer_of(feed_of("grain", FeedGroup::cereal, all_dry, {{Nutrient::potassium, 8.0}}), 1.0)},
      {}, limits_for(horse));
  const Formulation formulation = formulate(question);
  const RowMeaning& potassium = row_of(formulation.rows, "potassium/max");
  const std::vector<double> kg{15.0 * kg_per_lb, 6.0 * kg_per_lb};
  const double percent = potassium.value(kg).value() / per_cent;
  EXPECT_NEAR(percent, 0.942, 0.001);
  EXPECT_NEAR(percent, 19.8 / 21.0, 1e-9);
  EXPECT_TRUE(potassium.kept(kg));
  EXPECT_NEAR(potassium.bound, 10.0, 1e-12);  // 1.0 %
}

// --- Calcium from 2 lb of oats (0.07 %) and 4 lb of a mix (0.70 %). ---
// http://www.learningabouthorses.com/savvy/1107_mixing_horse_feeds.html :
// 13.34 g against the 20 g of a 500 kg horse. The author leaves out the hay.
TEST(WorkedRations, CalciumOfOatsAndMix) {
  const RationQuestion question = question_of(
      500.0,
      {offer_of(feed_of("oats", FeedGroup::cereal, all_dry, {{Nutrient::calcium, 0.7}}), 1.0),
       offer_of(feed_of("mix", FeedGroup::compound, all_dry, {{Nutrient::calcium, 7.0}}), 1.0)},
      {need_of(Nutrient::calcium, 20.0)});
  const Formulation formulation = formulate(question);
  const std::vector<double> kg{2.0 * kg_per_lb, 4.0 * kg_per_lb};
  const Ration ration = ration_from(question, formulation, kg);
  EXPECT_NEAR(supply_in(ration, Nutrient::calcium).supplied, 13.34, 0.005);
  EXPECT_THAT(ids_of(broken_rows(formulation.rows, kg)), testing::ElementsAre("calcium/min"));
}

// --- Calcium to magnesium before and after a supplement. ---
// 15 lb of hay give 48 and 15 g, the supplement 7.5 and 0.7: printed 55.5, 15.7;
// the ratio goes from 3.2 to 3.53. A practitioner's page, source not named.
TEST(WorkedRations, CalciumAndMagnesiumWithASupplement) {
  const double hay_kg = 15.0 * kg_per_lb;
  const RationQuestion question = question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, all_dry,
                        {{Nutrient::calcium, 48.0 / hay_kg}, {Nutrient::magnesium, 15.0 / hay_kg}}),
                1.0),
       offer_of(feed_of("supplement", FeedGroup::supplement, all_dry,
                        {{Nutrient::calcium, 75.0}, {Nutrient::magnesium, 7.0}}),
                1.0)},
      {need_of(Nutrient::calcium, 20.0), need_of(Nutrient::magnesium, 7.5)});
  const Formulation formulation = formulate(question);
  const auto supplied = [&](Nutrient nutrient, double supplement_kg) {
    return supply_in(ration_from(question, formulation, {hay_kg, supplement_kg}), nutrient)
        .supplied;
  };
  EXPECT_NEAR(supplied(Nutrient::calcium, 0.0) / supplied(Nutrient::magnesium, 0.0), 3.2, 1e-9);
  EXPECT_NEAR(supplied(Nutrient::calcium, 0.1), 55.5, 1e-9);
  EXPECT_NEAR(supplied(Nutrient::magnesium, 0.1), 15.7, 1e-9);
  EXPECT_NEAR(supplied(Nutrient::calcium, 0.1) / supplied(Nutrient::magnesium, 0.1), 3.53, 0.006);
}

// --- Forage to concentrate by class of work. ---
// http://equestrianandhorse.com/care/nutrition/rules-of-feeding.html : 500 kg in
// medium work eat 2.5 %, 12.5 kg: 7.5 kg of forage, 5 kg of concentrate. The
// program finds it as the cheapest ration where hay is the dearer.
RationQuestion medium_work(double dry_matter_g) {
  Horse horse;
  horse.bodyweight = Bodyweight{500.0};
  horse.stage = Working{WorkLevel::moderate};
  const std::vector<Limit> limits = limits_for(horse);
  const auto feed = [&](const std::string& name, FeedGroup group, double price) {
    return offer_of(feed_of(name, group, dry_matter_g, {}), price);
  };
  RationQuestion question =
      question_of(500.0, {feed("hay", FeedGroup::hay, 2.0), feed("grain", FeedGroup::cereal, 1.0)},
                  {}, {*find_limit(limits, "forage_share/min"), *find_limit(limits, "intake/max")});
  question.horse.wishes = {{WishKind::at_least, "hay", KgAsFed{0.0}, {}}};
  return question;
}

TEST(WorkedRations, ForageAndConcentrateInMediumWork) {
  RationQuestion question = medium_work(all_dry);
  // All of the 12.5 kg: weight in the place of energy.
  for (Offer& offer : question.offers) {
    offer.feed.composition[Nutrient::energy] = Figure{1.0, FigureOrigin::printed, "test"};
  }
  question.needs.rows = {need_of(Nutrient::energy, 12.5)};
  const std::vector<double> kg = amounts_for(question);
  EXPECT_NEAR(kg[0], 7.5, 1e-7);
  EXPECT_NEAR(kg[1], 5.0, 1e-7);
}

TEST(WorkedRations, ForageInMediumWorkKeepsTheFloorOnlyAsDryMatter) {
  const auto keeps = [](double dry_matter_g) {
    RationQuestion question = medium_work(dry_matter_g);
    question.limits = {limit_of("forage/min", 1.5)};
    return row_of(formulate(question).rows, "forage/min").kept({7.5, 5.0});
  };
  EXPECT_TRUE(keeps(1000.0));
  EXPECT_FALSE(keeps(880.0));
}

// --- Hay and haylage by their dry matter, and cold. ---
// Horse & Hound column on feeding forage,
// https://www.horseandhound.co.uk/exclusive/feeding-forage-correctly-hh-vip-592963 :
// 7.5 kg of dry matter for 500 kg is 8.5 kg of hay (90 %; exactly 8.33) or 11 kg
// of haylage (70 %; exactly 10.71). The column rounds up to what can be weighed.
TEST(WorkedRations, ForageFloorInHayAndInHaylage) {
  const auto least = [](FeedGroup group, double dry_matter_g) {
    return amounts_for(question_of(500.0,
                                   {offer_of(feed_of("forage", group, dry_matter_g, {}), 1.0)}, {},
                                   {limit_of("forage/min", 1.5)}))[0];
  };
  EXPECT_NEAR(least(FeedGroup::hay, 900.0), 7.5 / 0.9, 1e-7);
  EXPECT_NEAR(least(FeedGroup::haylage, 700.0), 7.5 / 0.7, 1e-7);
  EXPECT_NEAR(least(FeedGroup::hay, 900.0), 8.5, 0.25);
  EXPECT_NEAR(least(FeedGroup::haylage, 700.0), 11.0, 0.5);
}

// 1,100 lb at 25 F, 20 F below 45 F: 20 % more energy at 1 % a degree Fahrenheit
// (1.8 % a degree Celsius). Mowrey 2013,
// http://articles.extension.org/pages/20225/cold-weather-feeding-practices-for-horses .
// The source starts from 19 lb; a fifth more of the same feed is 22.8 lb.
TEST(WorkedRations, ColdAsksForAFifthMore) {
  constexpr auto celsius = [](double fahrenheit) { return (fahrenheit - 32.0) / 1.8; };
  Horse horse;
  horse.bodyweight = Bodyweight{1100.0 * kg_per_lb};
  const double usual = nrc_2007(horse).find(Nutrient::energy)->floor.value();
  horse.cold = Cold{celsius(25.0), celsius(45.0), 1.8};
  const double cold = nrc_2007(horse).find(Nutrient::energy)->floor.value();
  // A feed of which 19 lb are just enough in mild weather.
  const Feed feed =
      feed_of("feed", FeedGroup::hay, all_dry, {{Nutrient::energy, usual / (19.0 * kg_per_lb)}});
  const auto lb = [&](double energy_mj) {
    return amounts_for(question_of(horse.bodyweight.in_kg(), {offer_of(feed, 1.0)},
                                   {need_of(Nutrient::energy, energy_mj)}))[0] /
           kg_per_lb;
  };
  EXPECT_NEAR(lb(usual), 19.0, 1e-6);
  EXPECT_NEAR(lb(cold), 22.8, 0.005);
}

}  // namespace
}  // namespace haymow::worked_rations_test
