// The longer form of a crew's day for e-mail: everything, written out, nothing left out.
#pragma once
#include <string>

#include "text/crew_order.h"

namespace text {

struct Email {
  std::string subject;  // one line, UTF-8
  std::string body;     // lines ending in \n, UTF-8
};

[[nodiscard]] Email evening_email(const CrewOrder& order);

// What every face shows: the label, the licence, utilities, thunder, heat.
[[nodiscard]] std::string cautions();

}  // namespace text
