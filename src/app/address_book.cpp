#include "app/address_book.h"

#include "units/text.h"

namespace app {
namespace {

using book::Record;
using book::Road;

std::string kind_of(const Reader& reader) { return reader.kind == ReaderKind::crew ? "crew" : "client"; }

units::Result<Record> record_of(store::Book& book, const Reader& reader) {
  auto record = book.find(kind_of(reader), reader.id);
  if (!record || record->removed)
    return units::fault(kind_of(reader), units::for_message(reader.id), "expected the id of a " + kind_of(reader) + " in the book");
  return std::move(*record);
}

// A day that lies ahead of now anywhere on earth is none yet. A client's `may_text` says it too, and its no wins.
bool texts_agreed_on(const Record& record, units::UtcTime now) {
  if (record.text("may_text") == "no") return false;
  const auto day = record.day("texts_agreed_on");
  const units::LocalDay tomorrow = units::ZoneOffsets::utc().day_of(now) + std::chrono::days{1};
  return record.yes("may_text") || (day && *day <= tomorrow);
}

units::Result<std::string> address_of(const Record& record, Road road, units::UtcTime now) {
  const std::string where = record.kind + " " + record.id + ": ";
  if (road == Road::email) {
    if (record.text("email").empty()) return units::fault(where + "email", "", "expected a mail address to write to");
    return record.text("email");
  }
  if (record.text("phone").empty()) return units::fault(where + "phone", "", "expected a number to write to");
  if (!texts_agreed_on(record, now))
    return units::fault(where + "texts_agreed_on", record.text("texts_agreed_on"), "expected the day on which texts were agreed to");
  return record.text("phone");
}

}  // namespace

units::Result<std::string> address_of(store::Book& book, const Reader& reader, Road road, units::UtcTime now) {
  const auto record = record_of(book, reader);
  if (!record) return tl::make_unexpected(record.error());
  return address_of(*record, road, now);
}

units::Result<Road> road_to(store::Book& book, const Reader& reader, units::UtcTime now) {
  const auto record = record_of(book, reader);
  if (!record) return tl::make_unexpected(record.error());
  const auto wanted = book::road(record->text("road"));
  if (wanted) {
    const auto address = address_of(*record, *wanted, now);
    return address ? units::Result<Road>{*wanted} : tl::make_unexpected(address.error());
  }
  const auto text = address_of(*record, Road::text, now);
  if (text) return Road::text;
  return address_of(*record, Road::email, now) ? units::Result<Road>{Road::email} : tl::make_unexpected(text.error());
}

ReaderHours hours_of(store::Book& book, const Reader& reader) {
  ReaderHours hours;
  if (reader.kind == ReaderKind::office) return hours;
  const auto record = record_of(book, reader);
  if (!record) return hours;
  hours.quiet = {record->clock("quiet_from").value_or(std::chrono::minutes{0}),
                 record->clock("quiet_until").value_or(std::chrono::minutes{0})};
  hours.at_work = {record->clock("works_from"), record->clock("works_until"), record->number("overtime_h").value_or(0.0)};
  return hours;
}

}  // namespace app
