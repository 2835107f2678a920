// What a winter costs, and what to order, when it is only known as ranges how it will be.
#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "scenarios/order_chances.h"
#include "scenarios/report_season.h"
#include "scenarios/report_winter_parts.h"

namespace haymow {
namespace {

class Chances {
 public:
  explicit Chances(const WinterTold& told) : in_(told), chances_(*told.answer.chances) {}

  Report::Part part() const {
    Report::Part part;
    part.headline = headline();
    if (!chances_.draws.empty()) {
      part.sections.push_back(costs());
      part.sections.push_back(orders());
    }
    part.sections.push_back({"What was drawn", {}, what_was_drawn()});
    return part;
  }

 private:
  std::string headline() const {
    if (chances_.draws.empty()) return "How the winter may turn out was not worked out";
    const auto enough = chances_.cost(most_winters).value;
    if (!enough) {
      const auto none = static_cast<double>(chances_.count_of(SeasonStatus::none));
      return none > (1.0 - most_winters) * static_cast<double>(chances_.draws.size())
                 ? "In more than one winter of ten there is no plan"
                 : "What is enough in nine winters of ten is not known";
    }
    return fmt::format("If the winter turns out otherwise: nine in ten can be fed for {}{}",
                       in_.words.money_with_code(*enough),
                       chances_.all_done()
                           ? ""
                           : fmt::format(", by the {} winters planned", chances_.draws.size()));
  }

  // --- costs

  Section costs() const {
    Section section{"What it costs, amounts of any size",
                    Table{{"winters", "can be fed for", "low", "high"}, {}, 1},
                    {}};
    section.table->rows.push_back(
        {"as the file has it", Wording::money(in_.answer.plan.lower_bound.in_units()), "", ""});
    section.table->rows.push_back(row("five in ten", chances_.cost(0.5)));
    section.table->rows.push_back(row("nine in ten", chances_.cost(most_winters)));
    section.sentences.push_back(
        fmt::format("What {} drawn winters tell is not exact: 19 times of 20 the true figure lies "
                    "between `low` and `high`.",
                    chances_.draws.size()));
    return section;
  }

  static std::vector<std::string> row(std::string what, const QuantileTold& told) {
    const auto cell = [](const std::optional<double>& cost, std::string_view without) {
      return cost ? Wording::money(*cost) : std::string(without);
    };
    return {std::move(what), cell(told.value, "no plan"), cell(told.low, "not known"),
            cell(told.high, "not known")};
  }

  // --- orders

  std::string amount_told(std::size_t offer, const EnoughAmount& amount) const {
    if (amount.kg < nothing_kg) return "none";
    OrderLine line;
    line.offer = offer;
    line.amount = KgAsFed{amount.kg};
    line.packs = amount.packs;
    return amount_in_words(in_.question, line, in_.words);
  }

  Section orders() const {
    Section section{"What to order to have enough",
                    Table{{"feed", "this plan", "enough in nine of ten"}, {}, 1},
                    {}};
    for (const OrderChance& one : order_chances(in_.answer)) {
      section.table->rows.push_back({in_.question.offers[one.offer].name,
                                     amount_told(one.offer, one.plan),
                                     one.enough ? amount_told(one.offer, *one.enough) : "no plan"});
    }
    if (const auto& enough = chances_.enough) {
      section.sentences.push_back(fmt::format(
          "All of it together, in packs of the weight in the file, feeds at least {} of "
          "the {} winters drawn. What can be had later can wait until the winter shows "
          "what it is.",
          enough->winters_all, chances_.draws.size()));
    }
    return section;
  }

  // --- what was drawn, and what it means

  std::vector<std::string> what_was_drawn() const {
    std::vector<std::string> told;
    told.push_back(
        fmt::format("Every winter was drawn from the ranges in the file, the figure beside a range "
                    "being the likeliest: {}.",
                    doubts()));
    told.push_back(how_many());
    if (chances_.draws.empty()) return told;
    told.emplace_back(
        "Each is planned as if it were known from the first day how it will be. Nobody knows, so "
        "expect to pay somewhat more than that.");
    without_a_plan(told);
    const int unknown = chances_.count_of(SeasonStatus::failed);
    if (unknown > 0) {
      told.push_back(fmt::format(
          "Of {} of them nothing certified is known; they count as dearer than all.", unknown));
    }
    return told;
  }

  std::string how_many() const {
    const std::size_t done = chances_.draws.size();
    if (chances_.all_done()) {
      return fmt::format("{} winters were drawn; the same file draws the same ones (seed {}).",
                         done, chances_.seed);
    }
    return fmt::format("{}: {} of {} winters were planned (seed {}).",
                       in_.answer.stopped ? "It was stopped" : "The time ran out", done,
                       chances_.asked, chances_.seed);
  }

  std::string doubts() const {
    std::vector<std::string> told;
    if (const auto& days = in_.scenario.may_end) {
      const int planned = days_of(in_.question) - 1;
      told.push_back(
          fmt::format("the last day, {} to {}",
                      day_of_season(in_.scenario, planned + static_cast<int>(days->least)),
                      day_of_season(in_.scenario, planned + static_cast<int>(days->most))));
    }
    for (const FeedDoubt& feed : in_.scenario.feed_doubts) {
      std::vector<std::string> of;
      if (feed.ranges.price) of.emplace_back("the price");
      if (feed.ranges.bale) of.emplace_back("the weight of a bale");
      if (feed.ranges.energy) of.emplace_back("the energy");
      if (feed.ranges.crude_protein) of.emplace_back("the protein");
      told.push_back(fmt::format("{} of {}", listed(of), in_.question.offers[feed.offer].name));
    }
    std::string text;
    for (const std::string& one : told) text += text.empty() ? one : "; " + one;
    return text;
  }

  // --- draws without a plan

  struct FailsFirst {
    std::string what;
    std::size_t earliest = 0;
    int count = 0;
  };

  std::vector<FailsFirst> fail_first() const {
    std::vector<FailsFirst> found;
    for (const SeasonDraw& draw : chances_.draws) {
      if (!draw.failure || draw.failure->misses.empty()) continue;
      const SeasonMiss& miss = draw.failure->misses.front();
      const std::string what = fmt::format(
          "{} for {}", miss.row ? in_.words.demand(*miss.row) : "the pace of a change of feed",
          horses_in_words(in_.question, miss.horses));
      auto known = std::find_if(found.begin(), found.end(),
                                [&](const FailsFirst& f) { return f.what == what; });
      if (known == found.end())
        known = found.insert(found.end(), {what, draw.failure->first_week, 0});
      known->earliest = std::min(known->earliest, draw.failure->first_week);
      ++known->count;
    }
    return found;
  }

  void without_a_plan(std::vector<std::string>& told) const {
    const int none = chances_.count_of(SeasonStatus::none);
    if (none == 0) return;
    told.push_back(
        fmt::format("{} of the {} {} no plan: what can be had, stored and paid for does "
                    "not reach. They count as dearer than all.",
                    none, chances_.draws.size(), none == 1 ? "has" : "have"));
    for (const FailsFirst& fails : fail_first()) {
      told.push_back(fmt::format(
          "- In {} of those looked at, no plan lasts through the week from {}{}. What cannot be "
          "kept is: {}.",
          fails.count, day_of_season(in_.scenario, days_in_week * static_cast<int>(fails.earliest)),
          fails.count > 1 ? " or a later one" : "", fails.what));
    }
  }

  const WinterTold& in_;
  const SeasonChances& chances_;
};

}  // namespace

Report::Part winter_chances_part(const WinterTold& told) { return Chances(told).part(); }

}  // namespace haymow
