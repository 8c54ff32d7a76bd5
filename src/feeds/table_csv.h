// A CSV table of any columns, as RFC 4180 has it, read by libcsv: quoted cells may hold commas, quotes and line breaks. Cells are kept as
// they are: what they mean is for the caller to say.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"

namespace feeds {

struct TableRow {
  std::size_t number = 0;  // of the data row, from 1: as a spreadsheet counts below its header
  std::size_t line = 0;    // in the file, on which it begins; 0: on none of its own
  std::vector<std::string> cells;
};

struct Table {
  std::vector<std::string> columns;  // blanks around them removed
  std::vector<TableRow> rows;
};

// A byte order mark is skipped, blank lines are left out. A row of another width than the header is kept as it is: only the caller knows
// whom it costs. Fault, as "name:line": no header, a column without a name or named twice, a quote that stands where none may, above
// `largest_table_bytes`.
[[nodiscard]] units::Result<Table> read_table(const std::string& name, std::string_view content);

inline constexpr std::size_t largest_table_bytes = 512 * 1024 * 1024;

}  // namespace feeds
