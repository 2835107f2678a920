#include "feeds/trade_terms.h"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "feeds/bale_sizes.h"
#include "feeds/map_reader.h"
#include "feeds/plain_text.h"

namespace haymow {
namespace {

constexpr std::string_view price_help =
    "write a price such as `4.50 per bale`, `12.40 per 20 kg bag` or `180 per tonne`";
constexpr std::string_view stock_help =
    "write a stock such as `140 bales of 18 kg`, `3 bags of 20 kg` or `2.5 t`";

constexpr std::string_view delivery_help =
    "write what a delivery costs and what it brings, such as `35 per load of 2 t`";

constexpr std::string_view pack_help =
    "write one pack, such as `20 kg bag` or `round bale of 300 kg`, or `loose`";

constexpr std::array packs{"bag", "sack", "tub", "bucket", "can", "net", "load", "bulk bag"};

/// The singular of a pack word: "bales" is "bale". A bale may have its size.
std::optional<std::string> pack_named(std::string_view word) {
  for (const std::string_view pack : packs) {
    if (same_text(word, pack) || same_text(word, std::string(pack) + "s")) {
      return std::string(pack);
    }
  }
  return bale_named(word);
}

bool is_litre(std::string_view word) {
  return same_text(word, "l") || same_text(word, "litre") || same_text(word, "litres");
}

/// "kg quadrant bale" is "kg" and the pack "quadrant bale"; absent without a pack.
std::optional<std::pair<std::string_view, std::string>> split_pack(std::string_view words) {
  for (std::size_t blank = words.find(' '); blank != std::string_view::npos;
       blank = words.find(' ', blank + 1)) {
    if (auto pack = pack_named(words.substr(blank + 1))) {
      return std::pair{words.substr(0, blank), std::move(*pack)};
    }
  }
  return std::nullopt;
}

/// "4x5 round bale of 320 kg": what starts with a digit and is a pack all the same.
bool starts_with_bale_size(std::string_view text) {
  return bale_named(text.substr(0, text.find(" of "))).has_value();
}

Complaint unknown_pack(std::string_view words) {
  const std::string_view pack = words.substr(0, words.find(" of "));
  if (pack.ends_with(" bale") || pack.ends_with(" bales")) {
    const std::string near = suggestion(pack, bale_names());
    return {fmt::format("`{}` is not a size of bale haymow knows", pack),
            near.empty() ? "known are " + listed(bale_names()) +
                               "; for another write what it weighs, such as `35 per 350 kg bale`"
                         : near,
            ""};
  }
  return {fmt::format("`{}` is neither a weight nor a pack haymow knows (bale, bag, sack, tub, "
                      "bucket, can, net, load, bulk bag)",
                      words),
          "", ""};
}

/// `count` times what `words` say: "kg", "kg bag", "l", "bale", "bales of 18 kg".
Reading<Measure> measure_of(double count, std::string_view number_text, std::string_view words) {
  Measure measure;
  if (const auto factor = factor_of(words, feed_amount())) {
    measure.kg = count * *factor;
    return Reading<Measure>::of(measure);
  }
  if (is_litre(words)) {
    measure.litres = count;
    return Reading<Measure>::of(measure);
  }
  if (const auto pack = pack_named(words)) {
    measure.packs = count;
    measure.pack = *pack;
    return Reading<Measure>::of(measure);
  }
  if (const std::size_t of = words.find(" of "); of != std::string_view::npos) {
    const auto pack = pack_named(words.substr(0, of));
    Reading<double> each = read_amount(words.substr(of + 4), feed_amount(), Sign::positive);
    if (pack && each.complaint) return Reading<Measure>::refused(std::move(*each.complaint));
    if (pack) {
      measure.pack = *pack;
      measure.kg_per_pack = *each.value;
      measure.kg = count * *each.value;
      return Reading<Measure>::of(measure);
    }
  }
  if (const auto split = split_pack(words)) {
    Reading<Measure> content = measure_of(count, number_text, split->first);
    if (content.value && content.value->pack.empty()) {
      content.value->pack = split->second;
      content.value->kg_per_pack = content.value->kg;
      return content;
    }
  }
  if (same_text(words, "ton") || same_text(words, "tons")) {
    return Reading<Measure>::refused(unit_complaint(number_text, words, feed_amount()));
  }
  return Reading<Measure>::refused(unknown_pack(words));
}

/// "12 80x90 bales" is 12 of them: two numbers side by side are no slip here.
Reading<NumberAndRest> read_count(std::string_view text) {
  const std::size_t blank = text.find(' ');
  if (blank != std::string_view::npos && starts_with_bale_size(text.substr(blank + 1))) {
    Reading<NumberAndRest> count = read_leading_number(text.substr(0, blank));
    if (count.value) count.value->rest = text.substr(blank + 1);
    return count;
  }
  return read_leading_number(text);
}

/// A number at the start is the count; without one it is `count_if_silent`.
Reading<Measure> read_measure(std::string_view text, std::optional<double> count_if_silent,
                              std::string_view help) {
  const bool number_first = !text.empty() && ((text[0] >= '0' && text[0] <= '9') ||
                                              text[0] == '-' || text[0] == '+' || text[0] == '.');
  const bool silent = !text.empty() && (!number_first || starts_with_bale_size(text));
  Reading<Measure> measure;
  if (silent && count_if_silent) {
    measure = measure_of(*count_if_silent, "1", text);
    if (measure.complaint && (same_text(text, "ton") || same_text(text, "tons"))) {
      measure.complaint->help = "write `per tonne` or `per short ton`";
    }
  } else {
    Reading<NumberAndRest> leading = read_count(text);
    if (leading.complaint) {
      measure.complaint = std::move(leading.complaint);
    } else if (auto complaint =
                   sign_complaint(leading.value->number, text,
                                  count_if_silent ? Sign::positive : Sign::not_negative)) {
      measure.complaint = std::move(complaint);
    } else if (leading.value->rest.empty()) {
      measure.complaint = Complaint{fmt::format("`{}` has no unit", text), "", ""};
    } else {
      measure = measure_of(leading.value->number, leading.value->number_text, leading.value->rest);
    }
  }
  if (measure.complaint && measure.complaint->help.empty()) {
    measure.complaint->help = std::string(help);
  }
  return measure;
}

/// A price that starts or goes on with a currency instead of a plain number.
std::optional<Complaint> currency_complaint(std::string_view text) {
  const std::size_t first = text.find_first_of("0123456789");
  if (first == std::string_view::npos) return std::nullopt;
  const std::string_view before = trimmed(text.substr(0, first));
  const std::size_t end = text.find_first_not_of("0123456789.,", first);
  const std::string_view number = text.substr(first, end - first);
  const std::string_view behind =
      end == std::string_view::npos ? std::string_view{} : trimmed(text.substr(end));
  const std::size_t per = behind.find("per ");
  const std::string_view between = trimmed(behind.substr(0, per));
  const bool sign_before = before.find_first_not_of("-+.") != std::string_view::npos;
  if (!sign_before && (per == std::string_view::npos || between.empty())) return std::nullopt;
  std::string rest = "per kg";
  if (per != std::string_view::npos) rest = behind.substr(per);
  if (!behind.empty() && behind.front() == '/') rest = "per " + std::string(behind.substr(1));
  return Complaint{
      fmt::format("`{}` stands beside the number; a price is a number and what it is for",
                  sign_before ? before : between),
      fmt::format("write `{} {}`; the currency stands once, under `money`", number, rest), ""};
}

Reading<Price> read_money_for(std::string_view text, std::string_view help) {
  const std::string spaced = single_spaced(text);
  if (auto complaint = currency_complaint(spaced)) {
    return Reading<Price>::refused(std::move(*complaint));
  }
  Reading<NumberAndRest> leading = read_leading_number(spaced);
  if (leading.complaint) {
    if (leading.complaint->help.empty()) leading.complaint->help = std::string(help);
    return Reading<Price>::refused(std::move(*leading.complaint));
  }
  const NumberAndRest& found = *leading.value;
  if (auto complaint = sign_complaint(found.number, spaced, Sign::not_negative)) {
    complaint->help = "write `0 per kg` if it costs nothing";
    return Reading<Price>::refused(std::move(*complaint));
  }
  constexpr std::string_view per = "per ";
  if (found.rest.compare(0, per.size(), per) != 0) {
    return Reading<Price>::refused(
        {fmt::format("`{}` does not say what the price is for", spaced), std::string(help), ""});
  }
  Reading<Measure> measure = read_measure(found.rest.substr(per.size()), 1.0, help);
  if (measure.complaint) return Reading<Price>::refused(std::move(*measure.complaint));
  return Reading<Price>::of({found.number, std::move(*measure.value)});
}

}  // namespace

Reading<Price> read_price(std::string_view text) { return read_money_for(text, price_help); }

Reading<Price> read_delivery(std::string_view text) { return read_money_for(text, delivery_help); }

Reading<Measure> read_stock(std::string_view text) {
  return read_measure(single_spaced(text), std::nullopt, stock_help);
}

Reading<Measure> read_pack(std::string_view text) {
  return read_measure(single_spaced(text), 1.0, pack_help);
}

Reading<DailyAmount> read_daily_amount(std::string_view text) {
  const std::string spaced = single_spaced(text);
  const std::size_t per = spaced.find(" per ");
  Reading<double> amount = read_amount(spaced.substr(0, per), feed_amount(), Sign::positive);
  if (amount.complaint) return Reading<DailyAmount>::refused(std::move(*amount.complaint));
  if (per == std::string::npos) return Reading<DailyAmount>::of({*amount.value, std::nullopt});
  Reading<double> horse = read_amount(spaced.substr(per + 5), weight(), Sign::positive);
  if (horse.complaint) {
    horse.complaint->help =
        "write the most a day, `100 g`, or for a bodyweight, `100 g per 500 kg`";
  }
  if (horse.complaint) return Reading<DailyAmount>::refused(std::move(*horse.complaint));
  return Reading<DailyAmount>::of({*amount.value, *horse.value});
}

}  // namespace haymow
