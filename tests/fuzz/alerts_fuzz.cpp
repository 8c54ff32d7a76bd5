#include "feeds/nws_alerts.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto alerts = feeds::read_nws_alerts(fuzz::name, fuzz::text(data, size), fuzz::now());
  fuzz::check(alerts);
  if (!alerts) return 0;
  for (const auto& alert : *alerts) fuzz::require(alert.from < alert.until && alert.until > fuzz::now());
  return 0;
}
