#include "scenarios/page_worker.h"

#include <fmt/format.h>
#include <sys/resource.h>

#include <memory>
#include <utility>

#include "scenarios/progress_line.h"

namespace haymow {
namespace {

using Json = nlohmann::ordered_json;

// What is answered at once goes first. Linux takes it for the calling thread alone and
// for those that it begins; where that is refused, nothing is lost.
void step_back() { static_cast<void>(::setpriority(PRIO_PROCESS, 0, 5)); }

}  // namespace

PageWorker::PageWorker(Work work, TaskLimits limits)
    : work_(std::move(work)), limits_(limits), thread_([this] { work_on(); }) {}

PageWorker::~PageWorker() {
  {
    const std::lock_guard lock(mutex_);
    is_over_ = true;
    tasks_.stop_all();
  }
  something_.notify_all();
  thread_.join();
}

PageTasks::Number PageWorker::ask(TaskAsked asked) {
  const std::lock_guard lock(mutex_);
  asked_after_ = Clock::now();
  const PageTasks::Number number = tasks_.ask(std::move(asked));
  something_.notify_all();
  return number;
}

Json PageWorker::told(PageTasks::Number number) {
  const std::lock_guard lock(mutex_);
  if (tasks_.is_under_way(number)) asked_after_ = Clock::now();
  return tasks_.told(number);
}

bool PageWorker::stop(PageTasks::Number number) {
  const std::lock_guard lock(mutex_);
  return tasks_.stop(number);
}

Watch PageWorker::watch() {
  Watch watch;
  const auto words = std::make_shared<ProgressWords>();
  watch.season.stop = [this] {
    const std::lock_guard lock(mutex_);
    const auto now = Clock::now();
    return tasks_.is_to_stop() || now - begun_ > limits_.longest ||
           now - asked_after_ > limits_.unwatched;
  };
  watch.season.tell = [this, words](const SeasonProgress& progress) {
    const std::lock_guard lock(mutex_);
    words->step(progress);
    tasks_.at(words->told());
  };
  watch.stage = [this, words](std::string_view what) {
    const std::lock_guard lock(mutex_);
    words->stage(what);
    tasks_.at(words->told());
  };
  return watch;
}

// The thread outlives a mistake of ours in one task.
Json PageWorker::answer_to(const TaskAsked& asked) {
  try {
    return work_(asked, watch());
  } catch (const std::exception& error) {
    return {{"refused", fmt::format("a mistake of ours: {}", error.what())}};
  }
}

void PageWorker::work_on() {
  step_back();
  std::unique_lock lock(mutex_);
  while (!is_over_) {
    const auto taken = tasks_.take();
    if (!taken) {
      something_.wait(lock);
      continue;
    }
    begun_ = Clock::now();
    lock.unlock();
    Json answer = answer_to(taken->asked);
    lock.lock();
    tasks_.finish(std::move(answer));
  }
}

}  // namespace haymow
