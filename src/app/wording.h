// The owner's own layouts of messages, kept in the book as records `wording`; where he has none, the program's own.
#pragma once
#include <optional>

#include "book/record.h"
#include "store/book.h"
#include "text/template.h"
#include "units/fault.h"

namespace app {

// Fault: a layout that no longer fits (written by another program).
[[nodiscard]] units::Result<text::Templates> templates_of(store::Book& book);

// What forbids to keep a wording as `fields` have it (text/template.h), or that the book has another one for the same message; empty:
// nothing.
[[nodiscard]] std::optional<units::Fault> wording_fault(store::Book& book, const std::string& id, const book::Fields& fields);

}  // namespace app
