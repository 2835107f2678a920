#include "scenarios/barn_in_steps.h"

#include <algorithm>
#include <utility>

#include "scenarios/report_parts.h"

namespace haymow {
namespace {

constexpr double least_weight = 1.0 / 1000.0;  // a day of the longest season

KgAsFed put_out(const HorseAnswer& answer, std::size_t offer) {
  if (answer.status != AnswerStatus::found) return KgAsFed{};
  for (const Portion& p : ration_to_feed(answer).portions) {
    if (p.offer == offer) return p.put_out;
  }
  return KgAsFed{};
}

// The same horse in whole steps with at most `most` of one stock, the others no
// higher than they are now; nothing when that leaves no ration in whole steps.
std::optional<PracticalRation> with_less(const HorseAnswer& answer, std::size_t offer,
                                         KgAsFed most) {
  RationQuestion question = answer.question;
  const std::size_t count = question.offers.size();
  question.stock_in_steps.clear();
  question.stock_a_day.resize(count);
  for (std::size_t f = 0; f < count; ++f) {
    if (question.stock_a_day[f] || question.offers[f].on_hand) {
      question.stock_a_day[f] = std::max(put_out(answer, f), KgAsFed{});
    }
  }
  question.stock_a_day[offer] = most;
  auto found = practical_ration(question, formulate(question), answer.certificate.lower_bound);
  if (!found || found->choices.above_share) return std::nullopt;
  return found;
}

// The share of the season that an answer is for.
double weight_of(const HorseAnswer& answer, Days season) {
  const Days days = answer.spell.days;
  return days > Days{} ? std::min(1.0, days / season) : 1.0;
}

// Takes a ration with less of one stock where there is one. First with all that is
// lacking less; a horse that cannot spare that may spare a step.
void spare_some(HorseAnswer& answer, std::size_t offer, KgAsFed over) {
  const KgAsFed now = put_out(answer, offer);
  // A promise against bad batches is not asked for again: its horse keeps its ration.
  if (!answer.practical || answer.promise || now <= KgAsFed{}) return;
  const KgAsFed step = answer.practical->weighings[offer].step;
  auto less = with_less(answer, offer, std::max(KgAsFed{}, now - over));
  if (!less && step < over) less = with_less(answer, offer, std::max(KgAsFed{}, now - step));
  if (!less) return;
  answer.practical = std::move(less);
  if (answer.grass) {
    answer.grass = check_grass(answer.question, answer.formulation, answer.practical->amounts);
  }
}

}  // namespace

void share_what_is_spare(std::vector<RationQuestion>& questions, Days season,
                         const std::vector<Days>& days) {
  if (questions.empty()) return;
  const std::vector<Offer> offers = questions.front().offers;
  const auto weight = [&](std::size_t q) { return days.empty() ? 1.0 : days[q] / season; };
  const auto shares = [&](std::size_t q, std::size_t f) {
    return f < questions[q].stock_a_day.size() && questions[q].stock_a_day[f];
  };
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (!offers[f].on_hand) continue;
    KgAsFed spare = *offers[f].stock_to_put_out() / season.in_days();
    double sharers = 0.0;
    for (std::size_t q = 0; q < questions.size(); ++q) {
      if (!shares(q, f)) continue;
      spare = spare - *questions[q].stock_a_day[f] * weight(q);
      sharers += weight(q);
    }
    if (sharers <= 0.0 || spare <= KgAsFed{}) continue;
    for (std::size_t q = 0; q < questions.size(); ++q) {
      if (!shares(q, f)) continue;
      questions[q].stock_in_steps.resize(questions[q].offers.size());
      questions[q].stock_in_steps[f] = *questions[q].stock_a_day[f] + spare / sharers;
    }
  }
}

std::optional<KgAsFed> over_the_barn(const std::vector<HorseAnswer>& answers, std::size_t offer,
                                     Days season) {
  if (answers.empty()) return std::nullopt;
  const auto stock = answers.front().question.offers[offer].stock_to_put_out();
  if (!stock) return std::nullopt;
  KgAsFed over = *stock / season.in_days() * -1.0;
  for (const HorseAnswer& answer : answers) {
    over += put_out(answer, offer) * weight_of(answer, season);
    for (const HorseAnswer& other : answer.other_spells) {
      over += put_out(other, offer) * weight_of(other, season);
    }
  }
  // What the shares themselves give away to rounding, and half a gram.
  constexpr KgAsFed negligible{5e-4};
  return over > negligible ? std::optional(over) : std::nullopt;
}

void keep_to_the_barn(std::vector<HorseAnswer>& answers, Days season) {
  if (answers.empty()) return;
  std::vector<HorseAnswer*> spells;
  for (HorseAnswer& answer : answers) {
    spells.push_back(&answer);
    for (HorseAnswer& other : answer.other_spells) spells.push_back(&other);
  }
  const std::size_t offers = answers.front().question.offers.size();
  for (std::size_t f = 0; f < offers; ++f) {
    for (HorseAnswer* answer : spells) {
      const auto over = over_the_barn(answers, f, season);
      if (!over) break;
      spare_some(*answer, f, *over / std::max(weight_of(*answer, season), least_weight));
    }
  }
}

}  // namespace haymow
