// Comma-separated lines, strictly: RFC 4180 with one record a line, `#` comments, UTF-8. Shared by station files and tree lists.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"

namespace feeds {

inline constexpr std::size_t longest_csv_line = 64 * 1024;

struct CsvRow {
  std::size_t line = 0;             // in the file, from 1
  std::vector<std::string> fields;  // blanks around them removed, quotes undone
};

class CsvReader {
 public:
  // `content` must outlive the reader. A byte order mark is skipped; lines end in LF or CRLF.
  CsvReader(std::string name, std::string_view content);

  // The next line that is neither blank nor a comment; empty at the end.
  // A fault spoils its line only: a line that is too long, holds NUL bytes or is not UTF-8, a quote that is not closed or stands inside a
  // field.
  [[nodiscard]] std::optional<units::Result<CsvRow>> next();

  // "trees.csv:4", and "trees.csv:4: dbh_cm".
  [[nodiscard]] std::string where(std::size_t line) const;
  [[nodiscard]] std::string where(std::size_t line, std::string_view column) const;
  // Line of what next() returned last.
  [[nodiscard]] std::size_t line() const { return line_; }

 private:
  std::string name_;
  std::string_view rest_;
  std::size_t line_ = 0;
};

// The columns of a header, by name in any order.
class CsvHeader {
 public:
  // Fault where a required column is missing or any column stands twice.
  [[nodiscard]] static units::Result<CsvHeader> read(CsvReader& reader, const std::vector<std::string_view>& required,
                                                     const std::vector<std::string_view>& optional);

  [[nodiscard]] bool has(std::string_view column) const { return index_of(column).has_value(); }
  // The field of a column; empty text where the column or the field is missing.
  [[nodiscard]] std::string_view field(const CsvRow& row, std::string_view column) const;
  [[nodiscard]] std::size_t size() const { return names_.size(); }
  // Columns that are neither required nor optional, one warning each.
  [[nodiscard]] const std::vector<std::string>& warnings() const { return warnings_; }

 private:
  [[nodiscard]] std::optional<std::size_t> index_of(std::string_view column) const;

  std::vector<std::string> names_;
  std::vector<std::string> warnings_;
};

}  // namespace feeds
