// The office's book, opened where the command line or the machine says it lies; and in whose name changes are made.
#pragma once
#include <optional>
#include <string>

#include "app/outcome.h"
#include "app/request.h"
#include "store/book.h"

namespace app {

enum class NoBook { refuse, make };

// Empty where the address is refused, with the line in `outcome`. Throws store::Failure. Tells where an older book was kept before it was
// changed.
[[nodiscard]] std::optional<store::Book> open_book(const Common& common, NoBook if_missing, Outcome& outcome);

// Where whole books are kept before something is done to the present one.
[[nodiscard]] std::filesystem::path kept_books(const Common& common);

// --by, else the machine's user.
[[nodiscard]] book::Author author(const Common& common, const std::string& why = {});

}  // namespace app
