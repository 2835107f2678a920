#include "solver/gang.h"

#include <utility>

namespace haymow {

// A list of what is thrown is no exception that somebody forgot to throw.
Gang::Gang(std::size_t count) : thrown_(count) {  // NOLINT(bugprone-throw-keyword-missing)
  for (std::size_t i = 1; i < count; ++i) {
    threads_.emplace_back([this, i] { work(i); });
  }
}

Gang::~Gang() {
  {
    const std::lock_guard lock(mutex_);
    is_over_ = true;
  }
  start_.notify_all();
  for (std::thread& thread : threads_) thread.join();
}

void Gang::run(const std::function<void(std::size_t)>& task) {
  {
    const std::lock_guard lock(mutex_);
    task_ = &task;
    busy_ = threads_.size();
    ++round_;
  }
  start_.notify_all();
  attempt(0);
  {
    std::unique_lock lock(mutex_);
    done_.wait(lock, [this] { return busy_ == 0; });
  }
  for (std::exception_ptr& thrown : thrown_) {
    if (thrown) std::rethrow_exception(std::exchange(thrown, nullptr));
  }
}

void Gang::attempt(std::size_t mine) {
  try {
    (*task_)(mine);
  } catch (...) {
    thrown_[mine] = std::current_exception();
  }
}

void Gang::work(std::size_t mine) {
  unsigned seen = 0;
  std::unique_lock lock(mutex_);
  while (true) {
    start_.wait(lock, [&] { return is_over_ || round_ != seen; });
    if (is_over_) return;
    seen = round_;
    lock.unlock();
    attempt(mine);
    lock.lock();
    if (--busy_ == 0) done_.notify_one();
  }
}

}  // namespace haymow
