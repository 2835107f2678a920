#include "model/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace haymow {
namespace {

// Numbers that come from more than one page keep the stricter one; where pages
// disagree the other figure is in docs/reference/rules.md.
constexpr auto no_limit = std::nullopt;
constexpr std::string_view common = "common practice, no source";

constexpr std::array rule_rows{
    // --- how much ---
    Rule{"intake/max", Strength::law, 2.5, "% of bodyweight",
         "dry matter of all feeds is at most {} a day: more does not go in",
         "NRC 2007 voluntary intakes, by way of a published glossary; grading ours", 3.0, true},
    Rule{"ndf/max", Strength::guide, 13.0, "g per kg bodyweight",
         "neutral detergent fibre is at most {} a day: coarse feed fills the gut",
         "derived: grass hay eaten at 2.0 % of bodyweight (NRC 2007) x 650 g NDF per kg", no_limit,
         true},
    // --- forage ---
    Rule{"forage/min", Strength::law, 1.5, "% of bodyweight",
         "forage dry matter is at least {} a day",
         "Harris et al. 2017 (from memory); Horse & Hound column on feeding forage", 1.0, true},
    Rule{"forage_share/min", Strength::law, 50.0, "% of the dry matter", "forage is at least {}",
         "teaching tables of forage to concentrate; grading ours", 50.0, true},
    Rule{"long_forage/min", Strength::vet, 1.0, "% of bodyweight",
         "long forage, to be chewed, is at least {} of dry matter a day",
         "trade advice, source not named (2012)", 0.0, true},
    Rule{"long_forage/max", Strength::law, no_limit, "kg as fed",
         "no long forage: it cannot be chewed and may choke", common, 0.0, true},
    Rule{"straw_share/max", Strength::vet, 30.0, "% of the forage",
         "straw is at most {}, brought in slowly, for sound teeth",
         "Your Horse; vet CPD 2025; 50 % was safe in Jansson et al. 2021, Animals 11:2197", 50.0,
         true},
    Rule{"straw/max", Strength::vet, no_limit, "% of bodyweight",
         "straw is at most {} of dry matter a day",
         "textbook 2013 and Luthersson et al. 2009, as reported by a trade page", 0.75, true},
    Rule{"legume_share/max", Strength::vet, 50.0, "% of the forage",
         "alfalfa and other legumes are at most {}", "university finding quoted 2002", 100.0, true},
    Rule{"by_product_share/max", Strength::law, 50.0, "% of the forage",
         "by-product fibre (hulls, bran, beet pulp) is at most {}: it does not scratch the gut",
         "The Horse, feeding in a drought; grading ours", 50.0, true},
    Rule{"beet_share/max", Strength::guide, 25.0, "% of the dry matter", "beet pulp is at most {}",
         "eventing magazine 2013", no_limit, true},
    Rule{"grass/max", Strength::guide, 100.0, "g as fed per kg bodyweight",
         "grass eaten is at most {} a day (50 kg for 500 kg)", common, no_limit, true},
    Rule{"wet_forage/max", Strength::law, 0.0, "kg as fed",
         "wrapped forage under 35 % dry matter is not fed", "trade advice, source not named", 0.0,
         true},
    // --- starch, sugar, fat ---
    Rule{"starch_meal/max", Strength::vet, 1.0, "g per kg bodyweight and meal",
         "starch in one bucket meal is at most {}", "Luthersson et al. 2009", 2.0, true},
    Rule{"starch_day/max", Strength::vet, 2.0, "g per kg bodyweight",
         "starch in the buckets of a day is at most {}", "Luthersson et al. 2009", 2.0, true},
    Rule{"nsc_share/max", Strength::vet, no_limit, "% of the dry matter",
         "starch and sugar together are at most {}",
         "Frank 2009-10, by way of Mack et al. 2014, Veterinary Record 174:452", 12.0, true},
    Rule{"nsc_energy/max", Strength::vet, no_limit, "% of the energy",
         "starch and sugar from the buckets give at most {}",
         "review of chronic exertional myopathies (abstract)", 15.0, true},
    Rule{"fat_energy/min", Strength::guide, no_limit, "% of the energy", "fat gives at least {}",
         "Ribeiro et al. 2004", no_limit, false},
    Rule{"fat_share/max", Strength::law, 10.0, "% of the dry matter", "fat is at most {}",
         "teaching slides on balancing horse diets", 10.0, true},
    // --- the bucket ---
    Rule{"meal_size/max", Strength::law, 0.4, "% of bodyweight and meal",
         "dry feed in one bucket meal is at most {}", "trade advice, source not named", 0.5, true},
    Rule{"oil/max", Strength::law, 0.92, "g as fed per kg bodyweight",
         "oil is at most {} a day (1 ml per kg)", "trade advice, source not named", 0.92, true},
    Rule{"soaked/max", Strength::guide, 10.0, "g as fed per kg bodyweight",
         "soaked fibre feed is at most {} a day, weighed dry (1 kg for 100 kg of horse)", common,
         no_limit, true},
    Rule{"bran/max", Strength::guide, 1.0, "g as fed per kg bodyweight",
         "bran is at most {} a day (0.5 kg for 500 kg)", common, no_limit, true},
    Rule{"linseed/max", Strength::guide, 1.5, "g as fed per kg bodyweight",
         "linseed is at most {} a day", common, no_limit, true},
    Rule{"protein_feed/max", Strength::guide, 2.5, "g as fed per kg bodyweight",
         "protein feeds are at most {} a day: they top up, they are no fuel", common, no_limit,
         true},
    Rule{"salt_share/max", Strength::guide, 3.0, "% of the dry matter", "salt is at most {}",
         "NRC 2005, by way of dairy-cattle.extension.org", no_limit, true},
    Rule{"mineral/max", Strength::guide, 0.4, "g as fed per kg bodyweight",
         "minerals and salt are at most {} a day: no ration is padded with them", common, no_limit,
         true},
    Rule{"grain/max", Strength::vet, no_limit, "kg as fed",
         "no cereals and no mixes that contain them",
         "European consensus on equine metabolic syndrome 2019", 0.0, true},
    Rule{"sweet/max", Strength::vet, no_limit, "kg as fed",
         "no molasses, molassed feed, roots or fruit",
         "European consensus on equine metabolic syndrome 2019", 0.0, true},
    Rule{"legume/max", Strength::vet, no_limit, "kg as fed", "no alfalfa: it is rich in potassium",
         "trade advice, source not named", 0.0, true},
    Rule{"molassed/max", Strength::vet, no_limit, "kg as fed", "no molasses and no molassed feed",
         "trade advice, source not named", 0.0, true},
    Rule{"oil_vitamin_e/min", Strength::guide, 100.0, "IU per 100 ml of oil",
         "each 100 ml of oil asks for {} of vitamin E on top of the need",
         "two trade pages agree, sources not named", no_limit, true},
    // --- minerals against each other ---
    Rule{"ca_p/min", Strength::law, 1.1, "to 1", "calcium to phosphorus is at least {}",
         "published ranges from 1 to 2; never below 1", 1.0, true},
    Rule{"ca_p/max", Strength::vet, 6.0, "to 1", "calcium to phosphorus is at most {}",
         "trade advice, source not named; others print 5 or 8", 8.0, true},
    Rule{"zn_cu/min", Strength::guide, 3.0, "to 1", "zinc to copper is at least {}",
         "The Horse 168731", no_limit, false},
    Rule{"zn_cu/max", Strength::guide, 5.0, "to 1", "zinc to copper is at most {}",
         "The Horse 168731", no_limit, false},
    // --- tolerable concentrations in the total dry matter ---
    Rule{"calcium/max", Strength::law, 20.0, "g per kg dry matter", "calcium is at most {}",
         "two pages after NRC: 2 % with enough phosphorus", 20.0, true},
    Rule{"phosphorus/max", Strength::law, 10.0, "g per kg dry matter", "phosphorus is at most {}",
         "NRC 2005, from memory", 10.0, true},
    Rule{"magnesium/max", Strength::law, 8.0, "g per kg dry matter", "magnesium is at most {}",
         "NRC 2005, from memory", 8.0, true},
    Rule{"potassium/max", Strength::vet, no_limit, "g per kg dry matter", "potassium is at most {}",
         "trade advice on hyperkalaemic periodic paralysis, source not named", 11.0, true},
    Rule{"sulphur/max", Strength::guide, 5.0, "g per kg dry matter", "sulphur is at most {}",
         "NRC 2005, from memory", no_limit, false},
    Rule{"iron/max", Strength::guide, 500.0, "mg per kg dry matter",
         "iron is at most {}; much forage has more", "NRC 2007, by way of The Horse 19843",
         no_limit, false},
    Rule{"manganese/max", Strength::guide, 400.0, "mg per kg dry matter", "manganese is at most {}",
         "NRC 2005, from memory", no_limit, true},
    Rule{"copper/max", Strength::law, 250.0, "mg per kg dry matter", "copper is at most {}",
         "NRC 2005, from memory", 250.0, true},
    Rule{"zinc/max", Strength::law, 500.0, "mg per kg dry matter", "zinc is at most {}",
         "NRC 2007, by way of mysweetindulgence.com", 500.0, true},
    Rule{"iodine/max", Strength::law, 4.5, "mg per kg dry matter", "iodine is at most {}",
         "EU maximum, 4 mg per kg of complete feed at 88 % dry matter", 4.5, true},
    Rule{"selenium/max", Strength::law, 0.57, "mg per kg dry matter", "selenium is at most {}",
         "EU maximum, 0.5 mg per kg of complete feed at 88 % dry matter", 0.57, true},
    Rule{"cobalt/max", Strength::guide, 25.0, "mg per kg dry matter", "cobalt is at most {}",
         "NRC 2005, from memory", no_limit, true},
    Rule{"vitamin_a/max", Strength::law, 16000.0, "IU per kg dry matter",
         "vitamin A added to feeds is at most {}; carotene in forage does not count",
         "NRC, by way of equisearch.com", 16000.0, true},
    Rule{"vitamin_d/max", Strength::law, 2200.0, "IU per kg dry matter", "vitamin D is at most {}",
         "NRC 1987, from memory", 2200.0, true},
    Rule{"vitamin_e/max", Strength::guide, 1000.0, "IU per kg dry matter",
         "vitamin E is at most {}", "NRC 2007, from memory", no_limit, true},
};

// What a life stage changes. Not a class of the standard: several share a row.
enum class StageKind {
  light_work,
  moderate_work,
  heavy_work,
  very_heavy_work,
  late_pregnancy,  // months 9 to 11
  lactation,
  weanling,  // up to 12 months
  yearling,  // 12 to 24 months
};

struct StageChange {
  StageKind stage;
  std::string_view id;
  double number;
  std::string_view source;
};

constexpr std::array stage_changes{
    StageChange{StageKind::light_work, "forage_share/min", 70.0,
                "a published table of forage to concentrate by weight"},
    StageChange{StageKind::moderate_work, "forage_share/min", 60.0,
                "a published table of forage to concentrate by weight"},
    StageChange{StageKind::very_heavy_work, "forage/min", 1.25,
                "Horse & Hound column: 12.5 g of dry matter per kg in very hard work"},
    StageChange{StageKind::heavy_work, "straw_share/max", 15.0, "common practice, no source"},
    StageChange{StageKind::very_heavy_work, "straw_share/max", 0.0, "common practice, no source"},
    StageChange{StageKind::late_pregnancy, "straw_share/max", 0.0, "common practice, no source"},
    StageChange{StageKind::lactation, "straw_share/max", 0.0, "common practice, no source"},
    StageChange{StageKind::weanling, "straw_share/max", 0.0, "common practice, no source"},
    StageChange{StageKind::yearling, "straw_share/max", 15.0, "common practice, no source"},
    StageChange{StageKind::lactation, "intake/max", 3.0,
                "NRC 2007 voluntary intakes: in milk 2.8 %, growing up to 3 %; grading ours"},
    StageChange{StageKind::weanling, "intake/max", 3.0,
                "NRC 2007 voluntary intakes: in milk 2.8 %, growing up to 3 %; grading ours"},
    StageChange{StageKind::yearling, "intake/max", 3.0,
                "NRC 2007 voluntary intakes: in milk 2.8 %, growing up to 3 %; grading ours"},
    StageChange{StageKind::lactation, "ndf/max", 15.4,
                "derived: 2.8 % of bodyweight x 550 g NDF per kg, early cut hay"},
    StageChange{StageKind::weanling, "ndf/max", 13.8,
                "derived: 2.5 % of bodyweight x 550 g NDF per kg, early cut hay"},
    StageChange{StageKind::yearling, "ndf/max", 13.8,
                "derived: 2.5 % of bodyweight x 550 g NDF per kg, early cut hay"},
    StageChange{StageKind::late_pregnancy, "ca_p/min", 1.5,
                "published ranges for young horses and brood mares: 1.5 to 3"},
    StageChange{StageKind::lactation, "ca_p/min", 1.5,
                "published ranges for young horses and brood mares: 1.5 to 3"},
    StageChange{StageKind::weanling, "ca_p/min", 1.5,
                "published ranges for young horses and brood mares: 1.5 to 3"},
    StageChange{StageKind::yearling, "ca_p/min", 1.5,
                "published ranges for young horses and brood mares: 1.5 to 3"},
    StageChange{StageKind::late_pregnancy, "ca_p/max", 3.0,
                "published ranges for young horses and brood mares: 1.5 to 3"},
    StageChange{StageKind::lactation, "ca_p/max", 3.0,
                "published ranges for young horses and brood mares: 1.5 to 3"},
    StageChange{StageKind::weanling, "ca_p/max", 3.0,
                "published ranges for young horses and brood mares: 1.5 to 3"},
    StageChange{StageKind::yearling, "ca_p/max", 3.0,
                "published ranges for young horses and brood mares: 1.5 to 3"},
};

// What a health state changes. `lifts`: the rule is taken away.
struct HealthChange {
  HealthState state;
  std::string_view id;
  std::optional<double> number;
  std::string_view source;
};

constexpr std::array health_changes{
    HealthChange{HealthState::laminitis_prone, "nsc_share/max", 10.0,
                 "Frank 2009-10, by way of Mack et al. 2014: 10 % aimed at, 12 % the most"},
    HealthChange{HealthState::laminitis_prone, "starch_meal/max", 0.3,
                 "trade advice, source not named: 30 g per 100 kg"},
    HealthChange{HealthState::laminitis_prone, "grain/max", 0.0,
                 "European consensus on equine metabolic syndrome 2019"},
    HealthChange{HealthState::laminitis_prone, "sweet/max", 0.0,
                 "European consensus on equine metabolic syndrome 2019"},
    HealthChange{HealthState::gastric_ulcers, "straw/max", 0.25,
                 "Luthersson et al. 2009, by way of a trade page; textbook 2013"},
    HealthChange{HealthState::pssm, "nsc_energy/max", 10.0,
                 "review of chronic exertional myopathies: below 10-15 %"},
    HealthChange{HealthState::pssm, "starch_meal/max", 0.15,
                 "trade advice, source not named: 15 g per 100 kg"},
    HealthChange{HealthState::pssm, "fat_energy/min", 12.0, "Ribeiro et al. 2004"},
    HealthChange{HealthState::hypp, "potassium/max", 10.0,
                 "trade advice, source not named: total diet at most 1.0 % potassium"},
    HealthChange{HealthState::hypp, "legume/max", 0.0, "trade advice, source not named"},
    HealthChange{HealthState::hypp, "molassed/max", 0.0, "trade advice, source not named"},
    HealthChange{HealthState::underweight, "straw_share/max", 0.0,
                 "Your Horse: not for poor doers"},
    HealthChange{HealthState::cannot_chew, "straw_share/max", 0.0, "Your Horse: sound teeth only"},
    HealthChange{HealthState::cannot_chew, "long_forage/max", 0.0, common},
    HealthChange{HealthState::cannot_chew, "long_forage/min", std::nullopt,
                 "Your Horse, veteran horses: a replacer may be all of the forage"},
    HealthChange{HealthState::cannot_chew, "by_product_share/max", std::nullopt,
                 "Your Horse, veteran horses: a replacer may be all of the forage"},
    HealthChange{HealthState::cannot_chew, "soaked/max", std::nullopt,
                 "Your Horse, veteran horses: 1.5 to 2 % of bodyweight as replacer"},
    HealthChange{HealthState::cannot_chew, "beet_share/max", 40.0,
                 "consultant page: 30 to 40 % of the dry ration"},
};

bool is_ceiling(std::string_view id) { return id.ends_with("/max"); }

bool stricter(std::string_view id, double a, double b) { return is_ceiling(id) ? a < b : a > b; }

struct StageOf {
  std::optional<StageKind> operator()(const Idle&) const { return std::nullopt; }
  std::optional<StageKind> operator()(const Stallion&) const { return std::nullopt; }
  std::optional<StageKind> operator()(const Working& w) const {
    switch (w.level) {
      case WorkLevel::light:
        return StageKind::light_work;
      case WorkLevel::moderate:
        return StageKind::moderate_work;
      case WorkLevel::heavy:
        return StageKind::heavy_work;
      case WorkLevel::very_heavy:
        return StageKind::very_heavy_work;
    }
    return std::nullopt;
  }
  std::optional<StageKind> operator()(const Pregnant& p) const {
    if (p.month >= 9) return StageKind::late_pregnancy;
    return std::nullopt;
  }
  std::optional<StageKind> operator()(const Lactating&) const { return StageKind::lactation; }
  std::optional<StageKind> operator()(const Growing& g) const {
    return g.age_months < 12.0 ? StageKind::weanling : StageKind::yearling;
  }
};

std::string number_with_unit(double number, std::string_view unit) {
  return fmt::format("{:g} {}", number, unit);
}

// A rule on its way to becoming a limit.
struct Draft {
  std::optional<double> number;
  std::string source;
  std::string because;
};

}  // namespace

std::string_view name_of(Strength strength) {
  switch (strength) {
    case Strength::law:
      return "law";
    case Strength::vet:
      return "vet";
    case Strength::guide:
      return "guide";
  }
  return "";
}

std::span<const Rule> rule_table() { return rule_rows; }

const Rule* find_rule(std::string_view id) {
  const auto* it =
      std::find_if(rule_rows.begin(), rule_rows.end(), [&](const Rule& r) { return r.id == id; });
  return it == rule_rows.end() ? nullptr : it;
}

std::optional<std::string> objection_to(const Instruction& instruction, const Horse& horse) {
  const Rule* rule = find_rule(instruction.rule);
  if (rule == nullptr) return fmt::format("there is no rule `{}`", instruction.rule);
  if (instruction.by.empty()) return "an instruction says who gave it and when";
  if (!rule->absolute) return std::nullopt;
  // Ulcers: forage under 1.5 % of bodyweight is never safe (sources as for the state).
  const bool ulcers = horse.health.contains(HealthState::gastric_ulcers);
  const double absolute = (ulcers && rule->id == "forage/min") ? 1.5 : *rule->absolute;
  if (stricter(rule->id, absolute, instruction.number)) {
    return fmt::format("`{}` can be loosened to {} at most, whoever instructs it", rule->id,
                       number_with_unit(absolute, rule->unit));
  }
  return std::nullopt;
}

std::vector<Limit> limits_for(const Horse& horse) {
  const auto stage = std::visit(StageOf{}, horse.stage);
  std::vector<Limit> limits;
  limits.reserve(std::size(rule_rows));
  for (const Rule& rule : rule_rows) {
    Draft draft{rule.number, std::string(rule.source), ""};
    for (const StageChange& change : stage_changes) {
      if (stage == change.stage && change.id == rule.id) {
        draft = {change.number, std::string(change.source), describe(horse.stage)};
      }
    }
    bool lifted = false;
    for (const HealthChange& change : health_changes) {
      if (!horse.health.contains(change.state) || change.id != rule.id) continue;
      if (!change.number) {
        lifted = true;
      } else if (!draft.number || stricter(rule.id, *change.number, *draft.number) ||
                 change.state == HealthState::cannot_chew) {
        draft = {change.number, std::string(change.source), std::string(name_of(change.state))};
      }
    }
    for (const Instruction& instruction : horse.instructions) {
      if (instruction.rule != rule.id) continue;
      if (const auto objection = objection_to(instruction, horse)) {
        throw std::invalid_argument(*objection);
      }
      draft = {instruction.number, "instruction: " + instruction.by,
               "instructed by " + instruction.by};
      lifted = false;
    }
    if (lifted || !draft.number) continue;
    limits.push_back(
        {std::string(rule.id), rule.strength, *draft.number, std::string(rule.unit),
         fmt::format(fmt::runtime(rule.sentence), number_with_unit(*draft.number, rule.unit)),
         std::move(draft.source), std::move(draft.because), rule.forced});
  }
  return limits;
}

const Limit* find_limit(std::span<const Limit> limits, std::string_view id) {
  const auto it =
      std::find_if(limits.begin(), limits.end(), [&](const Limit& l) { return l.id == id; });
  return it == limits.end() ? nullptr : &*it;
}

std::vector<std::string> advice_for(const Horse& horse) {
  std::vector<std::string> advice;
  const auto has = [&](HealthState s) { return horse.health.contains(s); };
  if (has(HealthState::laminitis_prone)) {
    advice.emplace_back("no grazing while laminitis is active; have the hay tested for sugar");
    if (horse.grazing) {
      advice.emplace_back(
          "grass is the usual cause of laminitis, and its sugar changes with hour, weather and "
          "frost: graze only as the vet agrees, and never on frosted or stressed grass");
    }
    advice.emplace_back(
        "soaking hay lowers its sugar by an amount nobody can predict: "
        "no cut is reckoned with here");
  }
  if (has(HealthState::gastric_ulcers)) {
    advice.emplace_back(
        "forage in four to six lots or always before the horse: never more than "
        "6 hours without");
    advice.emplace_back("some alfalfa before work buffers the stomach for 4 to 5 hours");
  }
  if (has(HealthState::pssm))
    advice.emplace_back("daily turnout and daily work matter as much as feed");
  if (has(HealthState::hypp))
    advice.emplace_back("small meals often; salt, never potassium electrolytes");
  if (has(HealthState::ppid)) {
    advice.emplace_back(
        "if insulin is abnormal, add `laminitis-prone` to the health list: "
        "the sugar limits then apply");
  }
  if (has(HealthState::overweight)) {
    advice.emplace_back(
        "aim to lose 0.5 to 1 % of bodyweight a week; measure girth, as condition "
        "score lags");
  }
  if (has(HealthState::underweight)) advice.emplace_back("have teeth and droppings checked first");
  if (has(HealthState::cannot_chew)) {
    advice.emplace_back(
        "soak cubes and pellets to a mash; at least four meals, the first early and "
        "the last late");
  }
  if (has(HealthState::airway)) {
    advice.emplace_back("wet or steam the hay, or feed haylage; keep bedding free of dust");
  }
  return advice;
}

}  // namespace haymow
