// A season that is watched while it is planned, and stopped.
#include "model/season_watch.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <vector>

#include "model/season_plan.h"
#include "tests/model/hand_yard.h"

namespace haymow::season_watch_test {
namespace {

using namespace hand_made;

// 700 kg of hay in bales of 18: a pack is to be saved, so it is solved again.
SeasonQuestion baled() {
  SeasonQuestion yard = yard_of(1, 10.0, 70, {fed("hay")});
  yard.supply[0].pack = KgAsFed{18.0};
  return yard;
}

TEST(SeasonWatch, IsToldTheStepsInTheirOrderAndChangesNothing) {
  std::vector<SeasonStep> steps;
  SeasonOptions options;
  options.watch.stop = [] { return false; };
  options.watch.tell = [&steps](const SeasonProgress& p) { steps.push_back(p.step); };
  const SeasonPlan watched = plan_season(baled(), options);
  ASSERT_GE(steps.size(), 3U);
  EXPECT_EQ(steps[0], SeasonStep::steady);
  EXPECT_EQ(steps[1], SeasonStep::weeks);
  EXPECT_EQ(steps.back(), SeasonStep::whole_packs);
  const SeasonPlan alone = plan_season(baled());
  EXPECT_EQ(watched.status, SeasonStatus::found);
  EXPECT_FALSE(watched.stopped);
  EXPECT_EQ(watched.eaten, alone.eaten);
  EXPECT_EQ(watched.cost, alone.cost);
}

TEST(SeasonWatch, StoppedBeforeAnythingIsNoPlanAndNoFailure) {
  SeasonOptions options;
  options.watch.stop = [] { return true; };
  const SeasonPlan plan = plan_season(baled(), options);
  EXPECT_EQ(plan.status, SeasonStatus::limit_reached);
  EXPECT_TRUE(plan.stopped);
  EXPECT_TRUE(plan.eaten.empty());
  EXPECT_LE(plan.lower_bound.in_units(), 700.0 + 1e-6);
}

TEST(SeasonWatch, StoppedWhileItSavesPacksKeepsTheCertifiedPlan) {
  bool stop = false;
  SeasonOptions options;
  options.watch.stop = [&stop] { return stop; };
  options.watch.tell = [&stop](const SeasonProgress& p) {
    stop = stop || p.step == SeasonStep::whole_packs;
  };
  const SeasonPlan plan = plan_season(baled(), options);
  EXPECT_EQ(plan.status, SeasonStatus::found);
  EXPECT_TRUE(plan.stopped);
  EXPECT_TRUE(plan.certificate.holds());
  ASSERT_EQ(plan.orders.size(), 1U);
  EXPECT_EQ(plan.orders[0].packs, 39);
}

}  // namespace
}  // namespace haymow::season_watch_test
