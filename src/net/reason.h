// What a service says of itself when it says no.
#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace net {

struct Reason {
  std::string text;         // fit for one line of a message; empty where the body says nothing
  std::string type;         // of an RFC 7807 problem: the last part of its type ("ForecastGridExpired")
  std::string correlation;  // by which the service can find the call again
};

// Reads {"reason": ...} (Open-Meteo) and RFC 7807 problems {"title", "detail", "type", "correlationId"} (NWS). Of anything else, a web page
// above all, nothing.
[[nodiscard]] Reason reason_of(std::string_view body);

}  // namespace net
