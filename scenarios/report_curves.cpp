#include "scenarios/report_curves.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scenarios/curve_changes.h"
#include "scenarios/report_limit_curve.h"
#include "scenarios/report_plots.h"

namespace haymow {
namespace {

// Less than half a gram is none, as far as anyone weighs.
constexpr double none_below_kg = 0.0005;
// Of what it is paid, relative: less is not worth a word.
constexpr double least_share_told = 0.05;
constexpr std::size_t most_shares_told = 4;
constexpr std::size_t most_left_out_told = 6;

std::string amount(double kg, const Wording& words) {
  return kg < none_below_kg ? "none" : words.mass(kg);
}

/// A price a kilogram by the pack: "14.20 per 20 kg bag".
class PackPrice {
 public:
  PackPrice(Pack pack, const Wording& words) : pack_(std::move(pack)) {
    if (pack_.words == "kg" && words.a_mass() == " a lb") pack_ = {"lb", KgAsFed{kg_per_lb}};
  }
  [[nodiscard]] std::string bare(Money per_kg) const {
    return Wording::money((pack_.holds.in_kg() * per_kg).in_units());
  }
  [[nodiscard]] std::string operator()(Money per_kg) const { return bare(per_kg) + per(); }
  [[nodiscard]] std::string per() const { return " per " + pack_.words; }

 private:
  Pack pack_;
};

// The charges, largest first, and shares of the payments.
struct PaidFor {
  std::vector<std::string> shares;
  std::vector<std::string> charges;
};

PaidFor paid_for(const PricePath& path) {
  PaidFor out;
  double paid = 0.0;
  for (const Payment& p : path.value->payments) paid += std::max(0.0, p.per_kg);
  for (const Payment& p : path.value->payments) {
    const RowMeaning& row = path.formulation.rows[p.row];
    const double share = p.per_kg / std::max(paid, 1e-12);
    if (share >= least_share_told && out.shares.size() < most_shares_told) {
      out.shares.push_back(fmt::format("{}{} {:.0f} %", row.side == Side::upper ? "room for " : "",
                                       Wording::subject(row), 100.0 * share));
    }
    if (share <= -least_share_told) {
      out.charges.insert(out.charges.begin(), Wording::subject(row));
    }
  }
  if (out.charges.size() > most_shares_told) out.charges.resize(most_shares_told);
  return out;
}

std::string verdict(const PricePath& path, const PackPrice& price, const Wording& words) {
  const Offer& offer = path.offers[path.offer];
  const FeedValue& value = *path.value;
  switch (value.use) {
    case FeedUse::at_any_price:
      return path.amounts_now.empty()
                 ? "Without it there is no ration; with it there is one, whatever it costs."
                 : "No ration does without it, whatever it costs.";
    case FeedUse::at_no_price:
      return "It would not be fed even if it cost nothing.";
    case FeedUse::up_to_a_price:
      break;
  }
  if (path.asked.supposed) {
    return fmt::format("To this horse it is worth up to {} {}{}; for more it is not fed.",
                       price.bare(value.fed_below), words.code(), price.per());
  }
  const std::string now = price.bare(offer.price_per_kg);
  const bool fed = !path.amounts_now.empty() &&
                   offer.put_out(KgAsFed{path.amounts_now[path.offer]}).in_kg() >= none_below_kg;
  return fmt::format("It is {} now; {} {}.", now,
                     fed ? "it stays in the ration up to" : "it enters the ration below",
                     price(value.fed_below));
}

// For a kilogram of the feed, eaten: "0.8 kg barley", put out.
struct WayMade {
  std::vector<std::string> out;
  std::vector<std::string> in;
};

// A kilogram of it, or a pound in US units.
struct MassTold {
  std::string_view name;
  double kg;
};
MassTold unit_of_mass(const Wording& words) {
  return words.a_mass() == " a lb" ? MassTold{"pound", kg_per_lb} : MassTold{"kilogram", 1.0};
}

WayMade way_made(const PricePath& path, const Wording& words) {
  constexpr double least_told = 0.005;  // of a kilogram of the feed; less is of no account
  WayMade way;
  for (const AmountChange& change : path.value->makes_way) {
    if (std::abs(change.by.in_kg()) < least_told) continue;
    const Offer& offer = path.offers[change.offer];
    const double kg = unit_of_mass(words).kg * std::abs(offer.put_out(change.by).in_kg());
    (change.by < KgAsFed{} ? way.out : way.in)
        .push_back(fmt::format("{} {}", words.mass(kg), offer.name));
  }
  return way;
}

std::string makes_way_told(const PricePath& path, const Wording& words) {
  const auto [out, in] = way_made(path, words);
  if (out.empty() && in.empty()) return "";
  const std::string more = in.empty() ? "" : fmt::format("{} more", listed(in));
  if (out.empty()) {
    return fmt::format("Just below that price, a {} of it eaten asks for {}.",
                       unit_of_mass(words).name, more);
  }
  return fmt::format("Just below that price, a {} of it eaten takes the place of {}{}.",
                     unit_of_mass(words).name, listed(out), more.empty() ? "" : ", with " + more);
}

std::string value_told(const PricePath& path, const PackPrice& price, const Wording& words) {
  std::string told = verdict(path, price, words);
  const FeedValue& value = *path.value;
  if (value.use == FeedUse::up_to_a_price) {
    const std::string way = makes_way_told(path, words);
    if (!way.empty()) told += " " + way;
  }
  const PaidFor paid = paid_for(path);
  if (value.use == FeedUse::up_to_a_price && !paid.shares.empty()) {
    told += fmt::format(" It is paid there for {}", listed(paid.shares));
    told += paid.charges.empty() ? "." : fmt::format("; charged for {}.", listed(paid.charges));
  }
  if (value.use == FeedUse::at_no_price) {
    told += paid.charges.empty() ? " Nothing that it brings is short in this ration."
                                 : fmt::format(" What holds it out: {}.", listed(paid.charges));
  }
  return told;
}

std::string step_price(const PricePath& path, std::size_t s, const PackPrice& price) {
  const PriceStep& step = path.steps[s];
  const bool last = s + 1 == path.steps.size();
  const bool none = step.amounts[path.offer] < least_portion.in_kg();
  if (last && none && s > 0) return "above " + price.bare(step.from);
  if (s == 0 && step.from == Money{}) return "up to " + price.bare(step.to);
  return fmt::format("{} to {}", price.bare(step.from), price.bare(step.to));
}

Table price_table(const PricePath& path, const PackPrice& price, const Wording& words) {
  const Offer& offer = path.offers[path.offer];
  Table table;
  table.headings = {words.code() + price.per(), offer.name + " a day", "cost a day"};
  for (std::size_t s = 0; s < path.steps.size(); ++s) {
    const PriceStep& step = path.steps[s];
    const bool now = !path.asked.supposed && step.from <= offer.price_per_kg &&
                     (offer.price_per_kg < step.to || s + 1 == path.steps.size());
    const std::string from = Wording::money(step.cost_from.in_units());
    const std::string to = Wording::money(step.cost_to.in_units());
    table.rows.push_back({step_price(path, s, price) + (now ? " (now)" : ""),
                          amount(offer.put_out(KgAsFed{step.amounts[path.offer]}).in_kg(), words),
                          from == to ? from : fmt::format("{} to {}", from, to)});
  }
  return table;
}

// "- Above 8.30 per 20 kg bag: 1.2 kg of it instead of 2.3 kg; 0.9 kg more barley."
std::string break_told(const PricePath& path, std::size_t s, const PackPrice& price,
                       const Wording& words) {
  const PriceStep& before = path.steps[s - 1];
  const PriceStep& after = path.steps[s];
  const Offer& offer = path.offers[path.offer];
  const double was = offer.put_out(KgAsFed{before.amounts[path.offer]}).in_kg();
  const double is = offer.put_out(KgAsFed{after.amounts[path.offer]}).in_kg();
  const AmountsMoved moved =
      amounts_moved(path.offers, before.amounts, after.amounts, path.offer, words);
  std::string told = fmt::format("- Above {}: ", price(after.from));
  if (is < none_below_kg) {
    told += "it is no longer in the ration";
    if (!moved.more.empty()) told += fmt::format("; {} in its place", listed(moved.more));
  } else if (amount(was, words) == amount(is, words)) {
    told += "a little less of it";
    if (!moved.more.empty()) told += fmt::format("; {} more", listed(moved.more));
  } else {
    told += fmt::format("{} of it instead of {}", amount(is, words), amount(was, words));
    if (!moved.more.empty()) told += fmt::format("; {} more", listed(moved.more));
  }
  if (!moved.less.empty()) told += fmt::format("; {} less", listed(moved.less));
  return told + ".";
}

Section price_section(const PricePath& path, const Wording& words) {
  const Offer& offer = path.offers[path.offer];
  Section section{fmt::format("As the price of {} moves", offer.name), {}, {}};
  if (!path.value) {
    section.sentences.push_back(fmt::format("No ration, with {} or without.", offer.name));
    return section;
  }
  const PackPrice price(path.asked.pack, words);
  section.table = price_table(path, price, words);
  section.sentences.push_back(value_told(path, price, words));
  for (std::size_t s = 1; s < path.steps.size(); ++s) {
    section.sentences.push_back(break_told(path, s, price, words));
  }
  if (offer.delivery_per_kg > Money{}) {
    section.sentences.emplace_back("Prices are those of the feed; its delivery comes on top.");
  }
  return section;
}

std::string in_bucket(const BucketCount& count, const HorseAnswer& answer, const Wording& words) {
  if (!count.practical) return "no ration found";
  std::vector<std::string> feeds;
  for (const Portion& p : count.practical->ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (!offer.feed.is_bucket_feed()) continue;
    feeds.push_back(fmt::format("{} {}", words.mass(p.put_out.in_kg()), offer.name));
  }
  return feeds.empty() ? "nothing" : listed(feeds);
}

// Numbers with which the ration is the same share a line: "3 to 6".
Section counts_section(const LimitPath& path, const HorseAnswer& answer, const Wording& words) {
  Section section{"As the number of bucket feeds grows", Table{}, {}};
  section.table->headings = {"at most", "cost a day", "in the bucket"};
  section.table->last_is_prose = true;
  bool none = false;
  int first = 1;
  std::vector<std::string> last;
  for (const BucketCount& count : path.counts) {
    none |= !count.practical;
    std::vector<std::string> told{
        count.practical ? Wording::money(count.practical->ration.cost.in_units()) : "-",
        in_bucket(count, answer, words)};
    if (told == last) {
      section.table->rows.back()[0] = fmt::format("{} to {}", first, count.most);
      continue;
    }
    first = count.most;
    section.table->rows.push_back({fmt::format("{}", count.most), told[0], told[1]});
    last = std::move(told);
  }
  section.sentences.push_back(fmt::format(
      "Minerals count. Each ration is in whole steps of the scale, keeps every limit and is "
      "certified; the search ends within {} of the best.",
      Wording::percent(practical_gap)));
  if (none) {
    section.sentences.emplace_back(
        "No ration found: none in any steps of the scale, as far as the search went.");
  }
  return section;
}

// "oats: enters below 10.85 per 20 kg bag (11.60 now), a kilogram in the place of 1.4 kg
// cubes; charged for coarse fibre".
std::string left_out_told(const PricePath& path, const Wording& words) {
  const FeedValue& value = *path.value;
  const PackPrice price(path.asked.pack, words);
  const PaidFor paid = paid_for(path);
  std::string told = fmt::format("- {}: ", path.asked.feed);
  if (value.use == FeedUse::at_no_price) {
    return told + (paid.charges.empty()
                       ? "not even as a gift; nothing that it brings is short."
                       : fmt::format("not even as a gift, for {}.", listed(paid.charges)));
  }
  told += fmt::format("enters below {} ({} now)", price(value.fed_below),
                      price.bare(path.offers[path.offer].price_per_kg));
  const std::vector<std::string> out = way_made(path, words).out;
  if (!out.empty())
    told += fmt::format(", a {} in the place of {}", unit_of_mass(words).name, listed(out));
  if (!paid.charges.empty()) told += fmt::format("; charged for {}", listed(paid.charges));
  return told + ".";
}

}  // namespace

std::vector<Section> curve_sections(const HorseAnswer& answer, const HorseCurves& curves,
                                    const CurvesAsked& asked, const Wording& words) {
  std::vector<Section> sections;
  if (answer.status == AnswerStatus::refused || answer.status == AnswerStatus::failed) {
    return sections;
  }
  for (const PricePath& path : curves.prices) {
    sections.push_back(price_section(path, words));
    sections.back().pictures.plots = price_plots(path, words);
  }
  for (const LimitPath& path : curves.limits) {
    if (path.asked.id.empty() && !path.counts.empty()) {
      sections.push_back(counts_section(path, answer, words));
    } else if (path.limit) {
      sections.push_back(limit_curve_section(path, words));
      sections.back().pictures.plots = limit_plots(path, words);
    } else if (!path.asked.id.empty()) {
      sections.push_back({fmt::format("As the limit on {} moves", path.asked.name),
                          {},
                          {"Nothing on offer for this horse comes under such a limit."}});
    }
  }
  if (answer.status == AnswerStatus::none && asked.any()) {
    sections.push_back({"",
                        {},
                        {"With no ration there is no price of a feed on offer and no number of "
                         "bucket feeds to ask about."}});
  }
  return sections;
}

Section left_out_section(const HorseCurves& curves, const Wording& words, bool all) {
  Section section{"What is left out, and why", {}, {}};
  std::size_t untold = 0;
  for (const PricePath& path : curves.unused) {
    if (!path.value || path.value->use == FeedUse::at_any_price) continue;
    if (!all && section.sentences.size() == most_left_out_told) {
      ++untold;
      continue;
    }
    section.sentences.push_back(left_out_told(path, words));
  }
  if (untold > 0) section.sentences.push_back(fmt::format("{} more with -v.", untold));
  return section.sentences.empty() ? Section{} : section;
}

}  // namespace haymow
