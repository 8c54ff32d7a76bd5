// How fast and how much a service may be asked.
#pragma once
#include <optional>

namespace net {

struct Rates {
  double per_second = 1.0;  // calls begun a second
  int at_once = 1;          // calls under way
  // Weight of the calls in a minute, UTC hour, UTC day and month, as services that count weights state it.
  std::optional<double> per_minute = {}, per_hour = {}, per_day = {}, per_month = {};
};

}  // namespace net
