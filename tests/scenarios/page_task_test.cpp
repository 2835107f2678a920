// What takes its time on the page: the state of it by chance, against what anybody can
// keep in mind; the thread with work that is under the test's hand.
#include "scenarios/page_task.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>
#include <thread>

#include "scenarios/page_worker.h"

namespace haymow::page_task_test {
namespace {

using Json = nlohmann::ordered_json;
using ::testing::HasSubstr;

std::string state_of(const PageTasks& tasks, PageTasks::Number number) {
  return tasks.told(number)["state"];
}

TEST(PageTasks, GoFromWaitingToWorkingToDone) {
  PageTasks tasks;
  const auto number = tasks.ask({"winter", "text", "file"});
  EXPECT_EQ(state_of(tasks, number), "waiting");
  const auto taken = tasks.take();
  ASSERT_TRUE(taken);
  EXPECT_EQ(taken->asked.view, "winter");
  tasks.at("week by week");
  EXPECT_EQ(tasks.told(number)["at"], "week by week");
  tasks.finish({{"answer", "x"}});
  EXPECT_EQ(tasks.told(number)["answer"]["answer"], "x");
  EXPECT_TRUE(tasks.is_idle());
}

TEST(PageTasks, WhatIsAskedAnewStopsWhatIsAtWorkAndTakesItsPlace) {
  PageTasks tasks;
  const auto first = tasks.ask({"winter", "a", "f"});
  static_cast<void>(tasks.take());
  const auto second = tasks.ask({"winter", "b", "f"});
  const auto third = tasks.ask({"winter", "c", "f"});
  EXPECT_TRUE(tasks.is_to_stop());
  EXPECT_FALSE(tasks.take()) << "one at a time";
  EXPECT_EQ(state_of(tasks, first), "gone");
  EXPECT_EQ(state_of(tasks, second), "gone");
  EXPECT_EQ(state_of(tasks, third), "waiting");
  tasks.finish({{"answer", "of the first"}});
  EXPECT_EQ(state_of(tasks, first), "gone") << "nobody wants it";
  EXPECT_EQ(tasks.take()->number, third);
  EXPECT_FALSE(tasks.is_to_stop());
}

TEST(PageTasks, StopEndsWhatIsAtWorkAndKeepsWhatItHas) {
  PageTasks tasks;
  const auto number = tasks.ask({"winter", "a", "f"});
  static_cast<void>(tasks.take());
  EXPECT_FALSE(tasks.stop(number + 1));
  EXPECT_FALSE(tasks.is_to_stop());
  EXPECT_TRUE(tasks.stop(number));
  EXPECT_TRUE(tasks.is_to_stop());
  EXPECT_EQ(tasks.told(number)["stopping"], true);
  tasks.finish({{"answer", "what was known"}});
  EXPECT_EQ(state_of(tasks, number), "done");
  EXPECT_FALSE(tasks.stop(number)) << "there is nothing to stop any more";
}

// Whatever is done in whatever order: one at work at most, the newest is never lost, and
// nothing but the last answer is kept.
RC_GTEST_PROP(PageTasksProperty, NeverLoseTheNewestAndNeverKeepTheOld, ()) {
  PageTasks tasks;
  PageTasks::Number newest = 0;
  std::optional<PageTasks::Number> at_work;
  bool newest_stopped = false;
  for (const int step : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 5))) {
    if (step == 0) {
      newest = tasks.ask({"winter", "t", "f"});
      newest_stopped = false;
    } else if (step == 1) {
      const auto taken = tasks.take();
      if (taken) {
        RC_ASSERT(!at_work);
        RC_ASSERT(taken->number == newest);
        at_work = taken->number;
      }
    } else if (step == 2) {
      tasks.finish({{"of", at_work.value_or(0)}});
      at_work.reset();
    } else if (step == 3) {
      newest_stopped = tasks.stop(newest) || newest_stopped;
    } else {
      static_cast<void>(tasks.stop(*rc::gen::inRange<PageTasks::Number>(0, newest + 2)));
    }
    int kept = 0;
    for (PageTasks::Number n = 0; n <= newest + 1; ++n) {
      const Json told = tasks.told(n);
      kept += told["state"] == "done" ? 1 : 0;
      if (told["state"] == "done") RC_ASSERT(told["answer"]["of"] == n);
      if (n != newest) RC_ASSERT(told["state"] == "gone" || told["state"] == "done");
    }
    RC_ASSERT(kept <= 1);
    if (at_work && at_work != newest && newest != 0) RC_ASSERT(tasks.is_to_stop());
  }
}

// What the worker says once it is no longer `waiting` or `working`.
Json in_the_end(PageWorker& worker, PageTasks::Number number) {
  while (true) {
    Json told = worker.told(number);
    if (told["state"] != "waiting" && told["state"] != "working") return told;
    std::this_thread::yield();
  }
}

void wait_for_stop(const Watch& watch) {
  while (!watch.stopped()) std::this_thread::yield();
}

TEST(PageWorker, TellsHowFarItIsInTheWordsOfTheTerminal) {
  std::promise<void> told;
  std::promise<void> go_on;
  PageWorker worker([&](const TaskAsked&, const Watch& watch) {
    watch.now("planning the winter");
    watch.season.at(SeasonStep::whole_packs, 3, 12);
    told.set_value();
    go_on.get_future().wait();
    return Json{{"answer", "x"}};
  });
  const auto number = worker.ask({"winter", "", ""});
  told.get_future().wait();
  EXPECT_EQ(worker.told(number)["at"], "planning the winter: whole packs, 3 of at most 12");
  go_on.set_value();
  EXPECT_EQ(in_the_end(worker, number)["answer"]["answer"], "x");
}

TEST(PageWorker, StopsWhenAskedTo) {
  PageWorker worker([](const TaskAsked&, const Watch& watch) {
    wait_for_stop(watch);
    return Json{{"stopped", true}};
  });
  const auto number = worker.ask({"winter", "", ""});
  while (worker.told(number)["state"] != "working") std::this_thread::yield();
  EXPECT_TRUE(worker.stop(number));
  EXPECT_EQ(in_the_end(worker, number)["answer"]["stopped"], true);
}

TEST(PageWorker, WorksOnTheNewestAlone) {
  std::atomic<int> begun = 0;
  PageWorker worker([&](const TaskAsked& asked, const Watch& watch) {
    ++begun;
    if (asked.text == "old") wait_for_stop(watch);
    return Json{{"of", asked.text}};
  });
  const auto old = worker.ask({"winter", "old", ""});
  while (worker.told(old)["state"] != "working") std::this_thread::yield();
  for (int i = 0; i < 100; ++i) static_cast<void>(worker.ask({"winter", "old", ""}));
  const auto newest = worker.ask({"winter", "new", ""});
  EXPECT_EQ(in_the_end(worker, newest)["answer"]["of"], "new");
  EXPECT_EQ(worker.told(old)["state"], "gone");
}

TEST(PageWorker, EndsByItselfWhatNobodyAsksAfterOrTakesTooLong) {
  for (const TaskLimits limits :
       {TaskLimits{std::chrono::seconds{0}, std::chrono::seconds{9999}},
        TaskLimits{std::chrono::seconds{9999}, std::chrono::seconds{0}}}) {
    std::promise<void> ended;
    PageWorker worker(
        [&](const TaskAsked&, const Watch& watch) {
          wait_for_stop(watch);
          ended.set_value();
          return Json::object();
        },
        limits);
    static_cast<void>(worker.ask({"winter", "", ""}));
    ended.get_future().wait();
  }
}

TEST(PageWorker, OutlivesAMistakeOfOurs) {
  PageWorker worker([](const TaskAsked& asked, const Watch&) -> Json {
    if (asked.text == "bad") throw std::logic_error("so it is");
    return {{"answer", "x"}};
  });
  const Json bad = in_the_end(worker, worker.ask({"winter", "bad", ""}));
  EXPECT_THAT(bad["answer"]["refused"].get<std::string>(), HasSubstr("so it is"));
  EXPECT_EQ(in_the_end(worker, worker.ask({"winter", "good", ""}))["answer"]["answer"], "x");
}

TEST(PageWorker, WaitsForNothingWhenItIsTakenDown) {
  std::promise<void> begun;
  PageWorker worker([&](const TaskAsked&, const Watch& watch) {
    begun.set_value();
    wait_for_stop(watch);
    return Json::object();
  });
  static_cast<void>(worker.ask({"winter", "", ""}));
  begun.get_future().wait();
}

}  // namespace
}  // namespace haymow::page_task_test
