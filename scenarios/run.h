// The straight line: from a scenario to an answer for every horse. Pure: no
// files, no clock, no randomness. Read run.cpp first.
#pragma once

#include <optional>
#include <vector>

#include "model/confidence.h"
#include "model/explanation.h"
#include "model/grass_check.h"
#include "model/no_ration.h"
#include "model/practical.h"
#include "scenarios/change_over.h"
#include "scenarios/scenario.h"
#include "scenarios/season_months.h"
#include "solver/certify.h"
#include "solver/exact.h"

namespace haymow {

struct HorseAnswer;

enum class AnswerStatus {
  found,    // certified
  none,     // no ration keeps every limit; explained
  refused,  // a health state that is a vet's business
  failed,   // the solver gave up or its answer did not certify: our failure
};
[[nodiscard]] std::string_view name_of(AnswerStatus status);
/// Of two: our failure before a definite no, a no before an answer.
[[nodiscard]] AnswerStatus worse(AnswerStatus one, AnswerStatus other);

/// What the ration promises against bad batches, and what the promise costs.
struct PromiseMade {
  Promise promise;
  Money cost_without;         // a day, of the cheapest ration that promises nothing
  double largest_miss = 0.0;  // of the guarded floors, relative
  /// none: the greatest probability that can be promised, to a hundredth.
  std::optional<double> most;
  std::vector<RowMeaning> conflict;  // none: what cannot hold together with the promise
};

struct RunOptions {
  /// Keep every forced floor with this probability, between 1/2 and 1; absent: as
  /// the figures have it.
  std::optional<double> confidence;
  /// Solve every answer again in rational arithmetic.
  bool exact = false;
  /// Answers to much the same scenario, to start from; null: from nothing. They
  /// change how long an answer takes, not what it costs.
  const std::vector<HorseAnswer>* before = nullptr;
  /// The cheapest ration and its certificate, or what clashes, and no more: no whole
  /// steps, no explanation, no mends, no changing over.
  bool brief = false;
};

struct HorseAnswer {
  AnswerStatus status = AnswerStatus::failed;
  RationQuestion question;
  Formulation formulation;
  Solution solution;
  Certificate certificate;
  std::optional<Ration> ration;              // found: the cheapest
  std::optional<PracticalRation> practical;  // found: in steps a person can weigh
  std::optional<Explanation> explanation;    // found
  std::optional<NoRation> no_ration;         // none, unless only the promise stands in the way
  std::optional<ExactCheck> exact;           // where it was asked for: of the optimum or the clash
  std::optional<PromiseMade> promise;        // where one was asked for
  std::optional<ChangeOver> change;          // found, and the file says what is fed now
  std::optional<GrassCheck> grass;           // found, and grazing: the ends of its range
  GrassSpell spell;                          // the days this answer is for
  /// The rest of the season, where the grass is another; every one in full.
  std::vector<HorseAnswer> other_spells;

  /// The worst of this answer and those of the other spells.
  [[nodiscard]] AnswerStatus worst() const;

  /// Kg as fed eaten of each offer in the ration to feed: whole steps where there are some.
  [[nodiscard]] const std::vector<double>& amounts_to_feed() const {
    return practical ? practical->amounts : solution.columns;
  }
};

/// What the horse gets to be asked: needs, limits, and `meals` bucket meals.
[[nodiscard]] RationQuestion question_for(const Horse& horse, const std::vector<Offer>& offers,
                                          int meals);

/// True for a horse whose feeding is a vet's business.
[[nodiscard]] bool is_refused(const Horse& horse);

/// The fewest meals that work, where the keeper leaves them open: fewer than the
/// most that may be chosen only if a ration exists and costs hardly more for it,
/// since smaller meals are the safer ones.
void choose_fewest_meals(RationQuestion& question);

/// The answer for one question. The number of meals is the question's.
[[nodiscard]] HorseAnswer answer(RationQuestion question, const RunOptions& options = {});

/// The answers for all horses of a scenario, in its order: meals as the file
/// says or the fewest that work, stock shared when the season is given.
[[nodiscard]] std::vector<HorseAnswer> run(const Scenario& scenario,
                                           const RunOptions& options = {});

}  // namespace haymow
