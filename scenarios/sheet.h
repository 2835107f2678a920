// The feed-room sheet: what hangs on the wall where the buckets are filled. Less than
// the report, and larger: each horse, each meal, what to soak, who must not have what,
// what changes when; and a list to take to the merchant.
#pragma once

#include <string>
#include <vector>

#include "scenarios/report.h"

namespace haymow {

/// Horses that are fed alike share a row.
struct SheetRow {
  std::vector<std::string> horses;
  std::vector<std::string> forage;                // "late hay 5.4 kg and 5.4 kg"
  std::vector<std::vector<std::string>> buckets;  // one a meal: "600 g oats (1 scoop)"
  std::vector<std::string> mind;                  // what must be minded with this horse
};

struct ToBuy {
  std::string feed;
  std::string amount;  // "14 bags of 20 kg"; in kilograms where no pack is known
  std::string why;     // "needs 265 kg, 40 kg on hand"
  std::string money;
};

struct Sheet {
  std::string title;
  std::string from;                // "from 1 Nov 2026"; empty without a season
  std::vector<std::string> meals;  // headings of the buckets
  std::vector<SheetRow> rows;
  std::vector<std::string> not_fed;  // horses without a ration, and what to do
  Section soaking;
  std::vector<Section> changes;  // who, and a table of dates
  int shopping_days = 0;
  std::vector<ToBuy> to_buy;
  std::string stop;  // when to stop and call the vet
  std::vector<std::string> cautions;
  std::string certificate;
  std::string money;  // ISO 4217 code
};

/// What is bought covers so long, or to the end of the season if that is sooner: what a
/// feed room holds. Common practice, no source.
inline constexpr int usual_shopping_days = 28;

[[nodiscard]] Sheet feed_room_sheet(const Scenario& scenario,
                                    const std::vector<HorseAnswer>& answers, Units units);

/// One HTML file that needs nothing else, for A4 on its side.
[[nodiscard]] std::string write_sheet(const Sheet& sheet);

}  // namespace haymow
