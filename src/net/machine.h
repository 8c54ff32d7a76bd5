// What fetching needs of the machine, handed in so that tests need neither time nor luck.
#pragma once
#include <chrono>
#include <functional>

#include "units/time.h"

namespace net {

struct Machine {
  std::function<std::chrono::sys_time<std::chrono::milliseconds>()> now;  // the clock on the wall, which may jump
  std::function<void(std::chrono::milliseconds)> sleep;
  std::function<double()> uniform;  // 0..1; called from several threads
};

}  // namespace net
