#include "scenarios/barn_in_steps.h"

#include <algorithm>
#include <utility>

#include "scenarios/report_parts.h"

namespace haymow {
namespace {

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

}  // namespace

void share_what_is_spare(std::vector<RationQuestion>& questions, Days season) {
  if (questions.empty()) return;
  const std::vector<Offer>& offers = questions.front().offers;
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (!offers[f].on_hand) continue;
    KgAsFed spare = *offers[f].stock_to_put_out() / season.in_days();
    double sharers = 0.0;
    for (const RationQuestion& q : questions) {
      if (f >= q.stock_a_day.size() || !q.stock_a_day[f]) continue;
      spare = spare - *q.stock_a_day[f];
      ++sharers;
    }
    if (sharers == 0.0 || spare <= KgAsFed{}) continue;
    for (RationQuestion& q : questions) {
      if (f >= q.stock_a_day.size() || !q.stock_a_day[f]) continue;
      q.stock_in_steps.resize(offers.size());
      q.stock_in_steps[f] = *q.stock_a_day[f] + spare / sharers;
    }
  }
}

std::optional<KgAsFed> over_the_barn(const std::vector<HorseAnswer>& answers, std::size_t offer,
                                     Days season) {
  if (answers.empty()) return std::nullopt;
  const auto stock = answers.front().question.offers[offer].stock_to_put_out();
  if (!stock) return std::nullopt;
  KgAsFed over = *stock / season.in_days() * -1.0;
  for (const HorseAnswer& answer : answers) over += put_out(answer, offer);
  // What the shares themselves give away to rounding, and half a gram.
  constexpr KgAsFed negligible{5e-4};
  return over > negligible ? std::optional(over) : std::nullopt;
}

void keep_to_the_barn(std::vector<HorseAnswer>& answers, Days season) {
  if (answers.empty()) return;
  const std::size_t offers = answers.front().question.offers.size();
  for (std::size_t f = 0; f < offers; ++f) {
    for (HorseAnswer& answer : answers) {
      const auto over = over_the_barn(answers, f, season);
      if (!over) break;
      const KgAsFed now = put_out(answer, f);
      // A promise against bad batches is not asked for again: its horse keeps its ration.
      if (!answer.practical || answer.promise || now <= KgAsFed{}) continue;
      // First all that is lacking; a horse that cannot spare that may spare a step.
      const KgAsFed step = answer.practical->weighings[f].step;
      auto less = with_less(answer, f, std::max(KgAsFed{}, now - *over));
      if (!less && step < *over) less = with_less(answer, f, std::max(KgAsFed{}, now - step));
      if (less) answer.practical = std::move(less);
    }
  }
}

}  // namespace haymow
