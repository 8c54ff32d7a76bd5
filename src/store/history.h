// The append-only history of the book: how it is written and read. Only src/store includes this.
#pragma once
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "book/record.h"
#include "store/database.h"
#include "store/query.h"

namespace store {

class HistoryWriter {
 public:
  explicit HistoryWriter(Database& database);
  ~HistoryWriter();
  void append(const book::HistoryEntry& entry);

 private:
  struct Bound;
  std::unique_ptr<Bound> bound_;
};

// Calls `take` for the entries that `where` ("" for all) leaves, in the order `order`, as SQL has it behind ORDER BY.
void each_entry(Database& database, const std::string& where, const std::string& order,
                const std::vector<std::pair<std::string, std::string>>& bound, const std::function<void(const book::HistoryEntry&)>& take);

[[nodiscard]] std::string changes_json(const std::map<std::string, book::Changed>& changes);
[[nodiscard]] std::map<std::string, book::Changed> changes_of(const std::string& json);

}  // namespace store
