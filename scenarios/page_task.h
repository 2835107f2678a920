// What takes its time on the page, one thing at a time: which is at work, which waits,
// what the last has come to. Plain state without thread or clock (page_worker.h has both).
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

namespace haymow {

struct TaskAsked {
  std::string view;  // name_of(PageView)
  std::string text;  // of the scenario
  std::string file;  // names the text in messages
};

/// At most one at work, one that waits and one that is done: what is asked anew takes
/// the place of what was asked before.
class PageTasks {
 public:
  using Number = std::uint64_t;
  struct Taken {
    Number number = 0;
    TaskAsked asked;
  };

  /// The number of what is asked, from 1. What is at work is to stop, what waits is
  /// forgotten.
  Number ask(TaskAsked asked);
  /// What waits, where nothing is at work; from now on it is.
  [[nodiscard]] std::optional<Taken> take();
  /// Of what is at work: what it does now, in words.
  void at(std::string words);
  /// What is at work has come to `answer`, which nobody wants where something newer was
  /// asked.
  void finish(nlohmann::ordered_json answer);
  /// False when there is no such task any more. What waits is forgotten at once.
  bool stop(Number number);
  void stop_all();

  [[nodiscard]] bool is_idle() const { return !working_; }
  /// True: what is at work is to end soon.
  [[nodiscard]] bool is_to_stop() const { return working_ && stopping_; }
  /// What is at work or waits is this one.
  [[nodiscard]] bool is_under_way(Number number) const;

  /// {state: waiting} {state: working, at, stopping} {state: done, answer} {state: gone}
  [[nodiscard]] nlohmann::ordered_json told(Number number) const;

 private:
  struct Done {
    Number number = 0;
    nlohmann::ordered_json answer;
  };
  Number last_ = 0;
  std::optional<Taken> waiting_;
  std::optional<Number> working_;
  std::optional<Done> done_;
  std::string at_;
  bool stopping_ = false;
  bool replaced_ = false;
};

}  // namespace haymow
