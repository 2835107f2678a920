#include "model/season_plan.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "model/season_orders.h"
#include "model/season_relaxation.h"
#include "model/season_supply.h"
#include "model/season_totals.h"

namespace haymow {
namespace {

// Less than a milligram a day is the arithmetic's, not the horse's.
constexpr double least_eaten_kg = 1e-9;
constexpr double no_saving = 1e-9;
// Programs solved again to save a pack: so many for a yard of a thousand rows, and in
// all. A number and not a time, so that the same file gives the same plan.
constexpr double rows_to_search = 60'000.0;
constexpr int most_row_searches = 60;

/// What is fed and bought, before it is written up.
struct PlanDraft {
  SpellAnswer answer;
  SeasonChoices choices;
  std::vector<FeedDemand> demand;
  Bought bought;
  double cost = unlimited;
};

class Planner {
 public:
  Planner(const SeasonQuestion& question, const SeasonOptions& options)
      : question_(question), options_(options), clock_(options) {}

  SeasonPlan plan() {
    SeasonPlan out = planned();
    out.stopped = options_.watch.stopped();
    return out;
  }

 private:
  SeasonPlan planned() {
    parts_ = season_parts(question_);
    SeasonRelaxation relaxed = relax_season(question_, parts_, clock_);
    SeasonPlan out;
    out.status = relaxed.status;
    out.certificate = relaxed.certificate;
    out.lower_bound = Money{std::max(0.0, relaxed.certificate.lower_bound)};
    if (!relaxed.answer.solution.usable()) return out;
    spells_ = relaxed.answer.program.spells;
    auto draft = whole_plan(relaxed.answer);
    out.in_whole_packs = draft && options_.packs == Packs::whole;
    if (!draft) draft = drafted(std::move(relaxed.answer), {}, Packs::any);
    if (!draft || !is_feasible(*draft)) {
      if (out.status == SeasonStatus::found) out.status = SeasonStatus::failed;
      return out;
    }
    write_up(*draft, out);
    return out;
  }

  // Orders for what is fed; nothing when the yard does not allow them.
  [[nodiscard]] std::optional<PlanDraft> drafted(SpellAnswer answer, SeasonChoices choices,
                                                 Packs packs) const {
    PlanDraft draft{std::move(answer), std::move(choices), {}, {}, 0.0};
    for (double& value : draft.answer.solution.columns) {
      if (value < least_eaten_kg) value = 0.0;
    }
    const SeasonProgram& program = draft.answer.program;
    const std::vector<double>& columns = draft.answer.solution.columns;
    Bought suggested;
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      draft.demand.push_back(demand_of(draft, f));
      suggested.emplace_back(question_.weeks.size(), 0.0);
      for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
        if (program.buy[f][w] < 0) continue;
        suggested[f][w] = columns[static_cast<std::size_t>(program.buy[f][w])];
      }
    }
    auto bought = order_season(question_, draft.demand, suggested, packs);
    if (!bought) return std::nullopt;
    draft.bought = std::move(*bought);
    draft.cost = cost_of(question_, draft.demand, draft.bought);
    return draft;
  }

  [[nodiscard]] FeedDemand demand_of(const PlanDraft& draft, std::size_t f) const {
    const std::size_t weeks = question_.weeks.size();
    FeedDemand demand{std::vector<double>(weeks, 0.0), std::vector<double>(weeks, 0.0)};
    const SeasonProgram& program = draft.answer.program;
    const double of_put_out = question_.offers[f].losses().eaten_of_put_out();
    for (std::size_t h = 0; h < parts_.herds.size(); ++h) {
      for (std::size_t s = 0; s < program.spells[h].size(); ++s) {
        const double eaten =
            draft.answer.solution.columns[static_cast<std::size_t>(program.eat[h][s]) + f];
        for (std::size_t w = program.spells[h][s].first; w <= program.spells[h][s].last; ++w) {
          demand.put_out[w] += eaten * question_.weeks[w].days / of_put_out;
        }
      }
    }
    for (std::size_t w = 0; w < weeks && !draft.choices.open_packs.empty(); ++w) {
      if (draft.choices.open_packs[f][w] != OpenPack::in_time) continue;
      demand.thrown_away[w] = std::max(0.0, opened_in_time_kg(question_, f, w) - demand.put_out[w]);
    }
    return demand;
  }

  [[nodiscard]] std::optional<PlanDraft> solved_again(SeasonChoices choices) {
    ++searches_;
    SpellAnswer answer = solve_spells(question_, parts_, spells_, choices, clock_);
    if (answer.solution.status != Status::optimal) return std::nullopt;
    return drafted(std::move(answer), std::move(choices), Packs::whole);
  }

  [[nodiscard]] bool may_search(const PlanDraft& draft) const {
    const int rows = std::max(1, draft.answer.program.program.row_count());
    const int most = std::clamp(static_cast<int>(rows_to_search / rows), 8, most_row_searches);
    options_.watch.at(SeasonStep::whole_packs, searches_, most);
    return searches_ < most && clock_.left_seconds() > 0.0;
  }

  std::optional<PlanDraft> whole_plan(const SpellAnswer& relaxed) {
    if (options_.packs == Packs::any) return drafted(relaxed, {}, Packs::any);
    auto draft = with_fresh_packs(relaxed);
    if (!draft) draft = with_fewer_feeds(relaxed);
    if (draft) choose_packs(*draft);
    if (draft) save_packs(*draft);
    return draft;
  }

  // Feeds of which too little is put out for a pack to be eaten in time are left out in
  // those weeks, or opened in time all the same, whichever is cheaper.
  std::optional<PlanDraft> with_fresh_packs(const SpellAnswer& relaxed) {
    auto draft = drafted(relaxed, {}, Packs::whole);
    for (std::size_t round = 0; draft && round < question_.offers.size(); ++round) {
      const auto f = stale_feed(*draft);
      if (!f) return draft;
      std::optional<PlanDraft> better;
      for (const OpenPack choice : {OpenPack::in_time, OpenPack::without}) {
        auto trial = solved_again(with_packs(*draft, *f, choice));
        if (trial && (!better || trial->cost < better->cost)) better = std::move(trial);
      }
      draft = std::move(better);
    }
    return draft && !stale_feed(*draft) ? std::move(draft) : std::nullopt;
  }

  [[nodiscard]] bool is_stale(const PlanDraft& draft, std::size_t f, std::size_t w) const {
    const double out = draft.demand[f].put_out[w];
    return out > 0.0 && out + draft.demand[f].thrown_away[w] <
                            opened_in_time_kg(question_, f, w) * (1.0 - no_saving);
  }

  [[nodiscard]] std::optional<std::size_t> stale_feed(const PlanDraft& draft) const {
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
        if (is_stale(draft, f, w)) return f;
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] SeasonChoices with_packs(const PlanDraft& draft, std::size_t f,
                                         OpenPack choice) const {
    SeasonChoices choices = draft.choices;
    if (choices.open_packs.empty()) {
      choices.open_packs.assign(question_.offers.size(),
                                std::vector<OpenPack>(question_.weeks.size(), OpenPack::any));
    }
    for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
      // Out of a week, out of the season: else it would come back stale elsewhere.
      if (choice == OpenPack::without || draft.demand[f].put_out[w] > 0.0) {
        choices.open_packs[f][w] = choice;
      }
    }
    return choices;
  }

  // Where the packs of many feeds do not fit the store, without those fed least.
  std::optional<PlanDraft> with_fewer_feeds(const SpellAnswer& relaxed) {
    auto loose = drafted(relaxed, {}, Packs::any);
    if (!loose) return std::nullopt;
    std::vector<std::pair<double, std::size_t>> fed;
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      double sum = 0.0;
      for (const double kg : loose->demand[f].put_out) sum += kg;
      if (sum > 0.0 && question_.supply[f].pack) fed.emplace_back(sum, f);
    }
    std::sort(fed.begin(), fed.end());
    SeasonChoices choices;
    choices.most_bought.resize(question_.offers.size());
    for (const auto& [kg, f] : fed) {
      if (!may_search(*loose)) break;
      const auto before = choices.most_bought[f];
      choices.most_bought[f] = KgAsFed{0.0};
      SpellAnswer answer = solve_spells(question_, parts_, spells_, choices, clock_);
      ++searches_;
      if (answer.solution.status != Status::optimal) {
        choices.most_bought[f] = before;
        continue;
      }
      auto draft = drafted(std::move(answer), choices, Packs::whole);
      if (draft && !stale_feed(*draft)) return draft;
    }
    return std::nullopt;
  }

  // Of a small yard, the packs of all feeds at once.
  void choose_packs(PlanDraft& draft) {
    if (!may_search(draft)) return;
    auto totals = cheapest_totals(question_, parts_, spells_, draft.choices, clock_);
    if (!totals) return;
    SeasonChoices choices = draft.choices;
    choices.most_bought = std::move(*totals);
    auto trial = solved_again(std::move(choices));
    if (trial && trial->cost < draft.cost && !stale_feed(*trial)) draft = std::move(*trial);
  }

  // A pack begun at the end of the season is paid for in full: each such feed is tried
  // with a pack less, and without it, all else solved again.
  void save_packs(PlanDraft& draft) {
    bool saved = true;
    while (saved) {
      saved = false;
      for (const std::size_t f : by_worth_left(draft)) {
        const double pack = question_.supply[f].pack->in_kg();
        double bought = 0.0;
        for (const double kg : draft.bought[f]) bought += kg;
        for (const double most : {bought - pack, 0.0}) {
          if (!may_search(draft)) return;
          SeasonChoices choices = draft.choices;
          choices.most_bought.resize(question_.offers.size());
          choices.most_bought[f] = KgAsFed{std::max(0.0, most)};
          auto trial = solved_again(std::move(choices));
          const double less = draft.cost - no_saving * std::max(1.0, std::abs(draft.cost));
          if (trial && trial->cost < less && !stale_feed(*trial)) {
            draft = std::move(*trial);
            saved = true;
            break;
          }
          if (most <= 0.0) break;
        }
      }
    }
  }

  // Feeds bought in packs of which something is left over, the dearest leavings first.
  [[nodiscard]] std::vector<std::size_t> by_worth_left(const PlanDraft& draft) const {
    std::vector<std::pair<double, std::size_t>> left;
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      const bool packed = question_.supply[f].pack.has_value();
      const bool is_bought = std::any_of(draft.bought[f].begin(), draft.bought[f].end(),
                                         [](double kg) { return kg > 0.0; });
      if (!packed || !is_bought) continue;
      const auto stock = stock_of(question_, f, draft.demand[f], draft.bought[f]);
      const double worth =
          stock ? stock->back().closing * plain_cost_per_kg(question_, f, 0).in_units() : 0.0;
      if (worth > 0.0) left.emplace_back(-worth, f);
    }
    std::sort(left.begin(), left.end());
    std::vector<std::size_t> order;
    for (const auto& [worth, f] : left) order.push_back(f);
    return order;
  }

  // Against every row of every ration, implied or not.
  [[nodiscard]] bool is_feasible(const PlanDraft& draft) const {
    const SeasonProgram all = season_program(question_, parts_, draft.answer.program.spells,
                                             draft.choices, ImpliedRows::keep);
    return certify_feasible(all.program, draft.answer.solution, 0.0).largest_violation <=
           certificate_tolerance;
  }

  void write_up(const PlanDraft& draft, SeasonPlan& out) const {
    out.cost = Money{draft.cost};
    out.orders =
        order_lines(question_, draft.bought, out.in_whole_packs ? Packs::whole : Packs::any);
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      out.stock.push_back(stock_of(question_, f, draft.demand[f], draft.bought[f]).value());
    }
    out.largest_imbalance = largest_imbalance(out.stock);
    out.eaten.resize(question_.horses.size());
    const SeasonProgram& program = draft.answer.program;
    for (std::size_t h = 0; h < parts_.herds.size(); ++h) {
      const Herd& herd = parts_.herds[h];
      for (std::size_t i = 0; i < herd.horses.size(); ++i) {
        const std::size_t horse = herd.horses[i];
        out.eaten[horse].resize(question_.weeks.size());
        for (std::size_t s = 0; s < program.spells[h].size(); ++s) {
          const Spell& spell = program.spells[h][s];
          const std::size_t ration = question_.horses[horse].ration_of_week[spell.first];
          const auto from = draft.answer.solution.columns.begin() + program.eat[h][s];
          std::vector<double> amounts(
              from, from + static_cast<std::ptrdiff_t>(question_.rations[ration].offers.size()));
          for (double& kg : amounts) kg *= herd.share[i];
          for (std::size_t w = spell.first; w <= spell.last; ++w) out.eaten[horse][w] = amounts;
        }
      }
    }
  }

  const SeasonQuestion& question_;
  const SeasonOptions& options_;
  SeasonClock clock_;
  SeasonParts parts_;
  Spells spells_;
  int searches_ = 0;
};

}  // namespace

SeasonPlan plan_season(const SeasonQuestion& question, const SeasonOptions& options) {
  return Planner(question, options).plan();
}

}  // namespace haymow
