// Between the merchant's weighbridge and the horse: what is lost in the stack and
// under the feeder, and the one formula that turns what is eaten into what has to
// be put out and bought. Published losses only; not what a horse needs.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "model/units.h"

namespace haymow {

/// What was lost in a published trial, as shares from 0 to 1.
struct LossRange {
  double least = 0.0;
  double most = 0.0;
};

/// What horses ate in the same trial, per cent of bodyweight a day.
struct IntakeRange {
  double least_percent = 0.0;
  double most_percent = 0.0;
};

/// A way to feed forage, or to keep it, and what is lost by it.
struct HandlingWay {
  std::string_view words;  // as a scenario file has them: "hay rack"
  LossRange loss;
  std::optional<IntakeRange> intake;
  std::string_view source;

  /// The share to plan with: the heavier end, so that the barn lasts and the
  /// cost is not understated.
  [[nodiscard]] double planned() const { return loss.most; }
};

/// Ways to feed long forage: the share of what is put out that is not eaten.
[[nodiscard]] std::span<const HandlingWay> ways_to_feed();
/// Ways to keep baled forage: the share of the dry matter lost in 9 to 12 months.
[[nodiscard]] std::span<const HandlingWay> ways_to_store();
/// The way of that name, letter case ignored; null when there is none.
[[nodiscard]] const HandlingWay* way_named(std::string_view words,
                                           std::span<const HandlingWay> ways);
[[nodiscard]] std::vector<std::string> words_of(std::span<const HandlingWay> ways);

/// Below this a published intake leaves a horse short of forage: the floor of
/// 1.5 % of bodyweight that the rules have.
inline constexpr double least_forage_percent = 1.5;
/// True for a way by which horses ate less than the forage they need.
[[nodiscard]] bool starves(const HandlingWay& way);

/// What is lost of a feed on its way to the horse; shares from 0 to below 1.
struct Losses {
  double storage = 0.0;  // of what is bought or stacked, before it is put out
  double soaking = 0.0;  // of the dry matter weighed out, washed out by soaking hay
  double feeding = 0.0;  // of what is put before the horse, not eaten

  /// Of a kilogram put on the scale, what is eaten.
  [[nodiscard]] double eaten_of_put_out() const { return (1.0 - soaking) * (1.0 - feeding); }
  /// Of a kilogram bought or stacked, what is eaten.
  [[nodiscard]] double eaten_of_bought() const { return (1.0 - storage) * eaten_of_put_out(); }
};

/// What has to be bought or stacked for horses that eat `eaten_a_day` together:
/// kg a day x days / ((1 - storage loss) (1 - soaking loss) (1 - feeding waste)).
[[nodiscard]] KgAsFed to_buy(KgAsFed eaten_a_day, Days days, const Losses& losses);

}  // namespace haymow
