// Facts into sentences: the only place with English about results. Numbers are
// rounded here and nowhere before.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "feeds/plain_text.h"
#include "model/explanation.h"
#include "model/no_ration.h"
#include "scenarios/report.h"
#include "solver/exact.h"

namespace haymow {

class Wording {
 public:
  Wording(Units units, std::string money_code) : units_(units), money_(std::move(money_code)) {}

  /// "9.3 kg", "40 g"; in US units "20.5 lb", "1.4 oz".
  [[nodiscard]] std::string mass(double kg) const;
  /// The same to the gram, so that parts add up: "2.85 kg", "133 g"; in US units to
  /// the hundredth of a pound or the tenth of an ounce.
  [[nodiscard]] std::string weighed(double kg) const;
  /// "4.12" or, for small sums, two figures: "0.0031".
  [[nodiscard]] static std::string money(double amount);
  /// "4.12 GBP".
  [[nodiscard]] std::string money_with_code(double amount) const;
  [[nodiscard]] const std::string& code() const { return money_; }
  /// A share, 0 to 1, to three figures: "5 %", "12.5 %".
  [[nodiscard]] static std::string percent(double share);
  /// A price a kilogram, or a pound in US units: "0.38 a kg".
  [[nodiscard]] std::string price(double per_kg) const;
  /// Money a kilogram as money a kilogram, or a pound in US units.
  [[nodiscard]] double per_mass(Money per_kg) const;
  /// What stands behind such a sum: " a kg" or " a lb".
  [[nodiscard]] std::string_view a_mass() const { return units_ == Units::us ? " a lb" : " a kg"; }
  /// A number with its unit, rounded for reading: "98.6 MJ", "1.5 % of bodyweight".
  [[nodiscard]] std::string quantity(double value, std::string_view unit) const;

  /// What a row asks: "energy at least 98.6 MJ", "forage at least 8.1 kg dry matter".
  [[nodiscard]] std::string demand(const RowMeaning& row) const;
  /// Its short name: "energy", "the forage floor".
  [[nodiscard]] static std::string subject(const RowMeaning& row);

  [[nodiscard]] std::string held(const HeldLimit& limit) const;
  [[nodiscard]] std::string worth(const FeedWorth& worth, const RationQuestion& question,
                                  const Formulation& formulation) const;
  [[nodiscard]] std::string entry(const EntryPrice& entry, const RationQuestion& question) const;
  /// What solving a ration again in fractions came to; and that so many other spells
  /// of a season with grass were confirmed too.
  [[nodiscard]] std::string exact(const ExactCheck& check, std::size_t other_spells = 0) const;
  /// The same of demands that clash.
  [[nodiscard]] std::string exact_clash(const ExactCheck& check) const;
  /// Why there is no ration, one fact or what follows from it a sentence; where no
  /// chain could be told, the demands that clash.
  [[nodiscard]] std::vector<std::string> clash(const NoRation& no, const Horse& horse,
                                               const std::vector<Offer>& offers) const;
  [[nodiscard]] std::string mend(const Mend& mend) const;
  /// "forage at least 1.41 % of bodyweight instead of 1.5 % of bodyweight".
  [[nodiscard]] std::string change(const Mend& mend) const;
  [[nodiscard]] std::string miss(const Broken& broken) const;

 private:
  Units units_;
  std::string money_;
};

/// Two or three figures, no trailing zeros beyond what the size asks for.
[[nodiscard]] std::string rounded(double value);
[[nodiscard]] std::string capitalised(std::string text);

/// The cautions every ration ends with, and when to stop and ask.
[[nodiscard]] std::vector<std::string> cautions();
[[nodiscard]] std::vector<std::string> when_to_ask();
/// Why the tool will not plan for this horse.
[[nodiscard]] std::vector<std::string> refusal(const Horse& horse);

}  // namespace haymow
