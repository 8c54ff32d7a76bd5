// A question to the database with bound values, row by row; and rows of a kind's table as records. Only src/store includes this.
#pragma once
#include <functional>
#include <list>
#include <string>
#include <vector>

#include "book/kind.h"
#include "book/record.h"
#include "store/database.h"

namespace store {

class Query {
 public:
  Query(Database& database, std::string sql);
  Query& bind(std::string name, std::string value);
  Query& bind(std::string name, long long value);
  Query& bind(std::string name, double value);
  // Calls `take` with every row.
  void each(const std::function<void(const soci::row&)>& take);

 private:
  template <class T>
  struct Bound {
    std::string name;
    T value;
  };
  Database& database_;
  std::string sql_;
  std::list<Bound<std::string>> texts_;
  std::list<Bound<long long>> wholes_;
  std::list<Bound<double>> numbers_;
};

// A cell as canonical text; empty where it is NULL.
[[nodiscard]] std::string text_of(const soci::row& row, std::size_t column);

// "id, version, removed, <fields in order>, own", for record_of.
[[nodiscard]] std::string columns_of(const book::Kind& kind);
[[nodiscard]] book::Record record_of(const book::Kind& kind, const soci::row& row);

// A null record (version 0) where there is none.
[[nodiscard]] book::Record find_record(Database& database, const book::Kind& kind, const std::string& id);

// The owner's own fields as JSON text and back.
[[nodiscard]] std::string own_json(const book::Fields& fields);

// Names of the owner's own fields begin so, in records, CSV and options.
inline constexpr std::string_view own_prefix = "own_";

}  // namespace store
