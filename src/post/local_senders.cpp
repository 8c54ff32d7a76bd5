#include "post/local_senders.h"

#include <fmt/format.h>

#include "net/durable_file.h"
#include "post/digest.h"
#include "units/text.h"

namespace post {
namespace {

bool one_line(const std::string& text) { return !text.empty() && text.find_first_of(std::string_view{"\r\n\0", 3}) == std::string::npos; }

}  // namespace

Outcome SpoolSender::send(const Outgoing& message) {
  if (!one_line(message.to)) return {Delivery::refused, "expected a telephone number in one line"};
  const std::filesystem::path path = folder_ / ("sapdraw-" + stable_name(message.key));
  std::error_code error;
  if (std::filesystem::exists(path, error)) return {Delivery::delivered};
  const auto written = net::write_durably(path, fmt::format("To: {}\nAlphabet: UTF-8\n\n{}\n", message.to, message.text));
  if (!written) return {Delivery::later, "the spool folder cannot be written"};
  return {Delivery::delivered};
}

Outcome StreamSender::send(const Outgoing& message) {
  stream_ << "To " << units::for_message(message.to) << '\n' << message.text << "\n\n" << std::flush;
  return stream_ ? Outcome{Delivery::delivered} : Outcome{Delivery::later, "standard output cannot be written"};
}

}  // namespace post
