// One session with the book's database, and transactions that are kept whole or not at all. Only src/store includes this.
#pragma once
#include <soci/soci.h>

#include <string>

#include "store/address.h"

namespace store {

class Database {
 public:
  enum class Missing { refuse, create };

  // Throws what soci throws, and Failure where there is no file and it may not be made.
  Database(const Address& address, Missing missing);

  [[nodiscard]] soci::session& session() { return session_; }
  [[nodiscard]] bool is_sqlite() const { return sqlite_; }
  [[nodiscard]] bool has_table(const std::string& name);
  void run(const std::string& sql);
  [[nodiscard]] long long whole(const std::string& sql);  // the one number that `sql` gives
  std::string text(const std::string& sql);               // the one text that `sql` gives; empty for none
  // SQLite: brings its write-ahead log into the file; false while others read.
  bool empty_log();
  // After much was written at once: has the database look again at what its tables hold. A convenience: it never fails.
  void look_again();
  // For ORDER BY a text: by its bytes in either database.
  [[nodiscard]] const char* by_bytes() const { return sqlite_ ? "" : " COLLATE \"C\""; }

 private:
  friend class Transaction;
  bool sqlite_;
  bool in_transaction_ = false;
  soci::session session_;
};

class Transaction {
 public:
  // A writer is alone from here on; a reader sees the book as it is now until the end. Within another transaction it is part of that one.
  enum class For { reading, writing };
  Transaction(Database& database, For what);
  ~Transaction();  // undoes what was not committed
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& database_;
  bool open_;
};

}  // namespace store
