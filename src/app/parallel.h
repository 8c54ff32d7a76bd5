// Work on many things at once, each thread its own share: thread t of n takes t, t + n, t + 2n... Who works on what does not depend on
// how fast anybody is, and results stand where their index says, so that any number of threads gives the same bits.
#pragma once
#include <algorithm>
#include <exception>
#include <thread>
#include <vector>

namespace app {

// Calls work(index) for every index below `count`, on up to `threads` threads (0 counts as 1). An exception of any thread is thrown
// again once all have ended.
template <class Work>
void each_in_parallel(std::size_t count, std::size_t threads, Work work) {
  const std::size_t crew = std::clamp<std::size_t>(threads, 1, std::max<std::size_t>(count, 1));
  std::vector<std::exception_ptr> failed(crew);
  const auto share = [&](std::size_t first) {
    try {
      for (std::size_t index = first; index < count; index += crew) work(index);
    } catch (...) {
      failed[first] = std::current_exception();
    }
  };
  std::vector<std::thread> others;
  others.reserve(crew - 1);
  for (std::size_t thread = 1; thread < crew; ++thread) others.emplace_back(share, thread);
  share(0);
  for (std::thread& other : others) other.join();
  for (const auto& exception : failed)
    if (exception) std::rethrow_exception(exception);
}

}  // namespace app
