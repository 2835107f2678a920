// Horses by the class names that the tables of printed and recomputed values use.
#pragma once

#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>

#include "model/requirements.h"

namespace haymow::printed {

/// A stage by name: maintenance_avg, pregnant_m7, growing_light ...
inline LifeStage stage_named(const std::string& name, double age_months) {
  if (name == "maintenance_min") return Idle{MaintenanceLevel::minimum};
  if (name == "maintenance_avg") return Idle{MaintenanceLevel::average};
  if (name == "maintenance_elevated") return Idle{MaintenanceLevel::elevated};
  if (name == "stallion_nonbreeding") return Stallion{false};
  if (name == "stallion_breeding") return Stallion{true};
  if (name == "work_light") return Working{WorkLevel::light};
  if (name == "work_moderate") return Working{WorkLevel::moderate};
  if (name == "work_heavy") return Working{WorkLevel::heavy};
  if (name == "work_very_heavy") return Working{WorkLevel::very_heavy};
  if (name == "pregnant_early") return Pregnant{1};
  if (name.rfind("pregnant_m", 0) == 0) return Pregnant{std::stoi(name.substr(10))};
  if (name.rfind("lactating_m", 0) == 0) return Lactating{std::stoi(name.substr(11))};
  if (name == "growing") return Growing{age_months, std::nullopt};
  if (name == "growing_light") return Growing{age_months, WorkLevel::light};
  if (name == "growing_moderate") return Growing{age_months, WorkLevel::moderate};
  if (name == "growing_heavy") return Growing{age_months, WorkLevel::heavy};
  if (name == "growing_very_heavy") return Growing{age_months, WorkLevel::very_heavy};
  throw std::runtime_error("no class named " + name);
}

/// The short names that tables of requirements use.
inline Nutrient nutrient_by_symbol(const std::string& symbol) {
  if (symbol == "DE") return Nutrient::energy;
  if (symbol == "CP") return Nutrient::crude_protein;
  if (symbol == "lysine") return Nutrient::lysine;
  if (symbol == "Ca") return Nutrient::calcium;
  if (symbol == "P") return Nutrient::phosphorus;
  if (symbol == "Mg") return Nutrient::magnesium;
  if (symbol == "K") return Nutrient::potassium;
  if (symbol == "Na") return Nutrient::sodium;
  if (symbol == "Cl") return Nutrient::chloride;
  if (symbol == "S") return Nutrient::sulphur;
  if (symbol == "Fe") return Nutrient::iron;
  if (symbol == "Mn") return Nutrient::manganese;
  if (symbol == "Cu") return Nutrient::copper;
  if (symbol == "Zn") return Nutrient::zinc;
  if (symbol == "I") return Nutrient::iodine;
  if (symbol == "Se") return Nutrient::selenium;
  if (symbol == "Co") return Nutrient::cobalt;
  if (symbol == "A") return Nutrient::vitamin_a;
  if (symbol == "D") return Nutrient::vitamin_d;
  if (symbol == "E") return Nutrient::vitamin_e;
  if (symbol == "B1") return Nutrient::thiamin;
  if (symbol == "B2") return Nutrient::riboflavin;
  throw std::runtime_error("no nutrient with the symbol " + symbol);
}

inline Horse horse_of(double kg, const LifeStage& stage) {
  Horse horse;
  horse.name = "Juniper";
  horse.bodyweight = Bodyweight{kg};
  horse.stage = stage;
  return horse;
}

inline double floor_of(const Horse& horse, Nutrient nutrient) {
  return nrc_2007(horse).find(nutrient)->floor.value();
}

/// Weight on the growth curve of NRC 2007, written out apart from the program.
inline double weight_on_curve(double mature_kg, double age_months) {
  return mature_kg * (9.7 + 90.3 * (1.0 - std::exp(-0.0772 * age_months))) / 100.0;
}

}  // namespace haymow::printed
