// Many like pieces of work on several threads, with what comes of them in the order
// in which they came in and never more than a few pieces in memory. It knows nothing
// of what the work is.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <map>
#include <mutex>
#include <optional>
#include <thread>
#include <type_traits>
#include <utility>
#include <vector>

namespace haymow {

/// Pieces a thread may be ahead of the slowest, for each thread.
inline constexpr std::size_t pieces_ahead = 8;

/// Calls `read() -> std::optional<Piece>` until it has no more, `work(Piece) -> Done`
/// on each, and `write(Done)` on every result in the order of the reading. `make_work()`
/// makes the `work` of one thread. `read` and `write` are never called twice at once,
/// though by any thread. One job runs on the thread that calls. Rethrows the first
/// exception of any of the three, after every thread has stopped.
template <class Read, class MakeWork, class Write>
void in_order(std::size_t jobs, Read read, MakeWork make_work, Write write) {
  if (jobs <= 1) {
    auto work = make_work();
    while (auto piece = read()) write(work(std::move(*piece)));
    return;
  }
  using Piece = typename decltype(read())::value_type;
  using Done = std::invoke_result_t<decltype(make_work()), Piece>;
  std::mutex door;  // of all that follows
  std::condition_variable moved;
  std::size_t next_in = 0;
  std::size_t next_out = 0;
  bool ended = false;
  bool reading = false;
  bool writing = false;
  std::map<std::size_t, Done> waiting;
  std::exception_ptr failure;
  // One thread at a time reads, and one writes, with the door open: the others go on.
  const auto write_ready = [&](std::unique_lock<std::mutex>& lock) {
    if (writing) return;
    writing = true;
    while (!failure && !waiting.empty() && waiting.begin()->first == next_out) {
      auto ready = waiting.extract(waiting.begin());
      lock.unlock();
      write(std::move(ready.mapped()));
      lock.lock();
      ++next_out;
      moved.notify_all();
    }
    writing = false;
  };
  const auto loop = [&] {
    std::unique_lock<std::mutex> lock(door, std::defer_lock);
    try {
      auto work = make_work();
      lock.lock();
      while (true) {
        moved.wait(lock,
                   [&] { return ended || (!reading && next_in < next_out + jobs * pieces_ahead); });
        if (ended) return;
        reading = true;
        lock.unlock();
        std::optional<Piece> piece = read();
        lock.lock();
        reading = false;
        if (!piece) ended = true;
        moved.notify_all();
        if (!piece) return;
        const std::size_t place = next_in++;
        lock.unlock();
        Done done = work(std::move(*piece));
        lock.lock();
        waiting.emplace(place, std::move(done));
        write_ready(lock);
      }
    } catch (...) {
      if (!lock.owns_lock()) lock.lock();
      if (!failure) failure = std::current_exception();
      ended = true;
      moved.notify_all();
    }
  };
  std::vector<std::thread> threads;
  threads.reserve(jobs);
  for (std::size_t j = 0; j < jobs; ++j) threads.emplace_back(loop);
  for (std::thread& thread : threads) thread.join();
  if (failure) std::rethrow_exception(failure);
}

}  // namespace haymow
