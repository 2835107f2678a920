// Rows of one herd: its ration in every spell, and how fast its feeds may change.
#include <fmt/format.h>

#include <utility>

#include "model/change_plan.h"
#include "model/change_step.h"
#include "model/season_supply.h"
#include "model/season_writing.h"

namespace haymow {
namespace {

class HerdRows {
 public:
  explicit HerdRows(SeasonWriting& writing) : in_(writing) {}

  void rations(std::size_t h) {
    const double size = in_.parts.herds[h].size;
    for (std::size_t s = 0; s < in_.out.spells[h].size(); ++s) {
      const Spell& spell = in_.out.spells[h][s];
      const std::size_t index = in_.ration_index(h, spell);
      const LinearProgram& alone = in_.parts.formulations[index].program;
      for (std::size_t i = 0; i < alone.rows().size(); ++i) {
        if (in_.implied == ImpliedRows::leave_out && in_.parts.implied[index][i]) continue;
        Row row = alone.rows()[i];
        row.name = fmt::format("{}/{}/{}", in_.herd_names[h], row.name, spell_name(spell));
        row.lower *= size;
        row.upper *= size;
        for (Term& t : row.terms) t.column += in_.out.eat[h][s];
        in_.add(std::move(row),
                {.kind = SeasonRowKind::ration, .week = spell.first, .herd = h, .row = i});
      }
    }
  }

  void changes(std::size_t h) {
    for (std::size_t s = 0; s < in_.out.spells[h].size(); ++s) {
      if (in_.out.up[h][s] < 0) continue;
      rises(h, s);
      new_share(h, s);
      concentrates(h, s);
    }
  }

 private:
  void rises(std::size_t h, std::size_t s) {
    const Spell& spell = in_.out.spells[h][s];
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      const int feed = static_cast<int>(f);
      Row row{"rise/" + in_.place(h, f, in_.ration(h, spell), spell),
              -unlimited,
              0.0,
              {{in_.out.eat[h][s] + feed, 1.0}, {in_.out.up[h][s] + feed, -1.0}}};
      if (s > 0) {
        row.terms.push_back({in_.out.eat[h][s - 1] + feed, -1.0});
      } else {
        for (const std::size_t horse : in_.parts.herds[h].horses) {
          row.upper += (*in_.question.horses[horse].fed_before)[f];
        }
      }
      in_.add(std::move(row),
              {.kind = SeasonRowKind::rise, .week = spell.first, .offer = f, .herd = h});
    }
  }

  void new_share(std::size_t h, std::size_t s) {
    const Spell& spell = in_.out.spells[h][s];
    const double share = days_to_change(in_.question, spell.first) / change_days(h, spell);
    if (share >= 1.0) return;
    const RationQuestion& asked = in_.ration(h, spell);
    Row row{fmt::format("change/{}/{}", in_.herd_names[h], spell_name(spell)), -unlimited, 0.0, {}};
    for (std::size_t f = 0; f < asked.offers.size(); ++f) {
      const double dry = asked.offers[f].feed.dry_matter_share();
      const int feed = static_cast<int>(f);
      row.terms.push_back({in_.out.eat[h][s] + feed, -share * dry});
      if (f < in_.offers()) row.terms.push_back({in_.out.up[h][s] + feed, dry});
    }
    in_.add(std::move(row), {.kind = SeasonRowKind::change, .week = spell.first, .herd = h});
  }

  void concentrates(std::size_t h, std::size_t s) {
    const Spell& spell = in_.out.spells[h][s];
    const RationQuestion& asked = in_.ration(h, spell);
    const auto horses = static_cast<double>(in_.parts.herds[h].horses.size());
    Row row{fmt::format("concentrates added/{}/{}", in_.herd_names[h], spell_name(spell)),
            -unlimited,
            horses * most_added_a_day_kg * days_to_change(in_.question, spell.first) *
                usual_change_days / change_days(h, spell),
            {}};
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      if (!is_concentrate(asked, f)) continue;
      row.terms.push_back({in_.out.up[h][s] + static_cast<int>(f),
                           1.0 / asked.offers[f].losses().eaten_of_put_out()});
    }
    if (row.terms.empty()) return;
    in_.add(std::move(row),
            {.kind = SeasonRowKind::concentrates_added, .week = spell.first, .herd = h});
  }

  // How long a whole change takes.
  [[nodiscard]] double change_days(std::size_t h, const Spell& spell) const {
    const auto& days = in_.question.horses[in_.parts.herds[h].horses.front()].change_days;
    return days.empty() ? usual_change_days : days[spell.first];
  }

  SeasonWriting& in_;
};

}  // namespace

void write_herd_rows(SeasonWriting& writing, std::size_t herd) {
  HerdRows rows(writing);
  rows.rations(herd);
  rows.changes(herd);
}

}  // namespace haymow
