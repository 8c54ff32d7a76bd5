#include "support/child_server.h"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>

extern char** environ;

ChildServer::ChildServer(std::vector<std::string> words) {
  words.insert(words.begin(), "/usr/bin/python3");
  std::array<int, 2> in{}, out{};
  REQUIRE(::pipe2(in.data(), O_CLOEXEC) == 0);
  REQUIRE(::pipe2(out.data(), O_CLOEXEC) == 0);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, in[0], 0);
  posix_spawn_file_actions_adddup2(&actions, out[1], 1);
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  pid_t process = 0;
  REQUIRE(::posix_spawn(&process, arguments.front(), &actions, nullptr, arguments.data(), environ) == 0);
  posix_spawn_file_actions_destroy(&actions);
  ::close(in[0]);
  ::close(out[1]);
  process_ = process;
  pipe_ = in[1];
  std::string port;
  char c = 0;
  while (::read(out[0], &c, 1) == 1 && c != '\n') port += c;
  ::close(out[0]);
  REQUIRE_FALSE(port.empty());
  port_ = std::stoi(port);
}

ChildServer::~ChildServer() {
  ::close(pipe_);
  ::kill(process_, SIGKILL);
  ::waitpid(process_, nullptr, 0);
}
