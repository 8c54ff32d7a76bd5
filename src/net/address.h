// Which addresses may be called.
#pragma once
#include <string>
#include <string_view>

namespace net {

// "api.weather.gov" of "https://api.weather.gov/points/1,2"; what may be said of an address in a message.
[[nodiscard]] std::string host_of(std::string_view url);

// https to anywhere, or http to this machine itself (127.0.0.0/8, ::1, localhost); neither user nor password in it.
[[nodiscard]] bool may_call(std::string_view url);

// http to this machine.
[[nodiscard]] bool is_local(std::string_view url);

}  // namespace net
