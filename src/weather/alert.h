// A warning, advisory or watch that a weather service has issued for a place.
#pragma once
#include <optional>
#include <string>

#include "units/time.h"

namespace weather {

// What a crew has to do with it.
enum class AlertKind { thunder, wind, heat, flood, freeze, other };
// As the Common Alerting Protocol has it (OASIS CAP 1.2, section 3.2.2).
enum class AlertSeverity { unknown, minor, moderate, severe, extreme };

struct Alert {
  AlertKind kind = AlertKind::other;
  bool watch = false;              // it may come: conditions favour it, nothing is happening or expected yet
  std::string event;               // the service's name of it, "Severe Thunderstorm Warning"; one line
  units::UtcTime from{}, until{};  // of the event, half-open, until > from
  AlertSeverity severity = AlertSeverity::unknown;
  std::string headline;            // the service's words, cut short, one line; may be empty
  std::string key;                 // the same for every text about one event
  std::optional<double> gust_m_s;  // the strongest gust the service names
};

}  // namespace weather
