// Taking a client's personal data out of the book. Only src/store includes this.
#pragma once
#include "store/book.h"
#include "store/editor.h"

namespace store {

// Within a transaction for writing. See Book::erase_client.
[[nodiscard]] units::Result<Book::Erased> erase_person(Database& database, Editor& editor, const std::string& client,
                                                       units::LocalDay keep_from);

}  // namespace store
