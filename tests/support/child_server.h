// A server in a process of its own beside the test: a Python script that prints its port and ends when its standard input does.
#pragma once
#include <string>
#include <vector>

class ChildServer {
 public:
  // `words`: script and arguments for /usr/bin/python3, the system's own, whose packages apt installs. Waits for the port.
  explicit ChildServer(std::vector<std::string> words);
  ~ChildServer();
  ChildServer(const ChildServer&) = delete;
  ChildServer& operator=(const ChildServer&) = delete;

  [[nodiscard]] int port() const { return port_; }

 private:
  int process_ = 0, pipe_ = -1, port_ = 0;
};
