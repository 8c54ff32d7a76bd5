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
  void empty_log();                                       // SQLite: brings its write-ahead log into the file

 private:
  bool sqlite_;
  soci::session session_;
};

class Transaction {
 public:
  // A writer is alone from here on; a reader sees the book as it is now until the end.
  enum class For { reading, writing };
  Transaction(Database& database, For what);
  ~Transaction();  // undoes what was not committed
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& database_;
  bool open_ = true;
};

}  // namespace store
