// How far a long fetch has come: one line drawn in place on a terminal, a line now and then elsewhere.
#pragma once
#include <chrono>
#include <iosfwd>

#include "net/fetcher.h"

namespace cli {

class CallProgress {
 public:
  CallProgress(std::ostream& err, bool terminal) : err_(&err), terminal_(terminal) {}
  void operator()(const net::Progress& progress) const;

 private:
  std::ostream* err_;
  bool terminal_;
  std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
};

// How far a search has come: told on a terminal only, and not more often than eyes follow.
class SearchProgress {
 public:
  SearchProgress(std::ostream& err, bool terminal) : err_(&err), terminal_(terminal) {}
  void operator()(double share);

 private:
  std::ostream* err_;
  bool terminal_;
  int told_ = -1;  // percent
};

}  // namespace cli
