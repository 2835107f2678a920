#include <array>
#include <string>
#include <utility>

#include "feeds/declared_composition.h"
#include "feeds/declared_energy.h"

namespace haymow {
namespace {

constexpr std::array<std::pair<std::string_view, Nutrient>, 46> other_words{{
    {"digestible energy", Nutrient::energy},
    {"DE", Nutrient::energy},
    {"protein", Nutrient::crude_protein},
    {"CP", Nutrient::crude_protein},
    {"crude oils", Nutrient::crude_fat},
    {"crude oil", Nutrient::crude_fat},
    {"crude oils and fats", Nutrient::crude_fat},
    {"oil", Nutrient::crude_fat},
    {"fat", Nutrient::crude_fat},
    {"fibre", Nutrient::crude_fibre},
    {"crude fiber", Nutrient::crude_fibre},
    {"crude fibres", Nutrient::crude_fibre},
    {"fiber", Nutrient::crude_fibre},
    {"aNDF", Nutrient::ndf},
    {"aNDFom", Nutrient::ndf},
    {"WSC", Nutrient::sugar},
    {"water soluble carbohydrate", Nutrient::sugar},
    {"water soluble carbohydrates", Nutrient::sugar},
    {"water-soluble carbohydrates", Nutrient::sugar},
    {"sugars", Nutrient::sugar},
    {"total sugars", Nutrient::sugar},
    {"crude ash", Nutrient::ash},
    {"Ca", Nutrient::calcium},
    {"P", Nutrient::phosphorus},
    {"Mg", Nutrient::magnesium},
    {"K", Nutrient::potassium},
    {"Na", Nutrient::sodium},
    {"Cl", Nutrient::chloride},
    {"S", Nutrient::sulphur},
    {"sulfur", Nutrient::sulphur},
    {"Fe", Nutrient::iron},
    {"Mn", Nutrient::manganese},
    {"Cu", Nutrient::copper},
    {"Zn", Nutrient::zinc},
    {"I", Nutrient::iodine},
    {"Se", Nutrient::selenium},
    {"Co", Nutrient::cobalt},
    {"vitamin D3", Nutrient::vitamin_d},
    {"thiamine", Nutrient::thiamin},
    {"vitamin B1", Nutrient::thiamin},
    {"vitamin B2", Nutrient::riboflavin},
    {"total lysine", Nutrient::lysine},
    {"chlorine", Nutrient::chloride},
    {"total starch", Nutrient::starch},
    {"fructans", Nutrient::fructan},
    {"fats", Nutrient::crude_fat},
}};

std::vector<CompositionWord> all_words() {
  std::vector<CompositionWord> words{
      {"dry matter", {}}, {"moisture", {}}, {"ESC", {}}, {"NSC", {}}};
  for (const Nutrient n : all_nutrients()) {
    std::string key(traits_of(n).key);
    for (char& c : key) {
      if (c == '_') c = ' ';
    }
    words.push_back({key, n});
    // Letter case apart, most names are their key with blanks.
    if (key.size() != traits_of(n).name.size()) {
      words.push_back({std::string(traits_of(n).name), n});
    }
    for (const auto& [word, nutrient] : other_words) {
      if (nutrient == n) words.push_back({std::string(word), n});
    }
  }
  for (const EnergyWord& energy : energy_words()) {
    words.push_back({std::string(energy.word), Nutrient::energy});
  }
  return words;
}

}  // namespace

const std::vector<CompositionWord>& composition_words() {
  static const std::vector<CompositionWord> words = all_words();
  return words;
}

}  // namespace haymow
