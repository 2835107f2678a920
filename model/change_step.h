// One step of a change of ration: amounts near a mixture of today's ration and the
// new one, in whole steps of the scale, rounded so that no limit is broken that
// both keep, and with whatever breaks a limit today cut as far as is safe.
#pragma once

#include <optional>
#include <vector>

#include "model/formulate.h"

namespace haymow {

/// What a change of ration starts from and leads to. Amounts are kg as fed eaten
/// a day, one an offer of the question.
struct Changeover {
  RationQuestion question;  // offers: all feeds of both rations; no wishes, no stock
  Formulation formulation;  // of that question
  std::vector<double> now;
  std::vector<double> then;
};

/// Bucket feed that is no forage for this horse: what a change has to raise slowly.
[[nodiscard]] bool is_concentrate(const Changeover& change, std::size_t offer);

/// What the scale shows for `eaten` kg of an offer: waste included.
[[nodiscard]] double put_out_kg(const Changeover& change, std::size_t offer, double eaten);

/// Concentrates put out at `to` beyond what was put out at `from`, kg as fed.
[[nodiscard]] double concentrates_added_kg(const Changeover& change,
                                           const std::vector<double>& from,
                                           const std::vector<double>& to);

/// True when `amounts` break row `i` of the formulation. A share of nothing is
/// judged by the row as multiplied out, which says more than `kept` does.
[[nodiscard]] bool breaks(const Changeover& change, std::size_t i,
                          const std::vector<double>& amounts);

/// Concentrates rise by no more than this from one day to the next, all together,
/// as put out. Sources differ: one page says 250 g a day, another half a pound
/// (230 g) in five days, which would make two months of 2.5 kg. The first is taken
/// as the most of any single day, and not as an average.
inline constexpr double most_added_a_day_kg = 0.25;

/// Energy of a step is no less than this share of what the plain mixture or the
/// need gives, whichever is less: trials on fat ponies found 60 to 80 % of
/// maintenance safe for months. So a concentrate is not cut to nothing at once.
inline constexpr double least_energy_share = 0.8;
/// The same for mares in foal or in milk, and under 300 kg: ponies and mares that get
/// much less at once may fall ill with fat in the blood ("never cut suddenly", a vet
/// practice's page on hyperlipaemia; the weight and the share: common practice, no source).
inline constexpr double least_energy_share_delicate = 0.95;
inline constexpr Bodyweight delicate_below{300.0};

/// The amounts at `share` (0 to 1) of the way, each within one scale step of the
/// mixture, or `widen` more; a falling concentrate may be lower. Nothing when no
/// amounts in whole scale steps will do. `previous`: the step before.
[[nodiscard]] std::optional<std::vector<double>> amounts_at(const Changeover& change, double share,
                                                            const std::vector<double>& previous,
                                                            int widen);

}  // namespace haymow
