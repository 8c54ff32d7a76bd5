// Carries out edits within one transaction: checks each against the book as it stands, writes the row and its history. Only src/store
// includes this.
#pragma once
#include <map>
#include <memory>
#include <set>

#include "store/book.h"
#include "store/history.h"
#include "store/row_writer.h"

namespace store {

class Editor {
 public:
  // Within a transaction for writing, which the caller commits after finish().
  Editor(Database& database, const book::Author& author);

  // Nothing is written of an edit that is refused.
  [[nodiscard]] tl::expected<Written, Refusal> carry_out(const book::Edit& edit);

  // Several edits as one: all are written, or none and the first refusal comes back.
  [[nodiscard]] tl::expected<std::vector<Written>, Refusal> carry_out_together(const std::vector<const book::Edit*>& edits);

  // Writes a record that was changed by hand (erasure), with its history.
  void overwrite(const book::Record& before, book::Record after, const std::string& what);

  // Writes the counters back.
  void finish();

 private:
  using Counters = std::map<std::string, long long>;

  [[nodiscard]] tl::expected<Written, Refusal> add(const book::Kind& kind, const book::Edit& edit);
  [[nodiscard]] tl::expected<Written, Refusal> change(const book::Kind& kind, const book::Edit& edit, book::Record present);
  [[nodiscard]] tl::expected<Written, Refusal> take_out(const book::Kind& kind, const book::Edit& edit, book::Record present);
  // `links`: the fields whose links are looked at.
  void check_fields(const book::Kind& kind, const book::Record& record, const book::Fields& links, std::vector<units::Fault>& faults);
  void set_fields(const book::Kind& kind, const book::Fields& set, book::Record& record, std::vector<units::Fault>& faults);
  [[nodiscard]] bool stands(const std::string& kind, const std::string& id);
  [[nodiscard]] std::string called(const std::string& kind, const std::string& name);
  [[nodiscard]] std::string next_id(const book::Kind& kind);
  void write(const book::Record* before, const book::Record& after, const std::string& what);
  [[nodiscard]] long long take(const std::string& counter);
  [[nodiscard]] RowWriter& rows(const book::Kind& kind);
  void learn_own_fields();
  [[nodiscard]] const book::Kind& wider(const book::Kind& kind);  // with the owner's own fields

  Database& database_;
  book::Author author_;
  std::vector<book::Record> own_fields_;
  std::map<std::string, book::Kind> wider_;
  HistoryWriter history_;
  std::map<std::string, std::unique_ptr<RowWriter>> rows_;
  std::set<std::pair<std::string, std::string>> known_to_stand_;
  bool own_fields_changed_ = false;
  std::map<std::string, std::string> last_added_;  // id by kind
  Counters counters_, counters_at_first_;
  long long batch_;
};

// The owner's own fields that stand.
[[nodiscard]] std::vector<book::Record> own_fields_of(Database& database);

// The fields of a kind with the owner's own behind them.
[[nodiscard]] book::Kind with_own(const book::Kind& kind, const std::vector<book::Record>& own_fields);

// What another desk changed since `seen`.
[[nodiscard]] book::Conflict conflict(Database& database, const book::Record& present, std::int64_t seen, const book::Fields& mine);

}  // namespace store
