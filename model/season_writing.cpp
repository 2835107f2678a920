#include "model/season_writing.h"

#include <fmt/format.h>

#include <utility>

#include "model/season_supply.h"

namespace haymow {

std::string week_name(std::size_t week) { return fmt::format("w{}", week + 1); }

std::string spell_name(const Spell& spell) {
  return spell.first == spell.last ? week_name(spell.first)
                                   : week_name(spell.first) + "-" + week_name(spell.last);
}

std::size_t SeasonWriting::ration_index(std::size_t herd, const Spell& spell) const {
  const std::size_t horse = parts.herds[herd].horses.front();
  return question.horses[horse].ration_of_week[spell.first];
}

const RationQuestion& SeasonWriting::ration(std::size_t herd, const Spell& spell) const {
  return question.rations[ration_index(herd, spell)];
}

std::string SeasonWriting::place(std::size_t herd, std::size_t offer, const RationQuestion& asked,
                                 const Spell& spell) const {
  return fmt::format("{}/{}/{}", herd_names[herd], asked.offers[offer].name, spell_name(spell));
}

OpenPack SeasonWriting::open_pack(std::size_t offer, std::size_t week) const {
  return choices.open_packs.empty() ? OpenPack::any : choices.open_packs[offer][week];
}

double SeasonWriting::opened_kg(std::size_t offer, std::size_t week) const {
  return open_pack(offer, week) == OpenPack::in_time ? opened_in_time_kg(question, offer, week)
                                                     : 0.0;
}

std::vector<Term> SeasonWriting::put_out(std::size_t offer, std::size_t week, double sign) const {
  std::vector<Term> terms;
  const double a_day =
      question.weeks[week].days / question.offers[offer].losses().eaten_of_put_out();
  for (std::size_t h = 0; h < parts.herds.size(); ++h) {
    for (std::size_t s = 0; s < out.spells[h].size(); ++s) {
      if (out.spells[h][s].first > week || out.spells[h][s].last < week) continue;
      terms.push_back({out.eat[h][s] + static_cast<int>(offer), sign * a_day});
    }
  }
  return terms;
}

void SeasonWriting::add(Row row, SeasonRow meaning) {
  out.program.add_row(std::move(row));
  out.rows.push_back(meaning);
}

}  // namespace haymow
