#include "scenarios/report_sources.h"

#include <fmt/format.h>

#include <set>

#include "scenarios/report_parts.h"

namespace haymow {

std::string source_in_words(const Source& source) {
  return fmt::format("{}{}{}", source.title, source.year.empty() ? "" : ", " + source.year,
                     source.address.empty() ? "" : ", " + source.address);
}

Section sources_of_rations(const std::vector<HorseAnswer>& answers) {
  std::set<std::string> keys;
  for (const HorseAnswer& answer : answers) {
    if (answer.status != AnswerStatus::found) continue;
    for (const Portion& p : ration_to_feed(answer).portions) {
      const Feed& feed = answer.question.offers[p.offer].feed;
      keys.insert(feed.dry_matter.source);
      for (const Nutrient n : all_nutrients()) {
        if (feed.composition[n]) keys.insert(feed.composition[n]->source);
      }
    }
  }
  Section section{"Sources", {}, {}};
  if (keys.empty()) return section;
  keys.insert("nrc-2007");
  for (const Source& source : bibliography()) {
    if (keys.contains(source.key)) {
      section.sentences.push_back("- " + source_in_words(source));
    }
  }
  return section;
}

}  // namespace haymow
