// The commands of the book: site, tree, client, crew, booking, record, book.
#pragma once
#include "cli/options.h"

namespace cli {

void add_book_calls(CLI::App& app, Given& given);

}  // namespace cli
