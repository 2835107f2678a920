#include "scenarios/page_task.h"

#include <utility>

namespace haymow {

using Json = nlohmann::ordered_json;

PageTasks::Number PageTasks::ask(TaskAsked asked) {
  waiting_ = Taken{++last_, std::move(asked)};
  stopping_ = replaced_ = working_.has_value();
  return last_;
}

std::optional<PageTasks::Taken> PageTasks::take() {
  if (working_ || !waiting_) return std::nullopt;
  std::optional<Taken> taken = std::exchange(waiting_, std::nullopt);
  working_ = taken->number;
  at_.clear();
  stopping_ = replaced_ = false;
  return taken;
}

void PageTasks::at(std::string words) { at_ = std::move(words); }

void PageTasks::finish(Json answer) {
  if (!working_) return;
  if (!replaced_) done_ = Done{*working_, std::move(answer)};
  working_.reset();
}

bool PageTasks::stop(Number number) {
  if (waiting_ && waiting_->number == number) {
    waiting_.reset();
    return true;
  }
  if (working_ != number || replaced_) return false;
  stopping_ = true;
  return true;
}

void PageTasks::stop_all() {
  waiting_.reset();
  stopping_ = working_.has_value();
}

bool PageTasks::is_under_way(Number number) const {
  return (waiting_ && waiting_->number == number) || (working_ == number && !replaced_);
}

Json PageTasks::told(Number number) const {
  if (waiting_ && waiting_->number == number) return {{"state", "waiting"}};
  if (working_ == number && !replaced_) {
    return {{"state", "working"}, {"at", at_}, {"stopping", stopping_}};
  }
  if (done_ && done_->number == number) return {{"state", "done"}, {"answer", done_->answer}};
  return {{"state", "gone"}};
}

}  // namespace haymow
