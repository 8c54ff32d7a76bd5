// An empty place for a book: a SQLite file in a scratch folder, or, where the tests run beside a server (with_postgresql.sh), its emptied
// database.
#pragma once
#include <filesystem>
#include <functional>
#include <string>

#include "store/book.h"

class BookPlace {
 public:
  BookPlace();
  ~BookPlace();
  BookPlace(const BookPlace&) = delete;
  BookPlace& operator=(const BookPlace&) = delete;

  [[nodiscard]] const std::string& address() const { return address_; }
  [[nodiscard]] bool is_sqlite() const { return address_.find("://") == std::string::npos; }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  [[nodiscard]] store::Book open() const;
  // Carries out SQL behind the book's back.
  void tamper(const std::string& sql) const;

 private:
  std::filesystem::path folder_;
  std::string address_;
};

// Of invented people at an invented time.
[[nodiscard]] book::Author ann();
inline book::Edit add(const std::string& kind, const std::string& id, const book::Fields& fields, std::size_t group = 0) {
  return {book::Edit::What::add, kind, id, fields, {}, group};
}
inline book::Edit change(const std::string& kind, const std::string& id, const book::Fields& fields) {
  return {book::Edit::What::change, kind, id, fields, {}, 0};
}

// A site to stand trees on.
[[nodiscard]] book::Edit some_site(const std::string& id = "green");
// Applies edits that must be kept.
void keep(store::Book& book, const std::vector<book::Edit>& edits);

// What the store says when `work` fails; "no failure" where it does not.
[[nodiscard]] std::string failure(const std::function<void()>& work);
