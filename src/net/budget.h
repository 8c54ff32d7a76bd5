// What each service has been asked for, by the weight it counts, kept on disk so that no run and no other process spends it twice.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "net/rates.h"
#include "units/time.h"

namespace net {

struct Spent {
  std::string service;
  double today = 0.0;                // weight, by the UTC day
  std::optional<double> left_today;  // of the limit, where there is one
};

// A file a service. Windows begin with the UTC minute, hour, day and month; where the clock has jumped back, the later window goes on,
// so that a jump never grants more. Safe for several threads and processes.
class Budgets {
 public:
  explicit Budgets(std::filesystem::path folder) : folder_(std::move(folder)) {}

  struct Grant {
    bool granted = true;
    units::UtcTime again{};  // when not granted: the instant from which it may be
  };
  // Counts `weight` where every window of `rates` has room for it, and no wait that the service asked for is still running. A weight larger
  // than a whole window is granted when that window is empty. Where the disk cannot be written the call is granted uncounted: politeness
  // then rests on the rate alone.
  [[nodiscard]] Grant reserve(const std::string& service, const Rates& rates, double weight, units::UtcTime now);

  // The service asked not to be called before `instant`.
  void wait_until(const std::string& service, units::UtcTime instant);

  [[nodiscard]] Spent spent(const std::string& service, const Rates& rates, units::UtcTime now) const;

 private:
  std::filesystem::path folder_;
};

}  // namespace net
