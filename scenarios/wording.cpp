#include "scenarios/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <utility>

namespace haymow {
namespace {

// Short names of the rules, for the start of a sentence.
constexpr std::array<std::pair<std::string_view, std::string_view>, 36> rule_subjects{{
    {"intake/max", "appetite"},
    {"ndf/max", "coarse fibre"},
    {"forage/min", "forage"},
    {"forage_share/min", "the share of forage"},
    {"long_forage/min", "long forage"},
    {"long_forage/max", "long forage"},
    {"straw_share/max", "straw"},
    {"straw/max", "straw"},
    {"legume_share/max", "alfalfa"},
    {"beet_share/max", "beet pulp"},
    {"by_product_share/max", "by-product fibre"},
    {"grass/max", "grass"},
    {"wet_forage/max", "wet wrapped forage"},
    {"starch_meal/max", "starch in a meal"},
    {"starch_day/max", "starch in a day"},
    {"nsc_share/max", "sugar and starch"},
    {"nsc_energy/max", "energy from sugar and starch"},
    {"fat_energy/min", "energy from fat"},
    {"fat_share/max", "fat"},
    {"meal_size/max", "the size of a meal"},
    {"oil/max", "oil"},
    {"soaked/max", "soaked feed"},
    {"bran/max", "bran"},
    {"linseed/max", "linseed"},
    {"mineral/max", "minerals"},
    {"protein_feed/max", "protein feed"},
    {"salt_share/max", "salt"},
    {"grain/max", "cereals"},
    {"sweet/max", "sweet feeds"},
    {"legume/max", "alfalfa"},
    {"molassed/max", "molassed feed"},
    {"oil_vitamin_e/min", "vitamin E for oil"},
    {"ca_p/min", "calcium to phosphorus"},
    {"ca_p/max", "calcium to phosphorus"},
    {"zn_cu/min", "zinc to copper"},
    {"zn_cu/max", "zinc to copper"},
}};

// One step of a limit that a person can picture: about a hundredth to a tenth
// of it, a power of ten.
double step_of(double bound) {
  if (bound == 0.0) return 1.0;
  return std::pow(10.0, std::floor(std::log10(std::abs(bound)))) / 10.0;
}

// The feed's name in "maker/NAME/max" and "stock/NAME/max".
std::string feed_in(const std::string& row_id) {
  const auto first = row_id.find('/') + 1;
  return row_id.substr(first, row_id.rfind('/') - first);
}

std::string_view least_or_most(Side side) { return side == Side::lower ? "at least" : "at most"; }

}  // namespace

std::string rounded(double value) {
  if (std::abs(value) < 5e-10) value = 0.0;  // rounding noise, and no "-0.00"
  const double size = std::abs(value);
  if (size >= 1000.0) return fmt::format("{:.0f}", value);
  if (size >= 100.0) return fmt::format("{:.0f}", value);
  if (size >= 10.0) return fmt::format("{:.1f}", value);
  if (size >= 0.1 || size == 0.0) return fmt::format("{:.2f}", value);
  return fmt::format("{:.2g}", value);
}

std::string capitalised(std::string text) {
  if (!text.empty()) {
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  }
  return text;
}

std::string Wording::mass(double kg) const {
  if (units_ == Units::us) {
    const double lb = kg / kg_per_lb;
    if (lb >= 0.995) return fmt::format("{:.1f} lb", lb);
    return fmt::format("{:.2g} oz", kg / kg_per_oz);
  }
  if (kg >= 999.5) return fmt::format("{:.0f} kg", kg);
  if (kg >= 0.995) return fmt::format("{:.1f} kg", kg);
  if (kg >= 0.0095) return fmt::format("{:.0f} g", kg * 1000.0);
  return fmt::format("{:.2g} g", kg * 1000.0);
}

std::string Wording::weighed(double kg) const {
  if (units_ == Units::us) {
    const double lb = kg / kg_per_lb;
    if (lb >= 0.995) return fmt::format("{:.2f} lb", lb);
    return fmt::format("{:.1f} oz", kg / kg_per_oz);
  }
  const double grams = std::round(kg * 1000.0);
  if (grams < 1000.0) return grams < 10.0 ? mass(kg) : fmt::format("{:.0f} g", grams);
  std::string text = fmt::format("{:.3f}", grams / 1000.0);
  while (text.back() == '0' && text[text.size() - 2] != '.') text.pop_back();
  return text + " kg";
}

std::string Wording::money(double amount) {
  if (std::abs(amount) >= 0.095 || amount == 0.0) return fmt::format("{:.2f}", amount);
  return fmt::format("{:.2g}", amount);
}

std::string Wording::money_with_code(double amount) const {
  return fmt::format("{} {}", money(amount), money_);
}

std::string Wording::percent(double share) { return fmt::format("{:.3g} %", 100.0 * share); }

double Wording::per_mass(Money per_kg) const {
  return per_kg.in_units() * (units_ == Units::us ? kg_per_lb : 1.0);
}

std::string Wording::price(double per_kg) const {
  return money(per_mass(Money{per_kg})) + std::string(a_mass());
}

std::string Wording::quantity(double value, std::string_view unit) const {
  if (unit == "kg as fed") return mass(value);
  if (unit == "kg dry matter") return mass(value) + " of dry matter";
  return fmt::format("{} {}", rounded(value), unit);
}

std::string Wording::subject(const RowMeaning& row) {
  switch (row.family) {
    case RowFamily::need:
      if (row.nutrient == Nutrient::energy && row.side == Side::upper) return "the energy ceiling";
      return std::string(traits_of(*row.nutrient).name);
    case RowFamily::maker:
      return fmt::format("the maker's daily amount of {}", feed_in(row.id));
    case RowFamily::stock:
      return fmt::format("{} in the barn", feed_in(row.id));
    case RowFamily::grazing:
      return "grass at pasture";
    case RowFamily::wish:
      return row.wish_kind == WishKind::none ? fmt::format("your `none` of {}", row.wish)
                                             : fmt::format("your wish for {}", row.wish);
    default:
      break;
  }
  for (const auto& [id, name] : rule_subjects) {
    if (id == row.id) return std::string(name);
  }
  const auto slash = row.id.find('/');
  const auto nutrient = nutrient_named(row.id.substr(0, slash));
  return nutrient ? std::string(traits_of(*nutrient).name) : row.id;
}

std::string Wording::demand(const RowMeaning& row) const {
  if (row.family == RowFamily::wish && row.wish_kind == WishKind::none) {
    return fmt::format("no {}, as you wish", row.wish);
  }
  if (row.family == RowFamily::wish) {
    return fmt::format("{} {} of {}, as you wish", least_or_most(row.side), mass(row.bound),
                       row.wish);
  }
  if (row.family == RowFamily::grazing) {
    return fmt::format("{} of grass at pasture, as reckoned", quantity(row.bound, row.unit));
  }
  if (row.limit && row.limit->number == 0.0) return row.limit->sentence;
  if (row.family == RowFamily::need) {
    return fmt::format("{} {} {}", traits_of(*row.nutrient).name, least_or_most(row.side),
                       quantity(row.bound, row.unit));
  }
  if (row.limit) {
    if (!row.whole.empty()) return row.limit->sentence;
    return fmt::format("{}: {} here", row.limit->sentence, quantity(row.bound, row.unit));
  }
  return fmt::format("{} {} {}", subject(row), least_or_most(row.side),
                     quantity(row.bound, row.unit));
}

std::string Wording::held(const HeldLimit& limit) const {
  const RowMeaning& row = limit.row;
  const double step = step_of(row.bound);
  const bool floor = row.side == Side::lower;
  const auto amount = [&](double s) {
    if (!row.whole.empty() && row.unit.starts_with('%')) {
      return fmt::format("{:g} percentage point{}", s, s == 1.0 ? "" : "s");
    }
    if (row.unit == "to 1") return fmt::format("{:g}", s);
    if (row.unit.starts_with("kg")) return quantity(s, row.unit);
    return fmt::format("{:g} {}", s, row.unit);
  };
  const bool all_for_others = row.family == RowFamily::stock && row.bound == 0.0;
  std::string out =
      capitalised(all_for_others ? fmt::format("none of {} is left for this horse", subject(row))
                                 : subject(row));
  if (row.limit && !row.limit->because.empty()) out += fmt::format(" ({})", row.limit->because);
  if (row.limit && row.limit->strength == Strength::law) out += ", a welfare limit,";
  if (!all_for_others) out += fmt::format(" holds the ration at {}", quantity(row.bound, row.unit));
  std::vector<std::string> effects;
  if (limit.loosening_saves > 1e-9) {
    std::string effect = fmt::format("{} {} would save {} a day", amount(step),
                                     floor ? "less" : "more", money(limit.loosening_saves * step));
    if (limit.loosening_until) {
      effect += fmt::format(", {} to {}", floor ? "down" : "up",
                            quantity(*limit.loosening_until, row.unit));
    }
    effects.push_back(std::move(effect));
  }
  if (all_for_others) {
    // There is no less than nothing.
  } else if (!std::isfinite(limit.tightening_costs)) {
    effects.push_back(fmt::format("any {} leaves no ration", floor ? "more" : "less"));
  } else if (limit.tightening_costs > 1e-9 &&
             std::abs(limit.tightening_costs - limit.loosening_saves) >
                 0.005 * limit.tightening_costs) {
    effects.push_back(fmt::format("{} {} would cost {}", amount(step), floor ? "more" : "less",
                                  money(limit.tightening_costs * step)));
  }
  out += ": ";
  for (std::size_t i = 0; i < effects.size(); ++i) out += (i > 0 ? "; " : "") + effects[i];
  return out + ".";
}

std::string Wording::worth(const FeedWorth& worth, const RationQuestion& question,
                           const Formulation& formulation) const {
  const Offer& offer = question.offers[worth.offer];
  double paid = 0.0;
  double charged = 0.0;
  std::vector<std::string> charges;
  for (const Payment& p : worth.payments) {
    (p.per_kg > 0.0 ? paid : charged) += p.per_kg;
  }
  std::vector<std::string> shares;
  for (const Payment& p : worth.payments) {
    const RowMeaning& row = formulation.rows[p.row];
    if (p.per_kg > 0.0) {
      const double share = 100.0 * p.per_kg / paid;
      if (share >= 5.0 && shares.size() < 4) {
        // A ceiling pays a feed that makes room under it.
        shares.push_back(fmt::format("{}{} {:.0f} %", row.side == Side::upper ? "room for " : "",
                                     subject(row), share));
      }
    } else if (p.per_kg < -0.05 * std::max(paid, 1e-12)) {
      charges.push_back(subject(row));
    }
  }
  std::string out =
      fmt::format("{}, {} eaten: ", offer.name, price(offer.cost_per_kg_eaten().in_units()));
  if (shares.empty()) return out + "costs nothing, so nothing pays for it.";
  out += listed(shares);
  if (!charges.empty()) {
    out += fmt::format("; charged for {}", listed(charges));
  }
  return out + ".";
}

std::string Wording::entry(const EntryPrice& entry, const RationQuestion& question) const {
  const Offer& offer = question.offers[entry.offer];
  if (!entry.enters_at) return fmt::format("{}: would not enter at any price.", offer.name);
  return fmt::format("{}: {} now, enters at {} or less.", offer.name, price(entry.now.in_units()),
                     price(entry.enters_at->in_units()));
}

std::string Wording::miss(const Broken& broken) const {
  const RowMeaning& row = broken.row;
  const std::string got =
      fmt::format("{}: {}", capitalised(subject(row)), quantity(broken.value, row.unit));
  if (row.family != RowFamily::need) return fmt::format("{}; {}.", got, demand(row));
  return fmt::format("{}; {} {} is {}.", got, least_or_most(row.side),
                     quantity(row.bound, row.unit), row.side == Side::lower ? "needed" : "allowed");
}

std::vector<std::string> cautions() {
  return {
      "Weigh the horse, the hay and the bucket: bales and scoops vary. Weigh soaked feed dry.",
      "Change over 10 to 14 days, a quarter at a time; watch droppings, appetite and water.",
      "Water and salt always. Soak as shown. No mouldy, dusty or punctured-wrap forage.",
      "Figures of a table are averages: a forage analysis is the largest gain.",
      "Score condition and measure girth every two weeks; adjust by 5 to 10 %.",
      "Least cost is not best diet. Local rules and a vet's instruction come before this page.",
  };
}

std::vector<std::string> when_to_ask() {
  return {
      "Stop and call the vet: off feed for 24 hours, colic, choke, diarrhoea, fever, laminitis, a "
      "pony or donkey that is dull (the same day), or 5 % of weight lost unplanned.",
      "Then ask a registered nutritionist: foals, the last three months of pregnancy, the first "
      "three of lactation, forage under 1.25 % of bodyweight.",
  };
}

std::vector<std::string> refusal(const Horse& horse) {
  std::vector<std::string> out;
  for (const HealthState state : horse.health) {
    if (!refuses_planning(state)) continue;
    switch (state) {
      case HealthState::starved:
        out.emplace_back(
            "A starved horse can die of being fed too much too soon. Call the vet "
            "before changing anything; a vet's refeeding plan starts with very small "
            "amounts of alfalfa and no grain.");
        break;
      case HealthState::acute_laminitis:
        out.emplace_back(
            "Acute laminitis is an emergency: call the vet now. The diet is part of "
            "the treatment and the vet's to set.");
        break;
      case HealthState::colic:
        out.emplace_back("Colic is an emergency: take feed away and call the vet now.");
        break;
      default:
        out.emplace_back(
            "A horse off its feed needs a vet before it needs a ration; a pony, "
            "donkey or miniature needs one today.");
    }
  }
  return out;
}

}  // namespace haymow
