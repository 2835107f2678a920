#include "scenarios/report_stretch_prices.h"

#include <fmt/format.h>

#include <algorithm>

#include "scenarios/report_season.h"

namespace haymow {
namespace {

constexpr std::size_t most_steps = 8;

class Prices {
 public:
  Prices(const StretchAnswer& answer, const Wording& words)
      : answer_(answer), question_(answer.question), words_(words) {}

  Report::Part part() const {
    Report::Part part;
    if (answer_.break_even.empty()) {
      part.headline = "The plan buys no hay or haylage, so no price of it moves the plan";
      return part;
    }
    part.headline = "What bought hay may cost";
    for (const BreakEven& price : answer_.break_even) part.sections.push_back(price_of(price));
    return part;
  }

 private:
  const std::string& name_of_offer(std::size_t f) const { return question_.offers[f].name; }

  std::string told_price(std::size_t f, double dearer) const {
    const double now = question_.supply[f].price_per_kg.front().in_units();
    std::string text = words_.price(now + dearer);
    const auto& pack = question_.supply[f].pack;
    if (pack) {
      text += fmt::format(" ({} a {})", Wording::money((now + dearer) * pack->in_kg()),
                          question_.supply[f].pack_name);
    }
    return text;
  }

  Section price_of(const BreakEven& price) const {
    const std::size_t f = price.offer;
    Section section{name_of_offer(f), {}, {}};
    if (!price.dearer) {
      section.sentences.push_back(
          fmt::format("At {} the plan buys {}, and still as much at twice that.",
                      told_price(f, 0.0), words_.mass(price.bought_kg)));
    } else {
      section.sentences.push_back(fmt::format(
          "At {} the plan buys {}. Above {} it is worth less than what takes its place: the plan "
          "then buys {}.",
          told_price(f, 0.0), words_.mass(price.bought_kg), told_price(f, *price.dearer),
          price.above_kg < least_forage_told_kg ? "none" : words_.mass(price.above_kg)));
    }
    if (price.steps.size() > 1) section.table = price_table(price);
    section.sentences.push_back(fmt::format(
        "Solved anew {}, {}. Prices are those of the first week, as bought; the "
        "other weeks are taken to rise by as much. Amounts of any size.",
        price.dearer ? "just below and just above that price" : "at twice the price",
        certified_to(price.below.relative_gap > price.above.relative_gap ? price.below
                                                                         : price.above)));
    return section;
  }

  Table price_table(const BreakEven& price) const {
    Table table{{"price up to", "the plan buys"}, {}, 1};
    for (std::size_t i = 0; i < std::min(most_steps, price.steps.size()); ++i) {
      const BoughtStep& step = price.steps[i];
      table.rows.push_back(
          {told_price(price.offer, step.dearer_to),
           step.bought_kg < least_forage_told_kg ? "none" : words_.mass(step.bought_kg)});
    }
    return table;
  }

  const StretchAnswer& answer_;
  const SeasonQuestion& question_;
  const Wording& words_;
};

}  // namespace

Report::Part stretch_prices_part(const StretchAnswer& answer, const Wording& words) {
  return Prices(answer, words).part();
}

}  // namespace haymow
