#include "scenarios/report_own_feeds.h"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "scenarios/report_json_parts.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

/// The nutrients of a feed by whose figures they are.
struct Shares {
  std::vector<Nutrient> laboratory;
  std::vector<Nutrient> label;
  std::vector<Nutrient> worked_out;
  std::vector<Nutrient> taken_over;

  [[nodiscard]] bool has_own() const {
    return !laboratory.empty() || !label.empty() || !worked_out.empty();
  }
};

Shares shares_of(const Feed& feed) {
  Shares shares;
  for (const Nutrient n : all_nutrients()) {
    const auto& figure = feed.composition[n];
    if (!figure) continue;
    if (figure->origin == FigureOrigin::laboratory) {
      shares.laboratory.push_back(n);
    } else if (figure->origin == FigureOrigin::label) {
      shares.label.push_back(n);
    } else if (!figure->how.empty()) {
      shares.worked_out.push_back(n);
    } else if (feed.is_taken_over(*figure)) {
      shares.taken_over.push_back(n);
    }
  }
  return shares;
}

std::string figures(std::size_t count) {
  return fmt::format("{} figure{}", count, count == 1 ? "" : "s");
}

}  // namespace

Section own_feeds(const Scenario& scenario) {
  Section section{"Where the figures of your own feeds come from", {}, {}};
  for (const Offer& offer : scenario.stable.offers) {
    const Shares shares = shares_of(offer.feed);
    if (!shares.has_own()) continue;
    std::vector<std::string> parts;
    if (!shares.laboratory.empty()) {
      parts.push_back(figures(shares.laboratory.size()) + " from the laboratory");
    }
    if (!shares.label.empty()) parts.push_back(figures(shares.label.size()) + " from the label");
    if (!shares.worked_out.empty()) {
      std::vector<std::string> names;
      for (const Nutrient n : shares.worked_out) names.emplace_back(traits_of(n).name);
      parts.push_back(listed(names) + " worked out");
    }
    if (!shares.taken_over.empty()) {
      parts.push_back(
          fmt::format("{} taken over from {}", shares.taken_over.size(), offer.feed.based_on));
    }
    section.sentences.push_back(fmt::format("- {}: {}.", offer.name, listed(parts)));
  }
  if (!section.sentences.empty()) {
    section.sentences.emplace_back("`haymow feeds --explain NAME --in FILE` shows each figure.");
  }
  return section;
}

Json own_feeds_json(const Scenario& scenario) {
  Json out = Json::array();
  for (const Offer& offer : scenario.stable.offers) {
    const Shares shares = shares_of(offer.feed);
    if (!shares.has_own()) continue;
    const std::string& base = offer.feed.based_on;
    out.push_back({{"feed", offer.name},
                   {"based_on", base.empty() ? Json(nullptr) : Json(base)},
                   {"from_laboratory", keys_of(shares.laboratory)},
                   {"from_label", keys_of(shares.label)},
                   {"worked_out", keys_of(shares.worked_out)},
                   {"taken_over", keys_of(shares.taken_over)}});
  }
  return out;
}

}  // namespace haymow
