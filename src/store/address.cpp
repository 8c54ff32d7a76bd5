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

}  // namespace

units::Result<Address> read_address(const std::string& written) {
  if (written.starts_with("postgresql://") || written.starts_with("postgres://")) return postgresql(written);
  const auto odd = [](char c) { return c == '"' || static_cast<unsigned char>(c) < 0x20; };
  if (written.empty() || std::ranges::any_of(written, odd))
    return units::fault("--book", units::for_message(written),
                        "expected a file name without quotes and control characters, or postgresql://...");
  return Address{Address::Kind::sqlite, written, {}, units::for_message(written, 200)};
}

}  // namespace store
