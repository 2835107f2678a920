#include "scenarios/serve_page.h"

#include <fmt/format.h>
#include <httplib.h>
#include <spawn.h>
#include <sys/wait.h>

#include <csignal>
#include <thread>

#include "scenarios/command_line.h"
#include "scenarios/files.h"
#include "scenarios/local_page.h"
#include "scenarios/page_answer.h"

extern char** environ;  // NOLINT: POSIX has it so

namespace haymow {
namespace {

// A page of one person on the same computer needs no more. Common practice, no source.
constexpr int seconds_to_send = 5;
// One that sends slowly holds one; GLPK keeps an environment for each.
constexpr int threads = 16;
constexpr const char* loopback = "127.0.0.1";

PageRequest request_of(const httplib::Request& request) {
  return {request.method, request.path, request.get_header_value("Host"),
          request.get_header_value("Origin"), request.body};
}

void give(const PageResponse& page, httplib::Response& response) {
  response.status = page.status;
  response.set_header("Cache-Control", "no-store");
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header("Referrer-Policy", "no-referrer");
  response.set_header("Cross-Origin-Resource-Policy", "same-origin");
  response.set_header("Content-Security-Policy",
                      "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src data:; "
                      "frame-ancestors 'none'; form-action 'none'; base-uri 'none'");
  response.set_content(page.body, page.type.c_str());
}

// Where there is no desktop nothing happens: the address is on the terminal.
void open_in_browser(const std::string& address) {
  std::string program = "xdg-open";
  std::string argument = address;
  char* const arguments[] = {program.data(), argument.data(), nullptr};
  posix_spawn_file_actions_t silent;
  posix_spawn_file_actions_init(&silent);
  posix_spawn_file_actions_addopen(&silent, 1, "/dev/null", 1, 0);
  posix_spawn_file_actions_addopen(&silent, 2, "/dev/null", 1, 0);
  pid_t child = 0;
  const int failed = posix_spawnp(&child, program.c_str(), &silent, nullptr, arguments, environ);
  posix_spawn_file_actions_destroy(&silent);
  if (failed == 0) std::thread([child] { waitpid(child, nullptr, 0); }).detach();
}

// Ctrl-C and a polite kill are waited for by a thread of its own, so that the server is
// stopped from ordinary code and not from a signal handler.
sigset_t stop_signals() {
  sigset_t set;
  sigemptyset(&set);
  sigaddset(&set, SIGINT);
  sigaddset(&set, SIGTERM);
  return set;
}

}  // namespace

void serve_page(const ServeOptions& options) {
  if (!std::filesystem::is_directory(options.folder)) {
    throw UnreadableFile(fmt::format(
        "`{}` is no folder\nhelp: name the folder that holds the scenario files, not a file",
        options.folder.string()));
  }
  const sigset_t stops = stop_signals();
  pthread_sigmask(SIG_BLOCK, &stops, nullptr);
  httplib::Server server;
  server.new_task_queue = [] { return new httplib::ThreadPool(threads); };
  server.set_read_timeout(seconds_to_send);
  server.set_write_timeout(seconds_to_send);
  server.set_keep_alive_timeout(seconds_to_send);
  server.set_payload_max_length(most_request_bytes);
  // Head and body are written apart: the body would wait 40 ms for word of the head.
  server.set_tcp_nodelay(true);
  // The usual options let two programs share a port: then nobody knows who answers.
  server.set_socket_options([](socket_t) {});
  PagePlace place{options.folder, options.port};
  if (options.port == 0) {
    place.port = server.bind_to_any_port(loopback);
  } else if (!server.bind_to_port(loopback, options.port)) {
    place.port = -1;
  }
  if (place.port <= 0) {
    throw UsageError(
        fmt::format("port {} cannot be had: another program may have it", options.port));
  }
  PageWorker worker(worked_out);
  const auto handle = [&](const httplib::Request& request, httplib::Response& response) {
    give(respond(request_of(request), place, worker), response);
  };
  server.Get(".*", handle);
  server.Post(".*", handle);
  const std::string address = fmt::format("http://{}:{}/", loopback, place.port);
  fmt::print(stderr, "haymow page: {} (Ctrl-C stops it)\n", address);
  std::thread waiter([&] {
    int signal = 0;
    sigwait(&stops, &signal);
    server.stop();
  });
  if (options.open_browser) open_in_browser(address);
  server.listen_after_bind();
  pthread_kill(waiter.native_handle(), SIGTERM);  // if it still waits
  waiter.join();
}

}  // namespace haymow
