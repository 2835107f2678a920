// Rows of the yard: the stock of every feed, what keeps, the room, the money and what
// the market has. Nothing in them is of one horse.
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "model/season_supply.h"
#include "model/season_writing.h"

namespace haymow {
namespace {

class YardRows {
 public:
  explicit YardRows(SeasonWriting& writing) : in_(writing) {}

  void write() {
    balances();
    shelf_lives();
    rooms();
    budgets();
    most_bought();
    gone();
  }

  // Behind the others, for only a plan with choices has them.
  void open_packs() {
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      for (std::size_t w = 0; w < in_.weeks(); ++w) {
        if (in_.opened_kg(f, w) <= 0.0) continue;
        Row row{"open pack/" + in_.question.offers[f].name + "/" + week_name(w),
                in_.opened_kg(f, w), unlimited, in_.put_out(f, w, 1.0)};
        row.terms.push_back({in_.out.spoil[f][w], 1.0});
        in_.add(std::move(row), {.kind = SeasonRowKind::open_pack, .week = w, .offer = f});
      }
    }
  }

 private:
  void balances() {
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      const Offer& offer = in_.question.offers[f];
      for (std::size_t w = 0; w < in_.weeks(); ++w) {
        const double opening = w == 0 ? -opening_kg(offer) : 0.0;
        Row row{"balance/" + offer.name + "/" + week_name(w), opening, opening,
                in_.put_out(f, w, -1.0)};
        if (w > 0) row.terms.push_back({in_.out.store[f][w - 1], 1.0});
        if (in_.out.buy[f][w] >= 0)
          row.terms.push_back({in_.out.buy[f][w], 1.0 - offer.storage_loss});
        if (in_.out.spoil[f][w] >= 0) row.terms.push_back({in_.out.spoil[f][w], -1.0});
        row.terms.push_back({in_.out.store[f][w], -1.0});
        in_.add(std::move(row), {.kind = SeasonRowKind::balance, .week = w, .offer = f});
      }
    }
  }

  // The oldest is fed first, so what is left is what came last: all of it is good when
  // it is no more than what came late enough.
  void shelf_lives() {
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      if (!in_.question.supply[f].keeps) continue;
      const Offer& offer = in_.question.offers[f];
      for (std::size_t w = 0; w < in_.weeks(); ++w) {
        if (still_good(in_.question, f, 0, w + 1)) continue;  // says no more than the balance
        Row row{"keeps/" + offer.name + "/" + week_name(w),
                -unlimited,
                0.0,
                {{in_.out.store[f][w], 1.0}}};
        for (std::size_t v = 1; v <= w; ++v) {
          if (in_.out.buy[f][v] < 0 || !still_good(in_.question, f, v, w + 1)) continue;
          row.terms.push_back({in_.out.buy[f][v], -(1.0 - offer.storage_loss)});
        }
        in_.add(std::move(row), {.kind = SeasonRowKind::keeps, .week = w, .offer = f});
      }
    }
  }

  void rooms() {
    for (std::size_t s = 0; s < in_.question.stores.size(); ++s) {
      for (const bool volume : {false, true}) {
        if (const auto room = room_of(in_.question, s, volume)) room_rows(s, volume, *room);
      }
    }
  }

  // Fullest when the week's deliveries have come and nothing is fed yet.
  void room_rows(std::size_t s, bool volume, double room) {
    for (std::size_t w = 0; w < in_.weeks(); ++w) {
      Row row{fmt::format("{}/{}/{}", volume ? "volume" : "room", in_.question.stores[s].name,
                          week_name(w)),
              -unlimited,
              room,
              {}};
      for (std::size_t f = 0; f < in_.offers(); ++f) {
        if (in_.question.supply[f].store != s) continue;
        const double unit = volume ? in_.question.supply[f].cubic_metres_per_kg : 1.0;
        const double stored = unit / (1.0 - in_.question.offers[f].storage_loss);
        if (unit == 0.0) continue;
        if (w > 0) row.terms.push_back({in_.out.store[f][w - 1], stored});
        if (w == 0) row.upper -= stored * opening_kg(in_.question.offers[f]);
        if (in_.out.buy[f][w] >= 0) row.terms.push_back({in_.out.buy[f][w], unit});
      }
      row.upper = std::max(row.upper, 0.0);
      const auto kind = volume ? SeasonRowKind::room_volume : SeasonRowKind::room;
      if (!row.terms.empty()) in_.add(std::move(row), {.kind = kind, .week = w, .store = s});
    }
  }

  void budgets() {
    for (std::size_t m = 0; m < in_.question.budget.size(); ++m) {
      if (!in_.question.budget[m]) continue;
      Row row{
          "budget/" + in_.question.months[m], -unlimited, in_.question.budget[m]->in_units(), {}};
      for (std::size_t f = 0; f < in_.offers(); ++f) {
        for (std::size_t w = 0; w < in_.weeks(); ++w) {
          if (in_.question.weeks[w].month != m || in_.out.buy[f][w] < 0) continue;
          const double cost = least_cost_per_kg(in_.question, f, w).in_units();
          if (cost > 0.0) row.terms.push_back({in_.out.buy[f][w], cost});
        }
      }
      if (!row.terms.empty()) {
        in_.add(std::move(row), {.kind = SeasonRowKind::budget, .month = m});
      }
    }
  }

  void most_bought() {
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      std::optional<KgAsFed> most = in_.question.supply[f].can_be_had;
      if (!in_.choices.most_bought.empty() && in_.choices.most_bought[f]) {
        most = most ? std::min(*most, *in_.choices.most_bought[f]) : *in_.choices.most_bought[f];
      }
      if (!most || !in_.question.supply[f].can_be_bought) continue;
      Row row{"can be had/" + in_.question.offers[f].name, -unlimited, most->in_kg(), {}};
      for (std::size_t w = 0; w < in_.weeks(); ++w) row.terms.push_back({in_.out.buy[f][w], 1.0});
      in_.add(std::move(row), {.kind = SeasonRowKind::can_be_had, .offer = f});
    }
  }

  // Of what was on hand so much is left as was in the store in every week: what is
  // bought to take its place at the end brings nothing back.
  void gone() {
    for (std::size_t f = 0; f < in_.offers(); ++f) {
      if (in_.out.gone[f] < 0) continue;
      const bool keeps = still_good(in_.question, f, 0, in_.weeks());
      for (std::size_t w = 0; w < in_.weeks(); ++w) {
        // Without deliveries the store only empties: the last week says it all.
        if (!in_.question.supply[f].can_be_bought && w + 1 < in_.weeks()) continue;
        Row row{fmt::format("gone/{}/{}", in_.question.offers[f].name, week_name(w)),
                opening_kg(in_.question.offers[f]),
                unlimited,
                {{in_.out.gone[f], 1.0}}};
        if (keeps) row.terms.push_back({in_.out.store[f][w], 1.0});
        in_.add(std::move(row), {.kind = SeasonRowKind::gone, .week = w, .offer = f});
        if (!keeps) break;
      }
    }
  }

  SeasonWriting& in_;
};

}  // namespace

void write_yard_rows(SeasonWriting& writing) { YardRows(writing).write(); }

void write_open_packs(SeasonWriting& writing) { YardRows(writing).open_packs(); }

}  // namespace haymow
