#include "store/address.h"

#include <libpq-fe.h>

#include <algorithm>
#include <memory>

#include "units/text.h"

namespace store {
namespace {

std::string quoted(const std::string& value) {
  std::string out = "'";
  for (const char c : value) out += c == '\'' || c == '\\' ? std::string{'\\', c} : std::string{c};
  return out + "'";
}

units::Result<Address> postgresql(const std::string& written) {
  const auto refused = [] {
    return units::fault("--book", "", "expected an address such as postgresql://user@host:5432/database");  // the text may hold a password
  };
  char* trouble = nullptr;
  const std::unique_ptr<PQconninfoOption, decltype(&PQconninfoFree)> options{PQconninfoParse(written.c_str(), &trouble), &PQconninfoFree};
  if (trouble != nullptr) PQfreemem(trouble);
  if (!options) return refused();
  Address address{Address::Kind::postgresql, {}, {}, {}};
  std::string host, port, database;
  for (const PQconninfoOption* option = options.get(); option->keyword != nullptr; ++option) {
    if (option->val == nullptr) continue;
    const std::string key = option->keyword, value = option->val;
    address.connection += (address.connection.empty() ? "" : " ") + key + "=" + quoted(value);
    if (key == "host") host = value;
    if (key == "port") port = ":" + value;
    if (key == "dbname") database = value;
  }
  if (database.empty()) return refused();
  address.shown = units::for_message("postgresql://" + host + port + "/" + database, 200);
  return address;
}

// "postgres:..." in any case, or libpq's own "host=... dbname=...": what is not well formed must not become a file with a password in its
// name.
bool means_a_server(const std::string& written) {
  std::string start = written.substr(0, 10);
  std::ranges::transform(start, start.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (start.starts_with("postgres:") || start.starts_with("postgresql")) return written.find(':') != std::string::npos;
  return written.find("dbname=") != std::string::npos || written.find("host=") != std::string::npos ||
         written.find("password=") != std::string::npos;
}

}  // namespace

units::Result<Address> read_address(const std::string& written) {
  if (means_a_server(written)) return postgresql(written);
  // SQLite would read these as a book in memory or as an address of its own.
  for (const char* other : {":memory:", "file:"})
    if (written.starts_with(other))
      return units::fault("--book", units::for_message(written), "expected a file name; a name that begins so needs ./ before it");
  const auto odd = [](char c) { return c == '"' || static_cast<unsigned char>(c) < 0x20; };
  if (written.empty() || std::ranges::any_of(written, odd))
    return units::fault("--book", units::for_message(written),
                        "expected a file name without quotes and control characters, or postgresql://...");
  return Address{Address::Kind::sqlite, written, {}, units::for_message(written, 200)};
}

}  // namespace store
