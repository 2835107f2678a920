#include "model/season_start.h"

#include <algorithm>
#include <utility>

namespace haymow {
namespace {

class Start {
 public:
  Start(const SeasonQuestion& question, const SeasonParts& parts, const SeasonProgram& weekly,
        const SpellAnswer& answer)
      : question_(question), parts_(parts), weekly_(weekly), answer_(answer) {}

  std::optional<Basis> basis() {
    if (!answer_.solution.basis) return std::nullopt;
    out_.columns.assign(weekly_.program.columns().size(), BasisStatus::at_lower);
    out_.rows.assign(weekly_.rows.size(), BasisStatus::basic);
    const auto& known = answer_.solution.basis->columns;
    std::copy_n(known.begin(), weekly_.yard_columns, out_.columns.begin());
    for (std::size_t h = 0; h < weekly_.eat.size(); ++h) {
      for (std::size_t s = 0; s < answer_.program.spells[h].size(); ++s) feeds(h, s);
    }
    return rows() ? std::optional(std::move(out_)) : std::nullopt;
  }

 private:
  [[nodiscard]] std::size_t ration(std::size_t h, std::size_t week) const {
    return question_.horses[parts_.herds[h].horses.front()].ration_of_week[week];
  }

  void feeds(std::size_t h, std::size_t s) {
    const auto& known = answer_.solution.basis->columns;
    const Spell& spell = answer_.program.spells[h][s];
    const std::size_t count = question_.rations[ration(h, spell.first)].offers.size();
    std::copy_n(known.begin() + answer_.program.eat[h][s], count,
                out_.columns.begin() + weekly_.eat[h][spell.first]);
    if (answer_.program.up[h][s] >= 0) {
      std::copy_n(known.begin() + answer_.program.up[h][s], question_.offers.size(),
                  out_.columns.begin() + weekly_.up[h][spell.first]);
    }
    for (std::size_t w = spell.first + 1; w <= spell.last; ++w) {
      std::fill_n(out_.columns.begin() + weekly_.eat[h][w], count, BasisStatus::basic);
    }
  }

  // The rows of both programs come in one order; those of the spells are fewer.
  bool rows() {
    const auto& known = answer_.solution.basis->rows;
    std::size_t next = 0;
    std::optional<SeasonRow> held;  // grass is held by one of its own rows
    for (std::size_t i = 0; i < weekly_.rows.size(); ++i) {
      const SeasonRow& row = weekly_.rows[i];
      if (next < known.size() && row == answer_.program.rows[next]) {
        out_.rows[i] = known[next++];
      } else if (row.kind == SeasonRowKind::rise) {
        out_.rows[i] = BasisStatus::at_upper;
      } else if (row.kind == SeasonRowKind::ration && is_grass(row) &&
                 !(held && held->herd == row.herd && held->week == row.week)) {
        held = row;
        const bool below = weekly_.program.rows()[i].upper == unlimited;
        out_.rows[i] = below ? BasisStatus::at_lower : BasisStatus::at_upper;
      }
    }
    return next == known.size();
  }

  [[nodiscard]] bool is_grass(const SeasonRow& row) const {
    const Formulation& formulation = parts_.formulations[ration(row.herd, row.week)];
    return formulation.rows[row.row].family == RowFamily::grazing;
  }

  const SeasonQuestion& question_;
  const SeasonParts& parts_;
  const SeasonProgram& weekly_;
  const SpellAnswer& answer_;
  Basis out_;
};

}  // namespace

std::optional<Basis> weekly_start(const SeasonQuestion& question, const SeasonParts& parts,
                                  const SeasonProgram& weekly, const SpellAnswer& answer) {
  return Start(question, parts, weekly, answer).basis();
}

}  // namespace haymow
