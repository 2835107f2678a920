#include "scenarios/price_list.h"

#include <fmt/format.h>

#include <array>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "feeds/source_text.h"
#include "scenarios/scenario_energy.h"
#include "scenarios/scenario_offers.h"

namespace haymow {
namespace {

constexpr std::array<std::string_view, 2> price_list_keys{"money", "market"};

// Prices of two currencies cannot be compared, so the list says which it has.
void check_money(const MapReader& list, const std::string& wanted, Findings& findings) {
  const YamlEntry* entry =
      list.need("money", fmt::format("write the currency of the yard: `money: {}`", wanted));
  if (entry == nullptr) return;
  const auto text = text_of(entry->value, "`money`", findings);
  if (!text || *text == wanted) return;
  findings.error(entry->value.span,
                 {fmt::format("the prices are in `{}`, those of the yard in `{}`", *text, wanted),
                  fmt::format("write the prices in {0}, and `money: {0}`", wanted), ""});
}

// The yard keeps its own forage beside what the merchant sells.
void check_names(const std::vector<Offer>& listed, const Scenario& scenario, Findings& findings) {
  for (const Offer& offer : listed) {
    for (const Offer& own : scenario.stable.offers) {
      if (!own.own || !same_text(own.name, offer.name)) continue;
      findings.error(
          {offer.position, 1},
          {fmt::format("`{}` is also the yard's own forage", offer.name),
           "give it another `name` here",
           fmt::format("the yard's own is in {}:{}", own.position.file, own.position.line)});
    }
  }
}

}  // namespace

PriceList read_price_list(std::string_view text, const std::string& file,
                          const Scenario& scenario) {
  Findings findings(without_byte_order_mark(text), file);
  const YamlNode root = read_yaml(findings);
  if (root.kind == YamlKind::nothing) {
    findings.throw_if_any();
    findings.error({{file, 0, 0}, 1},
                   {"the price list has no entries",
                    "write `money: GBP`, `market:` and below it `  - feed: ...`", ""});
    findings.throw_if_any();
  }
  PriceList list;
  const MapReader keys(root, "a price list", price_list_keys, findings);
  check_money(keys, scenario.stable.money, findings);
  const YamlEntry* market = keys.need("market", "write `market:` and below it `  - feed: ...`");
  if (market != nullptr) {
    const SeasonStart season{scenario.from, scenario.until, scenario.from.has_value()};
    std::vector<EnergyGap> gaps;
    read_offers(market->value, false, season, list.offers, gaps, findings);
    fill_energy(list.offers, gaps, std::nullopt, findings);
    check_names(list.offers, scenario, findings);
  }
  findings.throw_if_any();
  list.remarks = findings.remarks();
  // Reports name the line alone, which is one of the scenario unless said.
  for (Diagnostic& remark : list.remarks) remark.message = file + ": " + remark.message;
  return list;
}

}  // namespace haymow
