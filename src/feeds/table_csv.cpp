#include "feeds/table_csv.h"

#include <csv.h>

#include <algorithm>

#include "units/text.h"

namespace feeds {
namespace {

class Parser {
 public:
  Parser() {
    csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI);
    csv_set_space_func(&parser_, [](unsigned char) { return 0; });  // blanks are part of a cell
  }
  ~Parser() { csv_free(&parser_); }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;

  // False where the text is no CSV; line() then says where.
  bool parse(std::string_view content) {
    while (!content.empty()) {
      // A line at a time, so that every row knows its own.
      const std::size_t end = content.find('\n');
      const std::string_view piece = content.substr(0, end == std::string_view::npos ? end : end + 1);
      ++line_;
      if (csv_parse(&parser_, piece.data(), piece.size(), &Parser::on_cell, &Parser::on_row, this) != piece.size()) return false;
      content.remove_prefix(piece.size());
      if (parser_.pstate == row_not_begun) row_.line = line_ + 1;  // also after a blank line, which is no row
    }
    return csv_fini(&parser_, &Parser::on_cell, &Parser::on_row, this) == 0;
  }
  [[nodiscard]] std::size_t line() const { return line_; }
  [[nodiscard]] std::vector<TableRow>& rows() { return rows_; }

 private:
  static void on_cell(void* cell, std::size_t length, void* self) {
    static_cast<Parser*>(self)->row_.cells.emplace_back(static_cast<const char*>(cell), length);
  }
  static void on_row(int, void* self) {
    auto& parser = *static_cast<Parser*>(self);
    parser.rows_.push_back(std::move(parser.row_));
    parser.row_ = {};
  }

  static constexpr int row_not_begun = 0;  // libcsv's own first state
  csv_parser parser_{};
  std::size_t line_ = 0;
  TableRow row_{0, 1, {}};
  std::vector<TableRow> rows_;
};

}  // namespace

units::Result<Table> read_table(const std::string& name, std::string_view content) {
  if (content.size() > largest_table_bytes)
    return units::fault(name, std::to_string(content.size()) + " bytes",
                        "expected at most " + std::to_string(largest_table_bytes) + " bytes");
  if (content.starts_with("\xEF\xBB\xBF")) content.remove_prefix(3);
  Parser parser;
  const auto at = [&](std::size_t line) { return name + ":" + std::to_string(line); };
  if (!parser.parse(content)) return units::fault(at(parser.line()), "", "expected CSV: a quote stands where none may, or is not closed");
  auto& rows = parser.rows();
  std::erase_if(rows, [](const TableRow& row) { return row.cells.size() == 1 && units::trimmed(row.cells.front()).empty(); });
  if (rows.empty()) return units::fault(name, "", "expected a header line");
  Table table;
  for (const std::string& cell : rows.front().cells) table.columns.emplace_back(units::trimmed(cell));
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const std::string& column = table.columns[i];
    if (column.empty()) return units::fault(at(rows.front().line), "", "expected a name for column " + std::to_string(i + 1));
    if (std::find(table.columns.begin(), table.columns.begin() + static_cast<std::ptrdiff_t>(i), column) !=
        table.columns.begin() + static_cast<std::ptrdiff_t>(i))
      return units::fault(at(rows.front().line), units::for_message(column), "expected each column once");
  }
  table.rows.assign(std::make_move_iterator(rows.begin() + 1), std::make_move_iterator(rows.end()));
  for (std::size_t i = 0; i < table.rows.size(); ++i) table.rows[i].number = i + 1;
  return table;
}

}  // namespace feeds
