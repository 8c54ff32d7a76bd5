// Brings replies in: from the cache where they are fresh, else from their services, politely, and from the cache all the same when those
// fail.
#pragma once
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "net/budget.h"
#include "net/cache.h"
#include "net/http.h"
#include "net/machine.h"
#include "net/rates.h"
#include "net/verdict_on_reply.h"

namespace net {

enum class Came {
  fetched,    // new
  unchanged,  // asked, and the service says that nothing changed
  kept,       // fresh in the cache: not asked
  stale,      // the service failed; an older reply serves
  failed,     // nothing at all
};

struct Got {
  Came came = Came::failed;
  int status = 0;  // 200, or a settled one
  std::string body;
  units::UtcTime fetched_at{}, fresh_until{};
  std::optional<Failure> failure;  // why it is stale or failed; or why a good reply could not be put by
  int calls = 0;
};

struct Progress {
  std::size_t done = 0, total = 0;
  std::size_t calls = 0;
  std::string service;  // of the last one done
};

// How long one address is tried for.
struct Patience {
  int tries = 5;
  std::chrono::milliseconds first{2'000}, longest{60'000};  // full jitter: uniform in 0..min(longest, first x 2^n)
  std::chrono::milliseconds in_all{180'000};
  // Addresses of one service in a row that all this was in vain for: from then on one try each, and none.
  int silent_then_one = 3, silent_then_none = 6;
};

class Fetcher {
 public:
  // All must outlive it. A service without rates gets one call a second.
  Fetcher(Transport& transport, Cache& cache, Budgets& budgets, Machine machine, std::map<std::string, Rates> rates,
          Patience patience = {});

  // In the order of `wants`; the same address is asked once. Services work side by side, each within its own rate.
  [[nodiscard]] std::vector<Got> get_all(const std::vector<Want>& wants, const std::function<void(const Progress&)>& progress = {});

  // A line for every call, without keys or queries.
  void on_log(std::function<void(const std::string&)> log) { log_ = std::move(log); }

  // By service that this fetcher asked.
  [[nodiscard]] std::vector<Spent> spent() const;

 private:
  class Pace;
  [[nodiscard]] Got get(const Want& want);
  [[nodiscard]] Answer ask(const Want& want, const std::optional<Entry>& cached, int& calls);
  [[nodiscard]] std::optional<Failure> wait_for_leave(const Want& want, std::chrono::sys_time<std::chrono::milliseconds> give_up);
  [[nodiscard]] units::UtcTime now() const;
  [[nodiscard]] const Rates& rates_of(const std::string& service) const;
  [[nodiscard]] Pace& pace_of(const std::string& service);
  void log(const std::string& line);

  Transport& transport_;
  Cache& cache_;
  Budgets& budgets_;
  Machine machine_;
  std::map<std::string, Rates> rates_;
  Patience patience_;
  std::function<void(const std::string&)> log_;
  mutable std::mutex mutex_;  // of what follows, and of logging
  std::map<std::string, std::shared_ptr<Pace>> paces_;
};

}  // namespace net
