// How feed is sold and stored: "12.40 per 20 kg bag", "140 bales of 18 kg",
// "100 g per 500 kg". A pack whose weight is not written stays without one; the
// reader of the file decides what may be assumed.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "feeds/quantity.h"

namespace haymow {

/// An amount of feed by weight, by volume, or in packs of unknown weight.
/// One of `kg`, `litres` and `packs` is set.
struct Measure {
  std::optional<double> kg;
  std::optional<double> litres;
  std::optional<double> packs;
  std::string pack;                   // "bale", "quadrant bale"; empty when sold loose
  std::optional<double> kg_per_pack;  // where the pack's weight is written
};

struct Price {
  double money = 0.0;  // for all of `measure`
  Measure measure;
};

/// "4.50 per bale", "12.40 per 20 kg bag", "180 per tonne", "18 per 5 l". Zero is
/// a price; a currency is not part of it.
[[nodiscard]] Reading<Price> read_price(std::string_view text);
/// What it costs to bring: "35 per load of 2 t", "1.20 per bale", "18 per tonne".
[[nodiscard]] Reading<Price> read_delivery(std::string_view text);

/// "140 bales of 18 kg", "3 bags", "2.5 t", "40 l". Zero is a stock.
[[nodiscard]] Reading<Measure> read_stock(std::string_view text);

/// One pack: "20 kg bag", "round bale", "bale of 18 kg".
[[nodiscard]] Reading<Measure> read_pack(std::string_view text);

/// The most a day: an amount, and the bodyweight it is for where one is written.
struct DailyAmount {
  double kg = 0.0;
  std::optional<double> per_kg_bodyweight;
};
/// "100 g" or "100 g per 500 kg".
[[nodiscard]] Reading<DailyAmount> read_daily_amount(std::string_view text);

}  // namespace haymow
