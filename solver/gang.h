// Private to solver/. A few threads that do the same task at the same time, each its own
// part of it, and wait for each other. What belongs to a thread (a GLPK problem does)
// can so be made, used and unmade on it.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace haymow {

class Gang {
 public:
  /// `count` at least 1; the caller's own thread is the first of them.
  explicit Gang(std::size_t count);
  ~Gang();
  Gang(const Gang&) = delete;
  Gang& operator=(const Gang&) = delete;

  [[nodiscard]] std::size_t size() const { return threads_.size() + 1; }
  /// Runs task(0) to task(size() - 1), each on its thread, and returns when all are
  /// done; then throws what the first of them threw.
  void run(const std::function<void(std::size_t)>& task);

 private:
  void work(std::size_t mine);
  void attempt(std::size_t mine);

  std::mutex mutex_;
  std::condition_variable start_;
  std::condition_variable done_;
  const std::function<void(std::size_t)>* task_ = nullptr;
  std::vector<std::exception_ptr> thrown_;  // one a thread
  unsigned round_ = 0;
  std::size_t busy_ = 0;
  bool is_over_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace haymow
