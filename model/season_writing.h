// Private to the season's program: what is being written, and what all its parts ask.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/season_program.h"

namespace haymow {

/// "w3" of the third week.
[[nodiscard]] std::string week_name(std::size_t week);
/// "w3" or "w3-w7".
[[nodiscard]] std::string spell_name(const Spell& spell);

struct SeasonWriting {
  const SeasonQuestion& question;
  const SeasonParts& parts;
  const SeasonChoices& choices;
  ImpliedRows implied = ImpliedRows::keep;
  std::vector<std::string> herd_names;
  SeasonProgram out;

  [[nodiscard]] std::size_t weeks() const { return question.weeks.size(); }
  [[nodiscard]] std::size_t offers() const { return question.offers.size(); }
  [[nodiscard]] std::size_t ration_index(std::size_t herd, const Spell& spell) const;
  [[nodiscard]] const RationQuestion& ration(std::size_t herd, const Spell& spell) const;
  /// "Fern/oats/w3".
  [[nodiscard]] std::string place(std::size_t herd, std::size_t offer, const RationQuestion& asked,
                                  const Spell& spell) const;
  [[nodiscard]] OpenPack open_pack(std::size_t offer, std::size_t week) const;
  /// What has to be opened where no pack may be older than it keeps, kg.
  [[nodiscard]] double opened_kg(std::size_t offer, std::size_t week) const;
  /// What the herds are given of a feed in a week, kg put out.
  [[nodiscard]] std::vector<Term> put_out(std::size_t offer, std::size_t week, double sign) const;

  void add(Row row, SeasonRow meaning);
};

void write_yard_rows(SeasonWriting& writing);
void write_open_packs(SeasonWriting& writing);
void write_herd_rows(SeasonWriting& writing, std::size_t herd);

}  // namespace haymow
