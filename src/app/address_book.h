// Where a crew or client is written to, whether that was agreed to, and when not.
#pragma once
#include <string>

#include "app/outbox.h"
#include "book/quiet_hours.h"

namespace app {

// The number or mail of a reader for one road, as the book has it now. Faults: road_to's (app/outbox.h).
[[nodiscard]] units::Result<std::string> address_of(store::Book& book, const Reader& reader, book::Road road, units::UtcTime now);

// How a reader's clock holds messages back. Quiet hours that nobody gave are none.
struct ReaderHours {
  book::QuietHours quiet;
  book::AtWork at_work;
};
[[nodiscard]] ReaderHours hours_of(store::Book& book, const Reader& reader);

}  // namespace app
