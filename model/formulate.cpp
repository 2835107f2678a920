#include "model/formulate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <string_view>
#include <utility>

#include "model/meal_shares.h"
#include "model/naming.h"

namespace haymow {
namespace {

// 1 ml of vegetable oil weighs 0.92 g (from memory; textbooks give 0.91 to 0.93).
constexpr double kg_oil_per_100_ml = 0.092;
// Digestible energy of starch and sugar, MJ per kg, and of fat: 4.15 and 9.0
// kcal per g, from memory. Only shares of the energy use them.
constexpr double mj_per_kg_nsc = 17.4;
constexpr double mj_per_kg_fat = 37.7;
// Wrapped forage below this dry matter is silage (trade advice, source not named).
constexpr double least_wrapped_dry_matter = 350.0;

using Coefficient = std::function<double(const Offer&)>;

class Writer {
 public:
  explicit Writer(const RationQuestion& question)
      : question_(question),
        seen_(question.offers.size() * static_cast<std::size_t>(nutrient_count), 0) {
    for (const Offer& offer : question.offers) {
      formulation_.program.add_column(
          {offer.name, 0.0, unlimited, offer.cost_per_kg_eaten().in_units()});
    }
  }

  void needs();
  void tolerances();
  void ratios();
  void intake();
  void forage();
  void starch_and_sugar();
  void meals();
  void feed_ceilings();
  void makers_amounts();
  void stock();
  void grazing();
  void wishes();

  Formulation finish() { return std::move(formulation_); }

 private:
  [[nodiscard]] double bodyweight_kg() const { return question_.horse.bodyweight.in_kg(); }
  [[nodiscard]] const Limit* limit(std::string_view id) const {
    return find_limit(question_.limits, id);
  }

  [[nodiscard]] std::vector<Term> terms(const Coefficient& coefficient) const {
    std::vector<Term> out;
    out.reserve(question_.offers.size());
    for (std::size_t i = 0; i < question_.offers.size(); ++i) {
      const double value = coefficient(question_.offers[i]);
      if (value != 0.0) out.push_back({static_cast<int>(i), value});
    }
    return out;
  }

  // What a ceiling counts for an unknown figure, per kg as fed.
  double counted_high(const Offer& offer, Nutrient n) {
    const Feed& feed = offer.feed;
    if (const auto known = feed.per_kg_as_fed(n)) return *known;
    std::optional<double> assumed;
    if (const auto it = question_.highest.find(feed.group); it != question_.highest.end()) {
      assumed = it->second[n];
    }
    const auto index = static_cast<std::size_t>(&offer - question_.offers.data());
    const std::size_t place =
        index * static_cast<std::size_t>(nutrient_count) + static_cast<std::size_t>(n);
    if (!std::exchange(seen_[place], 1)) formulation_.assumed.push_back({index, n, assumed});
    return assumed.value_or(0.0) * feed.dry_matter_share();
  }

  static Coefficient low(Nutrient n) {
    return [n](const Offer& offer) { return counted_low(offer.feed, n); };
  }
  Coefficient high(Nutrient n) {
    return [this, n](const Offer& offer) { return counted_high(offer, n); };
  }
  static double dry(const Offer& offer) { return offer.feed.dry_matter_share(); }
  [[nodiscard]] Coefficient dry_forage() const {
    return [this](const Offer& offer) {
      return counts_as_forage(offer.feed, question_.horse) ? dry(offer) : 0.0;
    };
  }

  void add(RowMeaning row, bool forced) {
    // A ceiling on feeds that nobody offers asks nothing; a floor on them asks
    // for what there is not, and must be heard.
    if (row.part.empty() && row.side == Side::upper) return;
    if (!forced) {
      formulation_.judged.push_back(std::move(row));
      return;
    }
    Row algebra{row.id, -unlimited, unlimited, {}};
    double bound = row.bound;
    if (row.whole.empty()) {
      algebra.terms = row.part;
    } else {
      algebra.terms = multiplied_out(row);
      bound = 0.0;
    }
    (row.side == Side::lower ? algebra.lower : algebra.upper) = bound;
    formulation_.program.add_row(std::move(algebra));
    formulation_.rows.push_back(std::move(row));
  }

  // part - bound / scale * whole; the terms of both stand in the order of the columns.
  static std::vector<Term> multiplied_out(const RowMeaning& row) {
    const double factor = row.bound / row.scale;
    std::vector<Term> sum;
    sum.reserve(std::max(row.part.size(), row.whole.size()));
    auto of_whole = row.whole.begin();
    const auto whole_before = [&](int column) {
      for (; of_whole != row.whole.end() && of_whole->column < column; ++of_whole) {
        sum.push_back({of_whole->column, 0.0 - factor * of_whole->coefficient});
      }
    };
    for (const Term& t : row.part) {
      whole_before(t.column);
      const bool both = of_whole != row.whole.end() && of_whole->column == t.column;
      sum.push_back(
          {t.column, both ? t.coefficient - factor * of_whole->coefficient : t.coefficient});
      if (both) ++of_whole;
    }
    whole_before(std::numeric_limits<int>::max());
    return sum;
  }

  static Side side_of(std::string_view id) {
    return id.ends_with("/max") ? Side::upper : Side::lower;
  }

  static RowMeaning row_of(const Limit& rule, RowFamily family, double bound, std::string unit) {
    RowMeaning row;
    row.id = rule.id;
    row.family = family;
    row.side = side_of(rule.id);
    row.bound = bound;
    row.unit = std::move(unit);
    row.limit = rule;
    return row;
  }

  // A rule that bounds an amount: its number times `factor`, in `unit`.
  void amount_rule(std::string_view id, RowFamily family, double factor, std::string unit,
                   const Coefficient& part) {
    const Limit* rule = limit(id);
    if (rule == nullptr) return;
    RowMeaning row = row_of(*rule, family, rule->number * factor, std::move(unit));
    row.part = terms(part);
    add(std::move(row), rule->forced);
  }

  // A rule that bounds scale * part / whole by its number, in the rule's own unit.
  void share_rule(std::string_view id, RowFamily family, double scale, const Coefficient& part,
                  const Coefficient& whole) {
    const Limit* rule = limit(id);
    if (rule == nullptr) return;
    RowMeaning row = row_of(*rule, family, rule->number, rule->unit);
    row.part = terms(part);
    row.whole = terms(whole);
    row.scale = scale;
    if (!row.whole.empty()) add(std::move(row), rule->forced);
  }

  const RationQuestion& question_;
  Formulation formulation_;
  std::vector<char> seen_;  // offer by nutrient: told as assumed
};

// Energy between need and ceiling; a floor for every other nutrient. An unknown
// figure counts as nothing. Oil asks for vitamin E of its own.
void Writer::needs() {
  for (const Requirement& need : question_.needs.rows) {
    const NutrientTraits& traits = traits_of(need.nutrient);
    RowMeaning row;
    row.family = RowFamily::need;
    row.unit = traits.unit;
    row.nutrient = need.nutrient;
    if (need.floor) {
      row.id = fmt::format("{}/min", traits.key);
      row.side = Side::lower;
      row.bound = *need.floor;
      row.part = terms(
          [&](const Offer& offer) { return counted_as_floor(question_, offer, need.nutrient); });
      add(row, need.forced);
    }
    if (need.ceiling) {
      row.id = fmt::format("{}/max", traits.key);
      row.side = Side::upper;
      row.bound = *need.ceiling;
      row.part = terms(high(need.nutrient));
      add(row, true);
    }
  }
}

// Tolerable concentrations: sum (a - limit) dm x <= 0. Vitamin A counts only
// where it is added; forage carries carotene, which does no harm.
void Writer::tolerances() {
  constexpr std::array watched{Nutrient::calcium,   Nutrient::phosphorus, Nutrient::magnesium,
                               Nutrient::potassium, Nutrient::sulphur,    Nutrient::iron,
                               Nutrient::manganese, Nutrient::copper,     Nutrient::zinc,
                               Nutrient::iodine,    Nutrient::selenium,   Nutrient::cobalt,
                               Nutrient::vitamin_a, Nutrient::vitamin_d,  Nutrient::vitamin_e};
  for (const Nutrient n : watched) {
    const std::string id = fmt::format("{}/max", traits_of(n).key);
    if (limit(id) == nullptr) continue;
    const Coefficient content = high(n);
    share_rule(
        id, RowFamily::tolerance, 1.0,
        [&](const Offer& offer) {
          const FeedGroup group = offer.feed.group;
          const bool added = group == FeedGroup::compound || group == FeedGroup::balancer ||
                             group == FeedGroup::supplement || group == FeedGroup::mineral;
          return n == Nutrient::vitamin_a && !added ? 0.0 : content(offer);
        },
        dry);
  }
}

// Ratios, multiplied out. The unknown counts on the unsafe side of each.
void Writer::ratios() {
  share_rule("ca_p/min", RowFamily::ratio, 1.0, low(Nutrient::calcium), high(Nutrient::phosphorus));
  share_rule("ca_p/max", RowFamily::ratio, 1.0, high(Nutrient::calcium), low(Nutrient::phosphorus));
  share_rule("zn_cu/min", RowFamily::ratio, 1.0, low(Nutrient::zinc), low(Nutrient::copper));
  share_rule("zn_cu/max", RowFamily::ratio, 1.0, low(Nutrient::zinc), low(Nutrient::copper));
}

void Writer::intake() {
  amount_rule("intake/max", RowFamily::intake, bodyweight_kg() / 100.0, "kg dry matter", dry);
  amount_rule("ndf/max", RowFamily::intake, bodyweight_kg(), "g", high(Nutrient::ndf));
}

void Writer::forage() {
  const Coefficient forage = dry_forage();
  const auto only = [](auto test) {
    return [test](const Offer& offer) { return test(offer.feed) ? dry(offer) : 0.0; };
  };
  const double per_cent = bodyweight_kg() / 100.0;
  const auto straw = only([](const Feed& f) { return f.group == FeedGroup::straw; });
  amount_rule("forage/min", RowFamily::forage, per_cent, "kg dry matter", forage);
  share_rule("forage_share/min", RowFamily::forage, 100.0, forage, dry);
  amount_rule("long_forage/min", RowFamily::forage, per_cent, "kg dry matter",
              only([](const Feed& f) { return f.is_long_forage(); }));
  amount_rule("long_forage/max", RowFamily::forage, 1.0, "kg as fed",
              [](const Offer& o) { return o.feed.is_long_forage() ? 1.0 : 0.0; });
  share_rule("straw_share/max", RowFamily::forage, 100.0, straw, forage);
  amount_rule("straw/max", RowFamily::forage, per_cent, "kg dry matter", straw);
  share_rule("legume_share/max", RowFamily::forage, 100.0,
             only([](const Feed& f) { return f.has(FeedTrait::legume); }), forage);
  share_rule("by_product_share/max", RowFamily::forage, 100.0,
             only([](const Feed& f) { return f.group == FeedGroup::fibre; }), forage);
  share_rule("beet_share/max", RowFamily::forage, 100.0,
             only([](const Feed& f) { return f.has(FeedTrait::beet); }), dry);
  amount_rule("grass/max", RowFamily::forage, bodyweight_kg() / 1000.0, "kg as fed",
              [this](const Offer& o) {
                // What is grazed is reckoned, not offered.
                const auto index = static_cast<std::size_t>(&o - question_.offers.data());
                const bool cut = o.feed.group == FeedGroup::grass && !question_.grazes(index);
                return cut ? 1.0 : 0.0;
              });
  amount_rule("wet_forage/max", RowFamily::forage, 1.0, "kg as fed", [](const Offer& o) {
    const bool wet =
        o.feed.group == FeedGroup::haylage && o.feed.dry_matter.value < least_wrapped_dry_matter;
    return wet ? 1.0 : 0.0;
  });
}

// Starch counts in the bucket, where it comes in meals; sugar and starch of the
// whole ration count where a health state asks for it.
void Writer::starch_and_sugar() {
  const Coefficient bucket_starch = [this](const Offer& offer) {
    return offer.feed.is_bucket_feed() ? counted_high(offer, Nutrient::starch) : 0.0;
  };
  const Coefficient nsc = [this](const Offer& offer) {
    return counted_high(offer, Nutrient::starch) + counted_high(offer, Nutrient::sugar);
  };
  amount_rule("starch_meal/max", RowFamily::starch, kg_over_largest_share(question_), "g",
              bucket_starch);
  amount_rule("starch_day/max", RowFamily::starch, bodyweight_kg(), "g", bucket_starch);
  // g per kg of dry matter to per cent: 0.1.
  share_rule("nsc_share/max", RowFamily::starch, 0.1, nsc, dry);
  share_rule(
      "nsc_energy/max", RowFamily::starch, 100.0,
      [&](const Offer& offer) {
        return offer.feed.is_bucket_feed() ? nsc(offer) * mj_per_kg_nsc / 1000.0 : 0.0;
      },
      low(Nutrient::energy));
  share_rule(
      "fat_energy/min", RowFamily::starch, 100.0,
      [](const Offer& offer) {
        return counted_low(offer.feed, Nutrient::crude_fat) * mj_per_kg_fat / 1000.0;
      },
      low(Nutrient::energy));
  share_rule("fat_share/max", RowFamily::starch, 0.1, high(Nutrient::crude_fat), dry);
}

void Writer::meals() {
  amount_rule("meal_size/max", RowFamily::meal, per_cent_over_largest_share(question_),
              "kg dry matter",
              [](const Offer& o) { return o.feed.is_bucket_feed() ? dry(o) : 0.0; });
}

void Writer::feed_ceilings() {
  const double per_gram = bodyweight_kg() / 1000.0;  // g per kg bodyweight to kg
  const auto as_fed_if = [](auto test) {
    return [test](const Offer& offer) { return test(offer.feed) ? 1.0 : 0.0; };
  };
  const auto trait = [&](FeedTrait t) {
    return as_fed_if([t](const Feed& f) { return f.has(t); });
  };
  const auto sweet = [](const Feed& f) {
    return f.group == FeedGroup::sweet || f.has(FeedTrait::molassed);
  };
  amount_rule("oil/max", RowFamily::feed, per_gram, "kg as fed",
              as_fed_if([](const Feed& f) { return f.group == FeedGroup::oil; }));
  // Weighed out of the bag, before the water.
  amount_rule("soaked/max", RowFamily::feed, per_gram, "kg as fed", trait(FeedTrait::soak));
  amount_rule("bran/max", RowFamily::feed, per_gram, "kg as fed", trait(FeedTrait::bran));
  amount_rule("linseed/max", RowFamily::feed, per_gram, "kg as fed", trait(FeedTrait::linseed));
  amount_rule("protein_feed/max", RowFamily::feed, per_gram, "kg as fed",
              as_fed_if([](const Feed& f) { return f.group == FeedGroup::protein; }));
  amount_rule("mineral/max", RowFamily::feed, per_gram, "kg as fed",
              as_fed_if([](const Feed& f) { return f.group == FeedGroup::mineral; }));
  share_rule(
      "salt_share/max", RowFamily::feed, 100.0,
      [](const Offer& o) { return o.feed.has(FeedTrait::salt) ? dry(o) : 0.0; }, dry);
  amount_rule("grain/max", RowFamily::feed, 1.0, "kg as fed", trait(FeedTrait::grain));
  amount_rule("sweet/max", RowFamily::feed, 1.0, "kg as fed", as_fed_if(sweet));
  amount_rule("legume/max", RowFamily::feed, 1.0, "kg as fed", trait(FeedTrait::legume));
  amount_rule("molassed/max", RowFamily::feed, 1.0, "kg as fed", trait(FeedTrait::molassed));
}

// A supplement is dosed as its maker says, whatever the sums say.
void Writer::makers_amounts() {
  for (std::size_t i = 0; i < question_.offers.size(); ++i) {
    const auto& most = question_.offers[i].feed.daily_most;
    if (!most) continue;
    RowMeaning row;
    row.id = fmt::format("maker/{}/max", question_.offers[i].name);
    row.family = RowFamily::maker;
    row.side = Side::upper;
    row.bound = most->amount.in_kg() * (most->per ? question_.horse.bodyweight / *most->per : 1.0);
    row.unit = "kg as fed";
    row.offer = i;
    row.part = {{static_cast<int>(i), 1.0}};
    add(std::move(row), true);
  }
}

// What is put out includes what is wasted and what soaking washes out, so the barn
// empties by x / ((1 - waste) (1 - soaking loss)).
void Writer::stock() {
  for (std::size_t i = 0; i < question_.stock_a_day.size(); ++i) {
    if (!question_.stock_a_day[i]) continue;
    RowMeaning row;
    row.id = fmt::format("stock/{}/max", question_.offers[i].name);
    row.family = RowFamily::stock;
    row.side = Side::upper;
    row.bound = question_.stock_a_day[i]->in_kg();
    row.unit = "kg as fed";
    row.offer = i;
    row.part = {{static_cast<int>(i), 1.0 / question_.offers[i].losses().eaten_of_put_out()}};
    add(std::move(row), true);
  }
}

// Grass is neither put out nor held back: what is eaten is taken as given.
void Writer::grazing() {
  if (!question_.grass) return;
  const std::size_t grass = question_.grass->offer;
  RowMeaning row;
  row.family = RowFamily::grazing;
  row.unit = "kg dry matter";
  row.offer = grass;
  row.part = {{static_cast<int>(grass), dry(question_.offers[grass])}};
  row.id = "grazing/min";
  row.side = Side::lower;
  row.bound = question_.grass->least.in_kg();
  add(row, true);
  row.id = "grazing/max";
  row.side = Side::upper;
  row.bound = question_.grass->most.in_kg();
  add(row, true);
}

void Writer::wishes() {
  for (const Wish& wish : question_.horse.wishes) {
    RowMeaning row;
    row.family = RowFamily::wish;
    row.wish = wish.what;
    row.wish_kind = wish.kind;
    row.unit = "kg as fed";
    row.bound = wish.kind == WishKind::none ? 0.0 : wish.amount.in_kg();
    row.part = terms([&](const Offer& o) { return refers_to(wish.what, o) ? 1.0 : 0.0; });
    const bool bounded_below = wish.kind == WishKind::at_least || wish.kind == WishKind::exactly;
    const bool bounded_above = wish.kind != WishKind::at_least;
    if (bounded_below) {
      row.id = fmt::format("wish/{} {}/min", name_of(wish.kind), wish.what);
      row.side = Side::lower;
      add(row, true);
    }
    if (bounded_above) {
      row.id = fmt::format("wish/{} {}/max", name_of(wish.kind), wish.what);
      row.side = Side::upper;
      add(row, true);
    }
  }
}

double sum(const std::vector<Term>& terms, const std::vector<double>& amounts) {
  double total = 0.0;
  for (const Term& t : terms) total += t.coefficient * amounts[static_cast<std::size_t>(t.column)];
  return total;
}

}  // namespace

std::optional<double> RowMeaning::value(const std::vector<double>& amounts) const {
  const double above = sum(part, amounts);
  if (whole.empty()) return above;
  const double below = sum(whole, amounts);
  if (below <= 0.0) return std::nullopt;
  return scale * above / below;
}

bool RowMeaning::is_welfare() const {
  return family == RowFamily::maker || (limit && limit->strength != Strength::guide);
}

bool RowMeaning::kept(const std::vector<double>& amounts, double tolerance) const {
  const auto got = value(amounts);
  if (!got) return true;
  const double slack = tolerance * std::max(1.0, std::abs(bound));
  return side == Side::lower ? *got >= bound - slack : *got <= bound + slack;
}

double RowMeaning::row_units(const std::vector<double>& amounts) const {
  return whole.empty() ? 1.0 : sum(whole, amounts) / scale;
}

HighestKnown highest_known(const std::vector<Feed>& feeds) {
  HighestKnown highest;
  for (const Feed& feed : feeds) {
    if (feed.has(FeedTrait::concentrated)) continue;  // nobody's guess for an ordinary feed
    for (const Nutrient n : all_nutrients()) {
      if (!feed.composition[n]) continue;
      auto& best = highest[feed.group][n];
      best = std::max(best.value_or(0.0), feed.composition[n]->value);
    }
  }
  return highest;
}

double counted_low(const Feed& feed, Nutrient n) { return feed.per_kg_as_fed(n).value_or(0.0); }

double counted_as_floor(const RationQuestion& question, const Offer& offer, Nutrient n) {
  double counted = counted_low(offer.feed, n);
  if (n == Nutrient::vitamin_e && offer.feed.group == FeedGroup::oil) {
    const Limit* asked = find_limit(question.limits, "oil_vitamin_e/min");
    if (asked != nullptr) counted -= asked->number / kg_oil_per_100_ml;
  }
  return counted;
}

bool counts_as_forage(const Feed& feed, const Horse& horse) {
  if (feed.is_forage()) return true;
  return horse.health.contains(HealthState::cannot_chew) &&
         (feed.group == FeedGroup::fibre || feed.has(FeedTrait::complete));
}

Formulation formulate(const RationQuestion& question) {
  Writer writer(question);
  writer.needs();
  writer.tolerances();
  writer.ratios();
  writer.intake();
  writer.forage();
  writer.starch_and_sugar();
  writer.meals();
  writer.feed_ceilings();
  writer.makers_amounts();
  writer.stock();
  writer.grazing();
  writer.wishes();
  return writer.finish();
}

}  // namespace haymow
