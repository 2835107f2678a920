// A season as one linear program: what every herd eats of every feed in every spell,
// the ration rows of each, and one stock of each feed for the whole yard.
// docs/explanation/season.md has the algebra.
//
// Columns: buy/F/wW kg through the gate, store/F/wW kg at the end of the week,
// spoil/F/wW kg thrown away, gone/F kg of what was on hand at first, eat/H/F/wW kg as
// fed eaten a day, up/H/F/wW kg a day more than the week before. Weeks are counted
// from 1. Stock is counted after what the store loses.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/season_parts.h"
#include "solver/linear_program.h"

namespace haymow {

/// Weeks on the same ration.
struct Spell {
  std::size_t first = 0;
  std::size_t last = 0;  // included
  friend bool operator==(const Spell&, const Spell&) = default;
};

/// Each herd's weeks, in order, all of them. Fed alike over a spell of several weeks
/// the plan is one of those with a spell a week, since the ration of every week of it
/// must be the same question.
using Spells = std::vector<std::vector<Spell>>;
[[nodiscard]] Spells weekly_spells(const SeasonQuestion& question, const SeasonParts& parts);

/// What a yard does in one week with a feed whose pack does not keep once it is open.
enum class OpenPack {
  any,      // not asked: less than a pack may be opened
  without,  // the feed is left out
  in_time,  // a pack is begun no later than the last one is too old, and the rest goes
};

/// Beyond the question; the relaxation asks for nothing here.
struct SeasonChoices {
  std::vector<std::vector<OpenPack>> open_packs;    // [offer][week]; empty: any
  std::vector<std::optional<KgAsFed>> most_bought;  // one an offer, in the season; empty: any
};

enum class SeasonRowKind {
  balance,      // opening + bought = put out + spoiled + closing
  keeps,        // no more is left than will still be good next week
  room,         // kg in a store
  room_volume,  // m3 in a store
  budget,       // money spent in a month
  can_be_had,   // kg of a feed in the season
  gone,         // what was on hand and is no longer
  open_pack,
  ration,  // of a ration; `row` of its formulation
  rise,    // more of a feed than the week before
  change,  // how much of a day's feed may be new
  concentrates_added,
};

struct SeasonRow {
  SeasonRowKind kind = SeasonRowKind::balance;
  std::size_t week = 0;   // the first of the spell; budget: unused
  std::size_t offer = 0;  // where the kind is of one
  std::size_t store = 0;
  std::size_t month = 0;
  std::size_t herd = 0;
  std::size_t row = 0;
  friend bool operator==(const SeasonRow&, const SeasonRow&) = default;
};

struct SeasonProgram {
  LinearProgram program;
  std::vector<SeasonRow> rows;  // one a row of the program
  Spells spells;
  // Columns; -1 where there is none.
  std::vector<std::vector<int>> buy;    // [offer][week]
  std::vector<std::vector<int>> store;  // [offer][week]
  std::vector<std::vector<int>> spoil;  // [offer][week]
  std::vector<int> gone;                // [offer]
  std::vector<std::vector<int>> eat;    // [herd][spell]: that of the first offer
  std::vector<std::vector<int>> up;     // [herd][spell]: likewise
  /// These many columns and rows come first and are the same whatever the spells.
  int yard_columns = 0;
  int yard_rows = 0;
};

enum class ImpliedRows { keep, leave_out };

/// Throws std::invalid_argument on spells that mix rations.
[[nodiscard]] SeasonProgram season_program(const SeasonQuestion& question, const SeasonParts& parts,
                                           const Spells& spells, const SeasonChoices& choices = {},
                                           ImpliedRows implied = ImpliedRows::keep);

}  // namespace haymow
