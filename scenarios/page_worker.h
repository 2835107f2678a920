// The thread on which the page works out what takes its time (page_task.h), so that
// everything else is answered meanwhile. GLPK keeps its memory by threads: what this
// thread begins it ends.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <nlohmann/json.hpp>
#include <thread>

#include "scenarios/page_task.h"
#include "scenarios/watch.h"

namespace haymow {

/// After which time a task is stopped of itself. Common practice, no source.
struct TaskLimits {
  std::chrono::seconds longest{600};
  /// Nobody has asked how far it is: the page was closed. Browsers let a page that is
  /// out of sight ask once a minute.
  std::chrono::seconds unwatched{150};
};

class PageWorker {
 public:
  /// Works out one task, and ends soon when the watch says so.
  using Work = std::function<nlohmann::ordered_json(const TaskAsked&, const Watch&)>;

  explicit PageWorker(Work work, TaskLimits limits = {});
  /// Stops what is at work and waits for its end.
  ~PageWorker();
  PageWorker(const PageWorker&) = delete;
  PageWorker& operator=(const PageWorker&) = delete;

  // These may be called from any thread, and are those of PageTasks.
  PageTasks::Number ask(TaskAsked asked);
  [[nodiscard]] nlohmann::ordered_json told(PageTasks::Number number);
  bool stop(PageTasks::Number number);

 private:
  using Clock = std::chrono::steady_clock;
  void work_on();
  [[nodiscard]] Watch watch();
  [[nodiscard]] nlohmann::ordered_json answer_to(const TaskAsked& asked);

  Work work_;
  TaskLimits limits_;
  std::mutex mutex_;
  std::condition_variable something_;
  PageTasks tasks_;
  Clock::time_point begun_;
  Clock::time_point asked_after_;
  bool is_over_ = false;
  std::thread thread_;  // last: it uses all of the above
};

}  // namespace haymow
