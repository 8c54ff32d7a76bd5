// Writes records of one kind into its table; its statements are prepared once and serve many records. Only src/store includes this.
#pragma once
#include <list>
#include <memory>
#include <string>

#include "book/kind.h"
#include "book/record.h"
#include "store/database.h"

namespace store {

class RowWriter {
 public:
  RowWriter(Database& database, const book::Kind& kind);

  void insert(const book::Record& record);
  void update(const book::Record& record);  // every field, of the row with the record's id

 private:
  struct Cell {
    std::string name;
    book::FieldType type;
    std::string text = {};
    double number = 0.0;
    long long whole = 0;
    soci::indicator known = soci::i_null;
  };
  void fill(const book::Record& record);
  std::unique_ptr<soci::statement> prepared(const std::string& sql);

  Database& database_;
  const book::Kind& kind_;
  std::string id_, own_;
  long long version_ = 0, removed_ = 0;
  soci::indicator own_known_ = soci::i_null;
  std::list<Cell> cells_;
  std::unique_ptr<soci::statement> insert_, update_;
};

}  // namespace store
