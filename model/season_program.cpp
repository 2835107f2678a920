#include "model/season_program.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>
#include <string>
#include <utility>

#include "model/season_supply.h"
#include "model/season_writing.h"

namespace haymow {
namespace {

std::vector<std::string> herd_names(const SeasonQuestion& question, const SeasonParts& parts) {
  std::vector<std::string> names;
  std::set<std::string> used;
  for (const Herd& herd : parts.herds) {
    std::string name = question.horses[herd.horses.front()].name;
    if (herd.horses.size() > 1) name += fmt::format(" and {} more", herd.horses.size() - 1);
    if (!used.insert(name).second) {
      name += fmt::format(" {}", herd.horses.front() + 1);
      used.insert(name);
    }
    names.push_back(std::move(name));
  }
  return names;
}

// The most of each offer that a ration's rows of nothing but plus signs allow.
std::vector<double> most_eaten(const LinearProgram& program) {
  std::vector<double> most(program.columns().size(), unlimited);
  for (const Row& row : program.rows()) {
    const bool plain = std::all_of(row.terms.begin(), row.terms.end(),
                                   [](const Term& t) { return t.coefficient >= 0.0; });
    if (!plain || std::isinf(row.upper)) continue;
    for (const Term& t : row.terms) {
      double& bound = most[static_cast<std::size_t>(t.column)];
      if (t.coefficient > 0.0) bound = std::min(bound, std::max(0.0, row.upper) / t.coefficient);
    }
  }
  return most;
}

class SeasonWriter {
 public:
  SeasonWriter(const SeasonQuestion& question, const SeasonParts& parts, const Spells& spells,
               const SeasonChoices& choices, ImpliedRows implied)
      : in_{question, parts, choices, implied, herd_names(question, parts), {}} {
    in_.out.spells = spells;
    for (const Formulation& formulation : parts.formulations) {
      most_eaten_.push_back(most_eaten(formulation.program));
    }
    find_most_stored();
  }

  SeasonProgram write() {
    yard_columns();
    in_.out.yard_columns = program().column_count();
    herd_columns();
    write_yard_rows(in_);
    in_.out.yard_rows = program().row_count();
    write_open_packs(in_);
    for (std::size_t h = 0; h < in_.parts.herds.size(); ++h) write_herd_rows(in_, h);
    return std::move(in_.out);
  }

 private:
  LinearProgram& program() { return in_.out.program; }

  [[nodiscard]] bool is_spoilt(std::size_t f, std::size_t w) const {
    return in_.question.supply[f].keeps.has_value() || in_.open_pack(f, w) == OpenPack::in_time;
  }

  // Every column gets a bound, be it one that nothing ever reaches: then a lower bound
  // of the cost follows from any multipliers at all (certify.h). Nobody need store more
  // than what was there and what can still be put out.
  void find_most_stored() {
    most_stored_.assign(in_.offers(), std::vector<double>(in_.weeks() + 1, 0.0));
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      const Offer& offer = in_.question.offers[f];
      most_stored_[f][in_.weeks()] = opening_kg(offer);
      for (std::size_t w = in_.weeks(); w-- > 0;) {
        double a_day = 0.0;
        for (const Herd& herd : in_.parts.herds) {
          const auto& rations = in_.question.horses[herd.horses.front()].ration_of_week;
          a_day += herd.size * most_eaten_[rations[w]][f];
        }
        most_stored_[f][w] = most_stored_[f][w + 1] + in_.opened_kg(f, w) +
                             a_day * in_.question.weeks[w].days / offer.losses().eaten_of_put_out();
      }
    }
  }

  void yard_columns() {
    const std::vector<int> none(in_.weeks(), -1);
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      const Offer& offer = in_.question.offers[f];
      const double kept = 1.0 - offer.storage_loss;
      in_.out.buy.push_back(none);
      in_.out.store.push_back(none);
      in_.out.spoil.push_back(none);
      for (std::size_t w = 0; w < in_.weeks(); ++w) {
        const std::string place = offer.name + "/" + week_name(w);
        if (in_.question.supply[f].can_be_bought) {
          in_.out.buy[f][w] =
              program().add_column({"buy/" + place, 0.0, most_stored_[f][w] / kept,
                                    least_cost_per_kg(in_.question, f, w).in_units()});
        }
        in_.out.store[f][w] =
            program().add_column({"store/" + place, 0.0, most_stored_[f][w + 1], 0.0});
        if (is_spoilt(f, w)) {
          in_.out.spoil[f][w] =
              program().add_column({"spoil/" + place, 0.0, most_stored_[f][w], 0.0});
        }
      }
      in_.out.gone.push_back(
          opening_kg(offer) > 0.0
              ? program().add_column({"gone/" + offer.name, 0.0, opening_kg(offer),
                                      plain_cost_per_kg(in_.question, f, 0).in_units() / kept})
              : -1);
    }
  }

  void herd_columns() {
    for (std::size_t h = 0; h < in_.parts.herds.size(); ++h) {
      in_.out.eat.emplace_back();
      in_.out.up.emplace_back();
      check_spells(h);
      for (const Spell& spell : in_.out.spells[h]) {
        in_.out.eat[h].push_back(program().column_count());
        const RationQuestion& asked = in_.ration(h, spell);
        for (std::size_t f = 0; f < asked.offers.size(); ++f) {
          program().add_column({"eat/" + in_.place(h, f, asked, spell), 0.0,
                                is_left_out(f, spell) ? 0.0 : most(h, f, spell), 0.0});
        }
        in_.out.up[h].push_back(changes_into(h, spell) ? program().column_count() : -1);
        for (std::size_t f = 0; f < in_.offers() && changes_into(h, spell); ++f) {
          program().add_column(
              {"up/" + in_.place(h, f, asked, spell), 0.0, most(h, f, spell), 0.0});
        }
      }
    }
  }

  [[nodiscard]] double most(std::size_t h, std::size_t f, const Spell& spell) const {
    return in_.parts.herds[h].size * most_eaten_[in_.ration_index(h, spell)][f];
  }

  void check_spells(std::size_t h) const {
    std::size_t next = 0;
    for (const Spell& spell : in_.out.spells.at(h)) {
      bool fits = spell.first == next && spell.last >= spell.first && spell.last < in_.weeks();
      for (std::size_t w = spell.first; fits && w <= spell.last; ++w) {
        fits = in_.ration_index(h, {w, w}) == in_.ration_index(h, spell);
      }
      if (!fits) throw std::invalid_argument("the spells of a herd are not those of its rations");
      next = spell.last + 1;
    }
    if (next != in_.weeks()) throw std::invalid_argument("the spells of a herd leave out weeks");
  }

  [[nodiscard]] bool is_left_out(std::size_t f, const Spell& spell) const {
    for (std::size_t w = spell.first; f < in_.offers() && w <= spell.last; ++w) {
      if (in_.open_pack(f, w) == OpenPack::without) return true;
    }
    return false;
  }

  // The first week is a change where what was fed before is known.
  [[nodiscard]] bool changes_into(std::size_t h, const Spell& spell) const {
    return spell.first > 0 ||
           in_.question.horses[in_.parts.herds[h].horses.front()].fed_before.has_value();
  }

  SeasonWriting in_;
  std::vector<std::vector<double>> most_eaten_;   // [ration][offer], kg a day
  std::vector<std::vector<double>> most_stored_;  // [offer][week], kg at its beginning
};

}  // namespace

Spells weekly_spells(const SeasonQuestion& question, const SeasonParts& parts) {
  std::vector<Spell> weeks;
  for (std::size_t w = 0; w < question.weeks.size(); ++w) weeks.push_back({w, w});
  return Spells(parts.herds.size(), weeks);
}

SeasonProgram season_program(const SeasonQuestion& question, const SeasonParts& parts,
                             const Spells& spells, const SeasonChoices& choices,
                             ImpliedRows implied) {
  if (spells.size() != parts.herds.size()) {
    throw std::invalid_argument("not one list of spells a herd");
  }
  return SeasonWriter(question, parts, spells, choices, implied).write();
}

}  // namespace haymow
