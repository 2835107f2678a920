#include "model/nrc_2007_table.h"

#include <array>
#include <stdexcept>
#include <string>

namespace haymow::nrc {
namespace {

// National Research Council (2007) Nutrient Requirements of Horses, 6th revised
// edition, tables 16-1 to 16-8. All from memory; the mark of each line says what
// bears it out. `printed`: a page quoting the standard prints this coefficient or
// a result of it (tests/model/requirement_checks.csv names the pages).

using enum Group;
using enum Nutrient;
constexpr auto printed = Confidence::printed;
constexpr auto memory = Confidence::memory;
constexpr auto back_fitted = Confidence::back_fitted;
constexpr auto low = Confidence::low;

constexpr std::array all_lines{
    // Crude protein, g. Work, growth and pregnancy add terms of their own.
    Line{crude_protein, maintenance_minimum, maintenance_minimum, printed, {.per_kg = 1.08}},
    Line{crude_protein, maintenance_average, maintenance_average, printed, {.per_kg = 1.26}},
    Line{crude_protein, maintenance_elevated, maintenance_elevated, printed, {.per_kg = 1.44}},
    Line{crude_protein, stallion_resting, stallion_breeding, memory, {.per_kg = 1.44}},
    Line{crude_protein, work_light, work_light, printed, {.per_kg = 1.26}},
    Line{crude_protein, work_moderate, work_very_heavy, memory, {.per_kg = 1.26}},
    Line{crude_protein, pregnant_1_4, pregnant_1_4, memory, {.per_kg = 1.26}},
    Line{crude_protein, pregnant_5_6, pregnant_9_11, printed, {.per_kg = 1.26}},
    Line{crude_protein,
         lactating_1_3,
         lactating_4_6,
         printed,
         {.per_kg = 1.44, .per_kg_milk = 50.0}},
    // The efficiency of growth in months 7 to 11 is less sure than in the months
    // which the standard's tables list (4, 6, 12, 18 and 24).
    Line{crude_protein, growing, growing_very_heavy, memory, {.per_kg = 1.44}, 6},
    Line{crude_protein, growing, growing_very_heavy, low, {.per_kg = 1.44}, 11},
    Line{crude_protein, growing, growing_very_heavy, memory, {.per_kg = 1.44}},

    // Lysine, g, of a mare in milk; every other class takes a share of
    // protein. 0.06192 is 4.3 % of 1.44 g protein.
    Line{lysine, lactating_1_3, lactating_4_6, printed, {.per_kg = 0.06192, .per_kg_milk = 3.3}},

    // Calcium, g.
    Line{calcium, maintenance_minimum, stallion_resting, printed, {.per_kg = 0.04}},
    Line{calcium, stallion_breeding, work_light, printed, {.per_kg = 0.06}},
    Line{calcium, work_moderate, work_moderate, memory, {.per_kg = 0.07}},
    Line{calcium, work_heavy, work_very_heavy, printed, {.per_kg = 0.08}},
    Line{calcium, pregnant_1_4, pregnant_1_4, printed, {.per_kg = 0.04}},
    Line{calcium, pregnant_5_6, pregnant_5_6, memory, {.per_kg = 0.04}},
    Line{calcium, pregnant_7_8, pregnant_7_8, printed, {.per_kg = 0.056}},
    Line{calcium, pregnant_9_11, pregnant_9_11, printed, {.per_kg = 0.072}},
    Line{calcium,
         lactating_1_3,
         lactating_1_3,
         back_fitted,
         {.per_kg = 0.04, .per_kg_milk = 1.2, .milk_absorbed = 0.5}},
    Line{calcium,
         lactating_4_6,
         lactating_4_6,
         back_fitted,
         {.per_kg = 0.04, .per_kg_milk = 0.8, .milk_absorbed = 0.5}},
    Line{calcium, growing, growing_very_heavy, back_fitted, {.per_kg = 0.072, .per_kg_gain = 32.0}},

    // Phosphorus, g.
    Line{phosphorus, maintenance_minimum, stallion_resting, printed, {.per_kg = 0.028}},
    Line{phosphorus, stallion_breeding, work_light, printed, {.per_kg = 0.036}},
    Line{phosphorus, work_moderate, work_moderate, memory, {.per_kg = 0.042}},
    Line{phosphorus, work_heavy, work_very_heavy, printed, {.per_kg = 0.058}},
    Line{phosphorus, pregnant_1_4, pregnant_1_4, printed, {.per_kg = 0.028}},
    Line{phosphorus, pregnant_5_6, pregnant_5_6, memory, {.per_kg = 0.028}},
    Line{phosphorus, pregnant_7_8, pregnant_7_8, printed, {.per_kg = 0.04}},
    Line{phosphorus, pregnant_9_11, pregnant_9_11, printed, {.per_kg = 0.0525}},
    Line{phosphorus,
         lactating_1_3,
         lactating_1_3,
         printed,
         {.per_kg = 0.01, .per_kg_milk = 0.75, .bodyweight_absorbed = 0.45, .milk_absorbed = 0.45}},
    Line{phosphorus,
         lactating_4_6,
         lactating_4_6,
         back_fitted,
         {.per_kg = 0.01, .per_kg_milk = 0.5, .bodyweight_absorbed = 0.45, .milk_absorbed = 0.45}},
    Line{phosphorus,
         growing,
         growing_very_heavy,
         back_fitted,
         {.per_kg = 0.04, .per_kg_gain = 17.8}},

    // Magnesium, g.
    Line{magnesium, maintenance_minimum, stallion_resting, memory, {.per_kg = 0.015}},
    Line{magnesium, stallion_breeding, work_light, printed, {.per_kg = 0.019}},
    Line{magnesium, work_moderate, work_moderate, printed, {.per_kg = 0.023}},
    Line{magnesium, work_heavy, work_very_heavy, printed, {.per_kg = 0.030}},
    Line{magnesium, pregnant_1_4, pregnant_1_4, memory, {.per_kg = 0.015}},
    Line{magnesium, pregnant_5_6, pregnant_7_8, low, {.per_kg = 0.0152}},
    Line{magnesium, pregnant_9_11, pregnant_9_11, low, {.per_kg = 0.0153}},
    Line{magnesium,
         lactating_1_3,
         lactating_1_3,
         memory,
         {.per_kg = 0.015, .per_kg_milk = 0.09, .milk_absorbed = 0.4}},
    Line{magnesium,
         lactating_4_6,
         lactating_4_6,
         low,
         {.per_kg = 0.015, .per_kg_milk = 0.045, .milk_absorbed = 0.4}},
    Line{magnesium, growing, growing, back_fitted, {.per_kg = 0.015, .per_kg_gain = 1.25}},
    Line{magnesium, growing_light, growing_very_heavy, low, {.per_kg = 0.030}},

    // Potassium, g.
    Line{potassium, maintenance_minimum, stallion_resting, printed, {.per_kg = 0.05}},
    Line{potassium, stallion_breeding, work_light, printed, {.per_kg = 0.05, .per_kg_sweat = 2.8}},
    Line{potassium, work_moderate, work_heavy, memory, {.per_kg = 0.05, .per_kg_sweat = 2.8}},
    Line{potassium,
         work_very_heavy,
         work_very_heavy,
         printed,
         {.per_kg = 0.05, .per_kg_sweat = 2.8}},
    Line{potassium, pregnant_1_4, pregnant_1_4, printed, {.per_kg = 0.05}},
    Line{potassium, pregnant_5_6, pregnant_7_8, memory, {.per_kg = 0.05}},
    Line{potassium, pregnant_9_11, pregnant_9_11, memory, {.per_kg = 0.0517}},
    Line{potassium,
         lactating_1_3,
         lactating_1_3,
         memory,
         {.per_kg = 0.05, .per_kg_milk = 0.7, .milk_absorbed = 0.5}},
    Line{potassium,
         lactating_4_6,
         lactating_4_6,
         low,
         {.per_kg = 0.05, .per_kg_milk = 0.4, .milk_absorbed = 0.5}},
    Line{potassium, growing, growing, memory, {.per_kg = 0.05, .per_kg_gain = 3.0}},
    Line{potassium,
         growing_light,
         growing_very_heavy,
         low,
         {.per_kg = 0.05, .per_kg_sweat = 2.8, .per_kg_gain = 3.0}},

    // Sodium, g.
    Line{sodium, maintenance_minimum, stallion_resting, printed, {.per_kg = 0.02}},
    Line{sodium, stallion_breeding, work_light, printed, {.per_kg = 0.02, .per_kg_sweat = 3.1}},
    Line{sodium, work_moderate, work_heavy, memory, {.per_kg = 0.02, .per_kg_sweat = 3.1}},
    Line{sodium, work_very_heavy, work_very_heavy, printed, {.per_kg = 0.02, .per_kg_sweat = 3.1}},
    Line{sodium, pregnant_1_4, pregnant_1_4, printed, {.per_kg = 0.02}},
    Line{sodium, pregnant_5_6, pregnant_7_8, memory, {.per_kg = 0.02}},
    Line{sodium, pregnant_9_11, pregnant_9_11, memory, {.per_kg = 0.022}},
    Line{sodium, lactating_1_3, lactating_1_3, memory, {.per_kg = 0.02, .per_kg_milk = 0.17}},
    Line{sodium, lactating_4_6, lactating_4_6, low, {.per_kg = 0.02, .per_kg_milk = 0.14}},
    Line{sodium, growing, growing, memory, {.per_kg = 0.02, .per_kg_gain = 1.0}},
    Line{sodium,
         growing_light,
         growing_very_heavy,
         low,
         {.per_kg = 0.02, .per_kg_sweat = 3.1, .per_kg_gain = 1.0}},

    // Chloride, g.
    Line{chloride, maintenance_minimum, stallion_resting, printed, {.per_kg = 0.08}},
    Line{chloride, stallion_breeding, work_light, printed, {.per_kg = 0.08, .per_kg_sweat = 5.3}},
    Line{chloride, work_moderate, work_heavy, memory, {.per_kg = 0.08, .per_kg_sweat = 5.3}},
    Line{
        chloride, work_very_heavy, work_very_heavy, printed, {.per_kg = 0.08, .per_kg_sweat = 5.3}},
    Line{chloride, pregnant_1_4, pregnant_1_4, printed, {.per_kg = 0.08}},
    Line{chloride, pregnant_5_6, pregnant_7_8, memory, {.per_kg = 0.08}},
    Line{chloride, pregnant_9_11, pregnant_9_11, memory, {.per_kg = 0.082}},
    Line{chloride, lactating_1_3, lactating_4_6, memory, {.per_kg = 0.091}},
    Line{chloride, growing, growing, memory, {.per_kg = 0.093}, 6},
    Line{chloride, growing, growing, memory, {.per_kg = 0.085}, 11},
    Line{chloride, growing, growing, memory, {.per_kg = 0.0825}},
    Line{chloride,
         growing_light,
         growing_very_heavy,
         low,
         {.per_kg = 0.093, .per_kg_sweat = 5.3},
         6},
    Line{chloride,
         growing_light,
         growing_very_heavy,
         low,
         {.per_kg = 0.085, .per_kg_sweat = 5.3},
         11},
    Line{chloride, growing_light, growing_very_heavy, low, {.per_kg = 0.0825, .per_kg_sweat = 5.3}},

    // Sulphur, g: 0.15 % of dry matter.
    Line{sulphur, maintenance_minimum, growing_very_heavy, printed, {.per_kg_intake = 1.5}},

    // Trace minerals, mg.
    Line{iron, maintenance_minimum, pregnant_1_4, printed, {.per_kg_intake = 40.0}},
    Line{iron, pregnant_5_6, growing_very_heavy, printed, {.per_kg_intake = 50.0}},
    Line{manganese, maintenance_minimum, pregnant_1_4, printed, {.per_kg_intake = 40.0}},
    Line{manganese, pregnant_5_6, growing_very_heavy, memory, {.per_kg_intake = 40.0}},
    Line{zinc, maintenance_minimum, pregnant_1_4, printed, {.per_kg_intake = 40.0}},
    Line{zinc, pregnant_5_6, growing_very_heavy, memory, {.per_kg_intake = 40.0}},
    Line{copper, maintenance_minimum, pregnant_1_4, printed, {.per_kg_intake = 10.0}},
    Line{copper, pregnant_5_6, pregnant_7_8, printed, {.per_kg = 0.20}},
    Line{copper, pregnant_9_11, lactating_4_6, printed, {.per_kg = 0.25}},
    Line{copper, growing, growing_very_heavy, memory, {.per_kg = 0.25}},
    Line{iodine, maintenance_minimum, pregnant_1_4, printed, {.per_kg_intake = 0.35}},
    Line{iodine, pregnant_5_6, pregnant_9_11, memory, {.per_kg_intake = 0.40}},
    Line{iodine, lactating_1_3, growing_very_heavy, memory, {.per_kg_intake = 0.35}},
    Line{selenium, maintenance_minimum, pregnant_1_4, printed, {.per_kg_intake = 0.10}},
    Line{selenium, pregnant_5_6, growing_very_heavy, memory, {.per_kg_intake = 0.10}},
    Line{cobalt, maintenance_minimum, pregnant_1_4, printed, {.per_kg_intake = 0.05}},
    Line{cobalt, pregnant_5_6, growing_very_heavy, memory, {.per_kg_intake = 0.05}},

    // Vitamin A, IU, as total activity.
    Line{vitamin_a, maintenance_minimum, maintenance_elevated, printed, {.per_kg = 30.0}},
    Line{vitamin_a, stallion_resting, stallion_resting, memory, {.per_kg = 30.0}},
    Line{vitamin_a, stallion_breeding, stallion_breeding, memory, {.per_kg = 45.0}},
    Line{vitamin_a, work_light, work_very_heavy, printed, {.per_kg = 45.0}},
    Line{vitamin_a, pregnant_1_4, lactating_4_6, printed, {.per_kg = 60.0}},
    Line{vitamin_a, growing, growing_very_heavy, printed, {.per_kg = 45.0}},

    // Vitamin D, IU.
    Line{vitamin_d, maintenance_minimum, lactating_4_6, memory, {.per_kg = 6.6}},
    Line{vitamin_d, growing, growing_very_heavy, memory, {.per_kg = 22.2}, 6},
    Line{vitamin_d, growing, growing_very_heavy, memory, {.per_kg = 17.4}, 12},
    Line{vitamin_d, growing, growing_very_heavy, memory, {.per_kg = 15.9}, 18},
    Line{vitamin_d, growing, growing_very_heavy, memory, {.per_kg = 13.7}},

    // Vitamin E, IU.
    Line{vitamin_e, maintenance_minimum, stallion_resting, memory, {.per_kg = 1.0}},
    Line{vitamin_e, stallion_breeding, work_light, memory, {.per_kg = 1.6}},
    Line{vitamin_e, work_moderate, work_moderate, memory, {.per_kg = 1.8}},
    Line{vitamin_e, work_heavy, work_very_heavy, memory, {.per_kg = 2.0}},
    Line{vitamin_e, pregnant_1_4, pregnant_9_11, memory, {.per_kg = 1.6}},
    Line{vitamin_e, lactating_1_3, growing_very_heavy, memory, {.per_kg = 2.0}},

    // Thiamin, mg.
    Line{thiamin, maintenance_minimum, work_light, memory, {.per_kg = 0.06}},
    Line{thiamin, work_moderate, work_moderate, memory, {.per_kg = 0.113}},
    Line{thiamin, work_heavy, work_very_heavy, memory, {.per_kg = 0.125}},
    Line{thiamin, pregnant_1_4, pregnant_9_11, memory, {.per_kg = 0.06}},
    Line{thiamin, lactating_1_3, growing_very_heavy, memory, {.per_kg = 0.075}},

    // Riboflavin, mg.
    Line{riboflavin, maintenance_minimum, work_light, memory, {.per_kg = 0.04}},
    Line{riboflavin, work_moderate, work_moderate, memory, {.per_kg = 0.045}},
    Line{riboflavin, work_heavy, work_very_heavy, memory, {.per_kg = 0.05}},
    Line{riboflavin, pregnant_1_4, pregnant_9_11, memory, {.per_kg = 0.04}},
    Line{riboflavin, lactating_1_3, growing_very_heavy, memory, {.per_kg = 0.05}},
};

constexpr std::array energy_lines{
    EnergyLine{maintenance_minimum, maintenance_minimum, printed, 0.0303, 1.0},
    EnergyLine{maintenance_average, maintenance_average, printed, 0.0333, 1.0},
    EnergyLine{maintenance_elevated, maintenance_elevated, printed, 0.0363, 1.0},
    EnergyLine{stallion_resting, stallion_resting, memory, 0.0363, 1.0},
    EnergyLine{stallion_breeding, stallion_breeding, memory, 0.0363, 1.2},
    EnergyLine{work_light, work_light, memory, 0.0333, 1.2},
    EnergyLine{work_moderate, work_moderate, memory, 0.0333, 1.4},
    EnergyLine{work_heavy, work_heavy, memory, 0.0333, 1.6},
    EnergyLine{work_very_heavy, work_very_heavy, printed, 0.0363, 1.9},
    EnergyLine{pregnant_1_4, pregnant_1_4, memory, 0.0333, 1.0},
    EnergyLine{pregnant_5_6, pregnant_9_11, back_fitted, 0.0333, 1.0},
    EnergyLine{lactating_1_3, lactating_4_6, back_fitted, 0.0363, 1.0},
    EnergyLine{growing, growing, memory, 0.0565, 1.0},
    EnergyLine{growing_light, growing_light, memory, 0.0565, 1.2},
    EnergyLine{growing_moderate, growing_moderate, memory, 0.0565, 1.4},
    EnergyLine{growing_heavy, growing_heavy, memory, 0.0565, 1.6},
    EnergyLine{growing_very_heavy, growing_very_heavy, memory, 0.0565, 1.9},
};

// Printed for maintenance (10 kg at 500 kg), from memory for the rest.
constexpr std::array intake_lines{
    IntakeLine{maintenance_minimum, work_light, 0.02},
    IntakeLine{work_moderate, work_moderate, 0.0225},
    IntakeLine{work_heavy, work_very_heavy, 0.025},
    IntakeLine{pregnant_1_4, pregnant_9_11, 0.02},
    IntakeLine{lactating_1_3, growing_very_heavy, 0.025},
};

// Sweat is printed for very heavy work, and for light work to whole grams of
// salt; moderate and heavy are from memory, as is the muscle term but for light.
constexpr Exertion light_exertion{0.0025, 0.089};
constexpr Exertion moderate_exertion{0.005, 0.177};
constexpr Exertion heavy_exertion{0.01, 0.266};
constexpr Exertion very_heavy_exertion{0.02, 0.354};

template <class Table>
const auto& line_of(const Table& table, Group group) {
  for (const auto& line : table) {
    if (line.first <= group && group <= line.last) return line;
  }
  throw std::logic_error("the table of NRC 2007 has no line for this class");
}

}  // namespace

const Line& line_for(Nutrient nutrient, Group group, int completed_months) {
  for (const Line& line : all_lines) {
    if (line.nutrient == nutrient && line.first <= group && group <= line.last &&
        completed_months <= line.until_month) {
      return line;
    }
  }
  throw std::logic_error("the table of NRC 2007 has no line for " +
                         std::string(traits_of(nutrient).name));
}

const EnergyLine& energy_line_for(Group group) { return line_of(energy_lines, group); }

double standard_intake_share(Group group) {
  return line_of(intake_lines, group).share_of_bodyweight;
}

std::optional<Exertion> exertion_of(Group group) {
  switch (group) {
    case stallion_breeding:  // the standard gives him the sweat of light work
    case work_light:
    case growing_light:
      return light_exertion;
    case work_moderate:
    case growing_moderate:
      return moderate_exertion;
    case work_heavy:
    case growing_heavy:
      return heavy_exertion;
    case work_very_heavy:
    case growing_very_heavy:
      return very_heavy_exertion;
    default:
      return std::nullopt;
  }
}

double growth_efficiency(int completed_months) {
  // From memory; the step at month 12 is in the standard, not a mistake here.
  if (completed_months <= 6) return 0.50;
  if (completed_months <= 8) return 0.45;
  if (completed_months <= 10) return 0.40;
  if (completed_months <= 11) return 0.35;
  return 0.30;
}

double milk_per_kg(int month) {
  // Month 1 is borne out by printed protein, phosphorus and lysine; the rest is
  // back-fitted to remembered table values.
  constexpr std::array by_month{0.0326, 0.0324, 0.0299, 0.0271, 0.0244, 0.0218};
  return by_month.at(static_cast<std::size_t>(month - 1));
}

}  // namespace haymow::nrc
