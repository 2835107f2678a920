#include "scenarios/report_stretch_who_first.h"

#include <fmt/format.h>

#include <algorithm>

#include "scenarios/report_season.h"

namespace haymow {
namespace {

constexpr std::size_t most_instead = 3;

class WhoFirst {
 public:
  WhoFirst(const StretchAnswer& answer, const Wording& words)
      : answer_(answer), question_(answer.question), words_(words) {}

  Report::Part part() const {
    Report::Part part;
    if (answer_.short_feeds.empty()) {
      part.headline = "No forage is short, so no horse has to go without for another";
      return part;
    }
    std::vector<std::string> names;
    for (const ShortFeed& feed : answer_.short_feeds) names.push_back(name_of_offer(feed.offer));
    part.headline = fmt::format("Who gets {} first", listed(names));
    for (const ShortFeed& feed : answer_.short_feeds) part.sections.push_back(order_of(feed));
    part.sections.push_back(
        {"How the order comes about",
         {},
         {"Each horse's cheapest rations are reckoned twice, as if it were alone: with the feed "
          "free of charge, and with as little of it as a safe ration can do with, bought feeds in "
          "its place. First comes who cannot do without; then who saves most with a kilogram. "
          "Every figure is of certified answers."}});
    return part;
  }

 private:
  const std::string& name_of_offer(std::size_t f) const { return question_.offers[f].name; }

  Section order_of(const ShortFeed& feed) const {
    Section section{name_of_offer(feed.offer), {}, {}};
    if (!feed.who_first) {
      section.sentences.push_back(
          "The order is not known: a horse has no safe ration, or an answer did not certify.");
      return section;
    }
    int place = 0;
    for (const WorthToHorse& worth : *feed.who_first) {
      section.sentences.push_back(fmt::format("{}. {}", ++place, worth_told(feed, worth)));
    }
    if (feed.worth_per_kg) {
      section.sentences.push_back(
          fmt::format("In the plan for all of them together more of it on hand would save {}, so "
                      "it is worth paying that for more (planned anew with 100 kg more).",
                      words_.price(feed.worth_per_kg->in_units())));
    }
    return section;
  }

  std::string worth_told(const ShortFeed& feed, const WorthToHorse& worth) const {
    const std::string& name = question_.horses[worth.horse].name;
    if (worth.most_kg < least_forage_told_kg) {
      return fmt::format("{}: eats none of it even where it costs nothing.", name);
    }
    std::string text = fmt::format("{}: ", name);
    if (worth.least_kg > least_forage_told_kg) {
      text += fmt::format("cannot do without {} of the {} it would eat in the season",
                          words_.mass(worth.least_kg), words_.mass(worth.most_kg));
      if (worth.demand) text += fmt::format(", held by: {}", words_.demand(*worth.demand));
    } else {
      text += fmt::format("can do without the {} it would eat in the season",
                          words_.mass(worth.most_kg));
    }
    if (worth.saves_per_kg) {
      text += fmt::format("; {} saves {}",
                          worth.least_kg > least_forage_told_kg ? "beyond that it" : "it",
                          words_.price(worth.saves_per_kg->in_units()));
    }
    text += instead_told(worth);
    if (answer_.found()) {
      const double kg = put_out_in_plan(worth.horse, feed.offer);
      text += fmt::format(". The plan gives it {}",
                          kg < least_forage_told_kg ? "none" : words_.mass(kg));
    }
    return text + ".";
  }

  std::string instead_told(const WorthToHorse& worth) const {
    std::vector<std::string> feeds;
    for (std::size_t i = 0; i < std::min(most_instead, worth.instead.size()); ++i) {
      feeds.push_back(fmt::format("{} {}", words_.mass(worth.instead[i].kg),
                                  name_of_offer(worth.instead[i].offer)));
    }
    return feeds.empty() ? "" : fmt::format(", in place of {} a day", listed(feeds));
  }

  double put_out_in_plan(std::size_t horse, std::size_t f) const {
    double kg = 0.0;
    for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
      kg += answer_.plan.eaten[horse][w][f] * question_.weeks[w].days;
    }
    return question_.offers[f].put_out(KgAsFed{kg}).in_kg();
  }

  const StretchAnswer& answer_;
  const SeasonQuestion& question_;
  const Wording& words_;
};

}  // namespace

Report::Part stretch_who_first_part(const StretchAnswer& answer, const Wording& words) {
  return WhoFirst(answer, words).part();
}

}  // namespace haymow
