#include "app/open_book.h"

#include <fmt/format.h>

#include "app/office.h"
#include "units/text.h"

namespace app {
namespace {

units::Result<std::filesystem::path> data_folder(const Common& common) { return settings::data_folder(common.around->environment); }

units::Result<store::Address> address_of(const Common& common) {
  if (common.book) return store::read_address(*common.book);
  const auto folder = data_folder(common);
  if (!folder) return tl::make_unexpected(folder.error());
  return store::read_address((*folder / "book.sqlite").string());
}

// Beside a book that is a file; else in the office's data folder.
std::filesystem::path backups_of(const Common& common, const store::Address& address) {
  if (address.kind == store::Address::Kind::sqlite) return address.file.parent_path() / "kept-before";
  return data_folder(common).value_or(std::filesystem::path{"."}) / "kept-before";
}

}  // namespace

std::filesystem::path kept_books(const Common& common) {
  const auto address = address_of(common);
  return address ? backups_of(common, *address) : std::filesystem::path{};
}

std::optional<store::Book> open_book(const Common& common, NoBook if_missing, Outcome& outcome) {
  const auto address = address_of(common);
  if (!address) {
    outcome.refuse(address.error());
    return std::nullopt;
  }
  const auto missing = if_missing == NoBook::make ? store::Book::Missing::create : store::Book::Missing::refuse;
  store::Book book = store::Book::open(*address, missing, backups_of(common, *address), common.now);
  if (book.is_new()) outcome.warn("a new book was made: " + book.shown());
  if (!book.kept_before_migrating().empty())
    outcome.warn(fmt::format("the book was brought to a newer form; as it was, it lies in {}", book.kept_before_migrating().string()));
  return book;
}

book::Author author(const Common& common, const std::string& why) {
  std::string who = common.by.value_or("");
  for (const char* variable : {"USER", "LOGNAME"})
    if (who.empty()) who = common.around->environment(variable).value_or("");
  return {who.empty() ? "nobody named" : units::for_message(who, 100), common.now, units::for_message(units::trimmed(why), 500)};
}

}  // namespace app
