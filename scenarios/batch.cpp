#include "scenarios/batch.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <exception>
#include <thread>
#include <utility>

#include "scenarios/batch_output.h"
#include "scenarios/batch_progress.h"
#include "scenarios/batch_reader.h"
#include "scenarios/batch_records.h"
#include "scenarios/files.h"
#include "scenarios/in_order.h"
#include "scenarios/report_json_batch.h"
#include "scenarios/terminal.h"
#include "scenarios/version.h"

namespace haymow {
namespace {

// Enough that taking turns costs nothing, few enough that an answer is not kept waiting.
constexpr std::size_t records_a_piece = 16;

/// The answer to a record, before it is known whether its key is its own.
struct Answered {
  RecordKey about;
  std::size_t number = 0;
  SourcePosition position;
  std::string line;
  std::string status;
};

class Batch {
 public:
  Batch(const Command& command, const std::atomic<bool>& stop)
      : command_(command),
        stop_(stop),
        source_(command.file, &stop),
        output_(command.output, command.overwrite),
        progress_(is_watched(command.quiet), terminal_width()) {
    std::string shared;
    if (command.base) {
      shared = read_whole(*command.base);
      shared_.emplace(shared, *command.base == "-" ? "standard input" : *command.base);
      if (!command.quiet) tell_of_shared();
    }
    const std::string way = fmt::format("haymow {} {}", version, command.full ? "full" : "brief");
    of_all_ = digest_of(shared, digest_of(way));
  }

  ExitStatus run() {
    keep_what_is_done();
    progress_.begin(tally_.records(), source_.share_read());
    if (stop_) return told_end();  // perhaps in the middle: the file is as it was
    const std::size_t jobs = command_.jobs ? static_cast<std::size_t>(*command_.jobs)
                                           : std::max(1U, std::thread::hardware_concurrency());
    in_order(
        jobs, [&] { return next_piece(); },
        [&] {
          return [this, reader = RecordReader(shared_ ? &*shared_ : nullptr)](
                     const std::vector<Record>& piece) mutable {
            std::vector<Answered> answers;
            answers.reserve(piece.size());
            for (const Record& record : piece) answers.push_back(answered(record, reader));
            return answers;
          };
        },
        [&](std::vector<Answered> answers) { write(std::move(answers)); });
    progress_.erase();
    output_.finish();
    return told_end();
  }

 private:
  void tell_of_shared() const {
    const auto say = [&](const std::string& what) {
      fmt::print(stderr, "haymow: {}: {}\n", *command_.base, what);
    };
    if (const std::size_t horses = shared_->own_horses(); horses > 0) {
      say(fmt::format("{} not answered; a batch answers the records",
                      horses == 1 ? "its horse is" : fmt::format("its {} horses are", horses)));
    }
    if (const std::size_t count = shared_->remarks().size(); count > 0) {
      say(fmt::format("{} {} made; `haymow check` shows {}", count,
                      count == 1 ? "assumption was" : "assumptions were",
                      count == 1 ? "it" : "them"));
    }
    if (shared_->has_stock()) {
      say("what is on hand is counted for each record as if it were the only one");
    }
  }

  [[nodiscard]] RecordKey with_all(RecordKey about) const {
    about.digest = digest_of({}, about.digest ^ of_all_);
    return about;
  }

  // Goes over the answers that an earlier run has left: they must be those of the
  // records, one by one.
  void keep_what_is_done() {
    std::uint64_t end = 0;
    while (auto line = output_.next_kept()) {
      const auto record = source_.next();
      if (stop_) return;
      if (!record) refuse_kept(fmt::format("it holds more answers than there are records"));
      const RecordKey about = with_all(key_of(*record));
      const std::string head = batch_line_head(about) + std::string(status_key);
      const std::size_t both = std::min(head.size(), line->text.size());
      if (line->text.compare(0, both, head, 0, both) != 0 ||
          (line->has_end && both < head.size())) {
        refuse_kept(fmt::format("its line {} is not the answer to record {}, {}", record->number,
                                record->number,
                                about.key ? fmt::format("`{}`", *about.key) : "which has no key"));
      }
      if (!line->has_end) {
        first_ = record;  // cut off in the middle: to be answered again
        break;
      }
      end = line->end;
      const std::size_t quote = line->text.find('"', head.size());
      tally_.count(std::string_view(line->text).substr(head.size(), quote - head.size()));
      if (about.key) static_cast<void>(keys_.met(*about.key, record->number));
    }
    output_.cut_to(end);
  }

  [[noreturn]] void refuse_kept(const std::string& why) const {
    throw UnwritableFile(
        fmt::format("cannot go on with `{}`: {}\nhelp: the records, what they share, the options "
                    "and the version of haymow must be as they were; name another file, or add "
                    "--force to begin again",
                    *command_.output, why));
  }

  std::optional<std::vector<Record>> next_piece() {
    std::vector<Record> piece;
    if (stop_) return std::nullopt;
    while (piece.size() < records_a_piece && !is_gone_) {
      if (!piece.empty() && !source_.is_ready()) break;
      auto record = first_ ? std::exchange(first_, std::nullopt) : source_.next();
      if (!record) break;
      piece.push_back(std::move(*record));
    }
    if (piece.empty()) return std::nullopt;
    return piece;
  }

  Answered answered(const Record& record, RecordReader& reader) const {
    Answered out;
    out.number = record.number;
    out.position = {record.file, record.line, 1};
    RecordReader::Read read = reader.read(record);
    out.about = with_all(read.about);
    out.status = "input";
    if (read.scenario == nullptr) {
      out.line = batch_line(out.about, out.status, read.diagnostics);
      return out;
    }
    try {
      RunOptions options;
      options.brief = !command_.full;
      const auto answers = haymow::run(*read.scenario, options);
      out.line = batch_line(out.about, *read.scenario, answers, read.diagnostics, command_.full);
      AnswerStatus worst = AnswerStatus::found;
      for (const HorseAnswer& answer : answers) worst = worse(worst, answer.worst());
      out.status = name_of(worst);
    } catch (const std::exception& error) {
      Diagnostic fault;
      fault.position = out.position;
      fault.message = fmt::format("a mistake of ours: {}", error.what());
      fault.help = "please report it, with the record";
      out.status = "failed";
      out.line = batch_line(out.about, out.status, {fault});
    }
    return out;
  }

  void write(std::vector<Answered> answers) {
    std::string lines;
    for (Answered& answer : answers) {
      const auto before =
          answer.about.key ? keys_.met(*answer.about.key, answer.number) : std::nullopt;
      if (before) {
        Diagnostic twice;
        twice.position = answer.position;
        twice.message =
            fmt::format("the key `{}` is that of record {} already", *answer.about.key, *before);
        twice.help = "give each record a key of its own";
        answer.status = "input";
        answer.line = batch_line(answer.about, answer.status, {twice});
      }
      tally_.count(answer.status);
      lines += answer.line;
    }
    if (!is_gone_ && !output_.write(lines)) is_gone_ = true;
    progress_.at(tally_.records(), source_.share_read());
  }

  [[nodiscard]] ExitStatus told_end() const {
    if (is_gone_) return ExitStatus::done;
    if (stop_) {
      if (!command_.quiet) {
        fmt::print(stderr, "haymow: stopped after {} records{}\n", tally_.records(),
                   command_.output && *command_.output != "-"
                       ? "; the same command goes on from there"
                       : "");
      }
      return ExitStatus::interrupted;
    }
    if (!command_.quiet && tally_.wrong + tally_.failed > 0) {
      fmt::print(stderr, "haymow: {} of {} records could not be answered; their lines say why\n",
                 tally_.wrong + tally_.failed, tally_.records());
    }
    return tally_.exit_status();
  }

  const Command& command_;
  const std::atomic<bool>& stop_;
  RecordSource source_;
  BatchOutput output_;
  std::optional<SharedScenario> shared_;
  std::uint64_t of_all_ = 0;     // digest of what all answers hang on
  std::optional<Record> first_;  // read already
  KeysMet keys_;
  BatchProgress progress_;
  BatchTally tally_;
  std::atomic<bool> is_gone_ = false;  // whoever read standard output
};

// What a signal can reach.
// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables)
std::atomic<bool> told_to_stop = false;
static_assert(std::atomic<bool>::is_always_lock_free);

}  // namespace

void BatchTally::count(std::string_view status) {
  if (status == "found") {
    ++found;
  } else if (status == "input") {
    ++wrong;
  } else if (status == "failed") {
    ++failed;
  } else {
    ++none;
  }
}

ExitStatus BatchTally::exit_status() const {
  if (failed > 0) return ExitStatus::failed;
  if (wrong > 0) return ExitStatus::input;
  return none > 0 ? ExitStatus::no : ExitStatus::done;
}

std::size_t KeysMet::slot_of(std::uint64_t key) const {
  std::size_t slot = key & (keys_.size() - 1);
  while (keys_[slot] != 0 && keys_[slot] != key) slot = (slot + 1) & (keys_.size() - 1);
  return slot;
}

void KeysMet::grow() {
  const std::vector<std::uint64_t> keys = std::move(keys_);
  const std::vector<std::uint32_t> numbers = std::move(numbers_);
  const std::size_t room = std::max<std::size_t>(1024, keys.size() * 2);
  keys_.assign(room, 0);
  numbers_.assign(room, 0);
  for (std::size_t k = 0; k < keys.size(); ++k) {
    if (keys[k] == 0) continue;
    const std::size_t slot = slot_of(keys[k]);
    keys_[slot] = keys[k];
    numbers_[slot] = numbers[k];
  }
}

std::optional<std::size_t> KeysMet::met(std::string_view key, std::size_t number) {
  constexpr std::size_t quarters_full = 3;
  if (used_ * 4 >= keys_.size() * quarters_full) grow();
  const std::uint64_t hash = std::max<std::uint64_t>(1, digest_of(key));
  const std::size_t slot = slot_of(hash);
  if (keys_[slot] == hash) return numbers_[slot];
  keys_[slot] = hash;
  numbers_[slot] = static_cast<std::uint32_t>(number);
  ++used_;
  return std::nullopt;
}

ExitStatus batch(const Command& command, const std::atomic<bool>& stop) {
  return Batch(command, stop).run();
}

ExitStatus batch_command(const Command& command) {
  struct sigaction action {};
  action.sa_handler = [](int) { told_to_stop = true; };
  // The second Ctrl-C ends the program where it stands; a wait for input is broken off.
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    struct sigaction before {};
    ::sigaction(signal, nullptr, &before);
    // Ignored from the start, as by nohup: it stays so.
    if (before.sa_handler != SIG_IGN) ::sigaction(signal, &action, nullptr);
  }
  return batch(command, told_to_stop);
}

}  // namespace haymow
