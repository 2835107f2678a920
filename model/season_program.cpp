#include "model/season_program.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>
#include <string>
#include <utility>

#include "model/change_plan.h"
#include "model/change_step.h"
#include "model/season_supply.h"

namespace haymow {
namespace {

std::string week_name(std::size_t week) { return fmt::format("w{}", week + 1); }

std::string spell_name(const Spell& spell) {
  return spell.first == spell.last ? week_name(spell.first)
                                   : week_name(spell.first) + "-" + week_name(spell.last);
}

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

class Writer {
 public:
  Writer(const SeasonQuestion& question, const SeasonParts& parts, const Spells& spells,
         const SeasonChoices& choices, ImpliedRows implied)
      : question_(question),
        parts_(parts),
        choices_(choices),
        implied_(implied),
        herd_names_(herd_names(question, parts)) {
    out_.spells = spells;
    for (const Formulation& formulation : parts.formulations) {
      most_eaten_.push_back(most_eaten(formulation.program));
    }
    find_most_stored();
  }

  SeasonProgram write() {
    yard_columns();
    out_.yard_columns = program().column_count();
    herd_columns();
    balances();
    shelf_lives();
    rooms();
    budgets();
    most_bought();
    gone();
    out_.yard_rows = program().row_count();
    open_packs();
    for (std::size_t h = 0; h < parts_.herds.size(); ++h) {
      rations(h);
      changes(h);
    }
    return std::move(out_);
  }

 private:
  LinearProgram& program() { return out_.program; }
  [[nodiscard]] std::size_t weeks() const { return question_.weeks.size(); }
  [[nodiscard]] std::size_t offers() const { return question_.offers.size(); }
  [[nodiscard]] const RationQuestion& ration(std::size_t h, const Spell& spell) const {
    return question_.rations[ration_index(h, spell)];
  }
  [[nodiscard]] std::size_t ration_index(std::size_t h, const Spell& spell) const {
    const std::size_t horse = parts_.herds[h].horses.front();
    return question_.horses[horse].ration_of_week[spell.first];
  }

  void add(Row row, SeasonRow meaning) {
    program().add_row(std::move(row));
    out_.rows.push_back(meaning);
  }

  [[nodiscard]] OpenPack open_pack(std::size_t f, std::size_t w) const {
    return choices_.open_packs.empty() ? OpenPack::any : choices_.open_packs[f][w];
  }
  // What has to be opened where no pack may be older than it keeps.
  [[nodiscard]] double opened_kg(std::size_t f, std::size_t w) const {
    return open_pack(f, w) == OpenPack::in_time ? opened_in_time_kg(question_, f, w) : 0.0;
  }
  [[nodiscard]] bool is_spoilt(std::size_t f, std::size_t w) const {
    return question_.supply[f].keeps.has_value() || open_pack(f, w) == OpenPack::in_time;
  }

  // Every column gets a bound, be it one that nothing ever reaches: then a lower bound
  // of the cost follows from any multipliers at all (certify.h). Nobody need store more
  // than what was there and what can still be put out.
  void find_most_stored() {
    most_stored_.assign(offers(), std::vector<double>(weeks() + 1, 0.0));
    for (std::size_t f = 0; f < offers(); ++f) {
      const Offer& offer = question_.offers[f];
      most_stored_[f][weeks()] = opening_kg(offer);
      for (std::size_t w = weeks(); w-- > 0;) {
        double a_day = 0.0;
        for (const Herd& herd : parts_.herds) {
          const auto& rations = question_.horses[herd.horses.front()].ration_of_week;
          a_day += herd.size * most_eaten_[rations[w]][f];
        }
        most_stored_[f][w] = most_stored_[f][w + 1] + opened_kg(f, w) +
                             a_day * question_.weeks[w].days / offer.losses().eaten_of_put_out();
      }
    }
  }

  void yard_columns() {
    const std::vector<int> none(weeks(), -1);
    for (std::size_t f = 0; f < offers(); ++f) {
      const Offer& offer = question_.offers[f];
      const double kept = 1.0 - offer.storage_loss;
      out_.buy.push_back(none);
      out_.store.push_back(none);
      out_.spoil.push_back(none);
      for (std::size_t w = 0; w < weeks(); ++w) {
        const std::string place = offer.name + "/" + week_name(w);
        if (question_.supply[f].can_be_bought) {
          out_.buy[f][w] = program().add_column({"buy/" + place, 0.0, most_stored_[f][w] / kept,
                                                 least_cost_per_kg(question_, f, w).in_units()});
        }
        out_.store[f][w] =
            program().add_column({"store/" + place, 0.0, most_stored_[f][w + 1], 0.0});
        if (is_spoilt(f, w)) {
          out_.spoil[f][w] = program().add_column({"spoil/" + place, 0.0, most_stored_[f][w], 0.0});
        }
      }
      out_.gone.push_back(
          opening_kg(offer) > 0.0
              ? program().add_column({"gone/" + offer.name, 0.0, opening_kg(offer),
                                      plain_cost_per_kg(question_, f, 0).in_units() / kept})
              : -1);
    }
  }

  void herd_columns() {
    for (std::size_t h = 0; h < parts_.herds.size(); ++h) {
      out_.eat.emplace_back();
      out_.up.emplace_back();
      check_spells(h);
      for (const Spell& spell : out_.spells[h]) {
        out_.eat[h].push_back(program().column_count());
        const RationQuestion& asked = ration(h, spell);
        for (std::size_t f = 0; f < asked.offers.size(); ++f) {
          program().add_column({"eat/" + place(h, f, asked, spell), 0.0,
                                is_left_out(f, spell) ? 0.0 : most(h, f, spell), 0.0});
        }
        out_.up[h].push_back(changes_into(h, spell) ? program().column_count() : -1);
        for (std::size_t f = 0; f < offers() && changes_into(h, spell); ++f) {
          program().add_column({"up/" + place(h, f, asked, spell), 0.0, most(h, f, spell), 0.0});
        }
      }
    }
  }

  [[nodiscard]] double most(std::size_t h, std::size_t f, const Spell& spell) const {
    return parts_.herds[h].size * most_eaten_[ration_index(h, spell)][f];
  }

  void check_spells(std::size_t h) const {
    std::size_t next = 0;
    for (const Spell& spell : out_.spells.at(h)) {
      bool fits = spell.first == next && spell.last >= spell.first && spell.last < weeks();
      for (std::size_t w = spell.first; fits && w <= spell.last; ++w) {
        fits = ration_index(h, {w, w}) == ration_index(h, spell);
      }
      if (!fits) throw std::invalid_argument("the spells of a herd are not those of its rations");
      next = spell.last + 1;
    }
    if (next != weeks()) throw std::invalid_argument("the spells of a herd leave out weeks");
  }

  [[nodiscard]] std::string place(std::size_t h, std::size_t f, const RationQuestion& asked,
                                  const Spell& spell) const {
    return fmt::format("{}/{}/{}", herd_names_[h], asked.offers[f].name, spell_name(spell));
  }

  [[nodiscard]] bool is_left_out(std::size_t f, const Spell& spell) const {
    for (std::size_t w = spell.first; f < offers() && w <= spell.last; ++w) {
      if (open_pack(f, w) == OpenPack::without) return true;
    }
    return false;
  }

  // The first week is a change where what was fed before is known.
  [[nodiscard]] bool changes_into(std::size_t h, const Spell& spell) const {
    return spell.first > 0 ||
           question_.horses[parts_.herds[h].horses.front()].fed_before.has_value();
  }

  // What the herds are given of a feed in a week, kg put out.
  [[nodiscard]] std::vector<Term> put_out(std::size_t f, std::size_t w, double sign) const {
    std::vector<Term> terms;
    const double a_day = question_.weeks[w].days / question_.offers[f].losses().eaten_of_put_out();
    for (std::size_t h = 0; h < parts_.herds.size(); ++h) {
      for (std::size_t s = 0; s < out_.spells[h].size(); ++s) {
        if (out_.spells[h][s].first > w || out_.spells[h][s].last < w) continue;
        terms.push_back({out_.eat[h][s] + static_cast<int>(f), sign * a_day});
      }
    }
    return terms;
  }

  void balances() {
    for (std::size_t f = 0; f < offers(); ++f) {
      const Offer& offer = question_.offers[f];
      for (std::size_t w = 0; w < weeks(); ++w) {
        const double opening = w == 0 ? -opening_kg(offer) : 0.0;
        Row row{"balance/" + offer.name + "/" + week_name(w), opening, opening,
                put_out(f, w, -1.0)};
        if (w > 0) row.terms.push_back({out_.store[f][w - 1], 1.0});
        if (out_.buy[f][w] >= 0) row.terms.push_back({out_.buy[f][w], 1.0 - offer.storage_loss});
        if (out_.spoil[f][w] >= 0) row.terms.push_back({out_.spoil[f][w], -1.0});
        row.terms.push_back({out_.store[f][w], -1.0});
        add(std::move(row), {.kind = SeasonRowKind::balance, .week = w, .offer = f});
      }
    }
  }

  // The oldest is fed first, so what is left is what came last: all of it is good when
  // it is no more than what came late enough.
  void shelf_lives() {
    for (std::size_t f = 0; f < offers(); ++f) {
      if (!question_.supply[f].keeps) continue;
      const Offer& offer = question_.offers[f];
      for (std::size_t w = 0; w < weeks(); ++w) {
        if (still_good(question_, f, 0, w + 1)) continue;  // says no more than the balance
        Row row{
            "keeps/" + offer.name + "/" + week_name(w), -unlimited, 0.0, {{out_.store[f][w], 1.0}}};
        for (std::size_t v = 1; v <= w; ++v) {
          if (out_.buy[f][v] < 0 || !still_good(question_, f, v, w + 1)) continue;
          row.terms.push_back({out_.buy[f][v], -(1.0 - offer.storage_loss)});
        }
        add(std::move(row), {.kind = SeasonRowKind::keeps, .week = w, .offer = f});
      }
    }
  }

  void rooms() {
    for (std::size_t s = 0; s < question_.stores.size(); ++s) {
      for (const bool volume : {false, true}) {
        if (const auto room = room_of(question_, s, volume)) room_rows(s, volume, *room);
      }
    }
  }

  // Fullest when the week's deliveries have come and nothing is fed yet.
  void room_rows(std::size_t s, bool volume, double room) {
    for (std::size_t w = 0; w < weeks(); ++w) {
      Row row{fmt::format("{}/{}/{}", volume ? "volume" : "room", question_.stores[s].name,
                          week_name(w)),
              -unlimited,
              room,
              {}};
      for (std::size_t f = 0; f < offers(); ++f) {
        if (question_.supply[f].store != s) continue;
        const double unit = volume ? question_.supply[f].cubic_metres_per_kg : 1.0;
        const double stored = unit / (1.0 - question_.offers[f].storage_loss);
        if (unit == 0.0) continue;
        if (w > 0) row.terms.push_back({out_.store[f][w - 1], stored});
        if (w == 0) row.upper -= stored * opening_kg(question_.offers[f]);
        if (out_.buy[f][w] >= 0) row.terms.push_back({out_.buy[f][w], unit});
      }
      row.upper = std::max(row.upper, 0.0);
      const auto kind = volume ? SeasonRowKind::room_volume : SeasonRowKind::room;
      if (!row.terms.empty()) add(std::move(row), {.kind = kind, .week = w, .store = s});
    }
  }

  void budgets() {
    for (std::size_t m = 0; m < question_.budget.size(); ++m) {
      if (!question_.budget[m]) continue;
      Row row{"budget/" + question_.months[m], -unlimited, question_.budget[m]->in_units(), {}};
      for (std::size_t f = 0; f < offers(); ++f) {
        for (std::size_t w = 0; w < weeks(); ++w) {
          if (question_.weeks[w].month != m || out_.buy[f][w] < 0) continue;
          const double cost = least_cost_per_kg(question_, f, w).in_units();
          if (cost > 0.0) row.terms.push_back({out_.buy[f][w], cost});
        }
      }
      if (!row.terms.empty()) {
        add(std::move(row), {.kind = SeasonRowKind::budget, .month = m});
      }
    }
  }

  void most_bought() {
    for (std::size_t f = 0; f < offers(); ++f) {
      std::optional<KgAsFed> most = question_.supply[f].can_be_had;
      if (!choices_.most_bought.empty() && choices_.most_bought[f]) {
        most = most ? std::min(*most, *choices_.most_bought[f]) : *choices_.most_bought[f];
      }
      if (!most || !question_.supply[f].can_be_bought) continue;
      Row row{"can be had/" + question_.offers[f].name, -unlimited, most->in_kg(), {}};
      for (std::size_t w = 0; w < weeks(); ++w) row.terms.push_back({out_.buy[f][w], 1.0});
      add(std::move(row), {.kind = SeasonRowKind::can_be_had, .offer = f});
    }
  }

  // Of what was on hand so much is left as was in the store in every week: what is
  // bought to take its place at the end brings nothing back.
  void gone() {
    for (std::size_t f = 0; f < offers(); ++f) {
      if (out_.gone[f] < 0) continue;
      const bool keeps = still_good(question_, f, 0, weeks());
      for (std::size_t w = 0; w < weeks(); ++w) {
        // Without deliveries the store only empties: the last week says it all.
        if (!question_.supply[f].can_be_bought && w + 1 < weeks()) continue;
        Row row{fmt::format("gone/{}/{}", question_.offers[f].name, week_name(w)),
                opening_kg(question_.offers[f]),
                unlimited,
                {{out_.gone[f], 1.0}}};
        if (keeps) row.terms.push_back({out_.store[f][w], 1.0});
        add(std::move(row), {.kind = SeasonRowKind::gone, .week = w, .offer = f});
        if (!keeps) break;
      }
    }
  }

  void open_packs() {
    for (std::size_t f = 0; f < offers(); ++f) {
      for (std::size_t w = 0; w < weeks(); ++w) {
        if (opened_kg(f, w) <= 0.0) continue;
        Row row{"open pack/" + question_.offers[f].name + "/" + week_name(w), opened_kg(f, w),
                unlimited, put_out(f, w, 1.0)};
        row.terms.push_back({out_.spoil[f][w], 1.0});
        add(std::move(row), {.kind = SeasonRowKind::open_pack, .week = w, .offer = f});
      }
    }
  }

  void rations(std::size_t h) {
    const double size = parts_.herds[h].size;
    for (std::size_t s = 0; s < out_.spells[h].size(); ++s) {
      const Spell& spell = out_.spells[h][s];
      const std::size_t index = ration_index(h, spell);
      const LinearProgram& alone = parts_.formulations[index].program;
      for (std::size_t i = 0; i < alone.rows().size(); ++i) {
        if (implied_ == ImpliedRows::leave_out && parts_.implied[index][i]) continue;
        Row row = alone.rows()[i];
        row.name = fmt::format("{}/{}/{}", herd_names_[h], row.name, spell_name(spell));
        row.lower *= size;
        row.upper *= size;
        for (Term& t : row.terms) t.column += out_.eat[h][s];
        add(std::move(row),
            {.kind = SeasonRowKind::ration, .week = spell.first, .herd = h, .row = i});
      }
    }
  }

  void changes(std::size_t h) {
    for (std::size_t s = 0; s < out_.spells[h].size(); ++s) {
      if (out_.up[h][s] < 0) continue;
      rises(h, s);
      new_share(h, s);
      concentrates(h, s);
    }
  }

  void rises(std::size_t h, std::size_t s) {
    const Spell& spell = out_.spells[h][s];
    for (std::size_t f = 0; f < offers(); ++f) {
      const int feed = static_cast<int>(f);
      Row row{"rise/" + place(h, f, ration(h, spell), spell),
              -unlimited,
              0.0,
              {{out_.eat[h][s] + feed, 1.0}, {out_.up[h][s] + feed, -1.0}}};
      if (s > 0) {
        row.terms.push_back({out_.eat[h][s - 1] + feed, -1.0});
      } else {
        for (const std::size_t horse : parts_.herds[h].horses) {
          row.upper += (*question_.horses[horse].fed_before)[f];
        }
      }
      add(std::move(row),
          {.kind = SeasonRowKind::rise, .week = spell.first, .offer = f, .herd = h});
    }
  }

  void new_share(std::size_t h, std::size_t s) {
    const Spell& spell = out_.spells[h][s];
    const double share = days_to_change(question_, spell.first) / usual_change_days;
    if (share >= 1.0) return;
    const RationQuestion& asked = ration(h, spell);
    Row row{fmt::format("change/{}/{}", herd_names_[h], spell_name(spell)), -unlimited, 0.0, {}};
    for (std::size_t f = 0; f < asked.offers.size(); ++f) {
      const double dry = asked.offers[f].feed.dry_matter_share();
      const int feed = static_cast<int>(f);
      row.terms.push_back({out_.eat[h][s] + feed, -share * dry});
      if (f < offers()) row.terms.push_back({out_.up[h][s] + feed, dry});
    }
    add(std::move(row), {.kind = SeasonRowKind::change, .week = spell.first, .herd = h});
  }

  void concentrates(std::size_t h, std::size_t s) {
    const Spell& spell = out_.spells[h][s];
    const RationQuestion& asked = ration(h, spell);
    const auto horses = static_cast<double>(parts_.herds[h].horses.size());
    Row row{fmt::format("concentrates added/{}/{}", herd_names_[h], spell_name(spell)),
            -unlimited,
            horses * most_added_a_day_kg * days_to_change(question_, spell.first),
            {}};
    for (std::size_t f = 0; f < offers(); ++f) {
      if (!is_concentrate(asked, f)) continue;
      row.terms.push_back(
          {out_.up[h][s] + static_cast<int>(f), 1.0 / asked.offers[f].losses().eaten_of_put_out()});
    }
    if (row.terms.empty()) return;
    add(std::move(row),
        {.kind = SeasonRowKind::concentrates_added, .week = spell.first, .herd = h});
  }

  const SeasonQuestion& question_;
  const SeasonParts& parts_;
  const SeasonChoices& choices_;
  ImpliedRows implied_;
  std::vector<std::string> herd_names_;
  std::vector<std::vector<double>> most_eaten_;   // [ration][offer], kg a day
  std::vector<std::vector<double>> most_stored_;  // [offer][week], kg at its beginning
  SeasonProgram out_;
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
  return Writer(question, parts, spells, choices, implied).write();
}

}  // namespace haymow
