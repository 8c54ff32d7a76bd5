#include "post/local_senders.h"

#include <fmt/format.h>

#include "net/durable_file.h"
#include "post/digest.h"
#include "units/text.h"

namespace post {
namespace {

bool one_line(const std::string& text) { return !text.empty() && text.find_first_of(std::string_view{"\r\n\0", 3}) == std::string::npos; }

// Files older than a month against `present`, which has just been written: no clock is asked.
void sweep(const std::filesystem::path& folder, const std::filesystem::path& present) {
  std::error_code error;
  const auto now = std::filesystem::last_write_time(present, error);
  if (error) return;
  for (const auto& entry : std::filesystem::directory_iterator{folder, error}) {
    const auto written = std::filesystem::last_write_time(entry.path(), error);
    if (!error && now - written > std::chrono::hours{24 * 31}) std::filesystem::remove(entry.path(), error);
  }
}

}  // namespace

Outcome SpoolSender::send(const Outgoing& message) {
  if (!one_line(message.to)) return {Delivery::refused, "expected a telephone number in one line"};
  const std::string name = "sapdraw-" + stable_name(message.key);
  const std::filesystem::path own = folder_ / ".sapdraw", ready = own / (name + ".ready"), known = own / name;
  std::error_code error;
  // Once it was made ready, only its rename takes it away.
  if (std::filesystem::exists(known, error) && !std::filesystem::exists(ready, error)) return {Delivery::delivered};
  const bool made =
      net::write_durably(ready, fmt::format("To: {}\nAlphabet: UTF-8\n\n{}\n", message.to, message.text)) && net::write_durably(known, "");
  if (made) std::filesystem::rename(ready, folder_ / name, error);
  if (!made || error) return {Delivery::later, "the spool folder cannot be written"};
  sweep(own, known);
  return {Delivery::delivered};
}

Outcome StreamSender::send(const Outgoing& message) {
  stream_ << "To " << units::for_message(message.to) << '\n' << message.text << "\n\n" << std::flush;
  return stream_ ? Outcome{Delivery::delivered} : Outcome{Delivery::later, "standard output cannot be written"};
}

}  // namespace post
