#include "feeds/csv.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/text.h"

namespace feeds {
namespace {

using units::Result;

// Takes one field and the comma after it off the front of `rest`; `more` tells whether a comma was there.
// Empty where quotes do not pair.
std::optional<std::string> take_field(std::string_view& rest, bool& more) {
  constexpr std::string_view blanks = " \t";
  const auto start = rest.find_first_not_of(blanks);
  if (start == std::string_view::npos || rest[start] != '"') {
    const auto comma = rest.find(',');
    const std::string_view field = rest.substr(0, comma);
    if (field.find('"') != std::string_view::npos) return std::nullopt;
    more = comma != std::string_view::npos;
    rest.remove_prefix(more ? comma + 1 : rest.size());
    return std::string{trimmed(field)};
  }
  rest.remove_prefix(start + 1);
  std::string field;
  for (;;) {
    const auto quote = rest.find('"');
    if (quote == std::string_view::npos) return std::nullopt;
    field += rest.substr(0, quote);
    rest.remove_prefix(quote + 1);
    if (rest.empty() || rest.front() != '"') break;
    field += '"';
    rest.remove_prefix(1);
  }
  const auto after = std::min(rest.find_first_not_of(blanks), rest.size());
  rest.remove_prefix(after);
  more = !rest.empty();
  if (more && rest.front() != ',') return std::nullopt;
  if (more) rest.remove_prefix(1);
  return field;
}

std::optional<std::vector<std::string>> split(std::string_view line) {
  std::vector<std::string> fields;
  for (bool more = true; more;) {
    auto field = take_field(line, more);
    if (!field) return std::nullopt;
    fields.push_back(*std::move(field));
  }
  return fields;
}

}  // namespace

CsvReader::CsvReader(std::string name, std::string_view content) : name_(std::move(name)), rest_(content) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (rest_.starts_with(byte_order_mark)) rest_.remove_prefix(byte_order_mark.size());
}

std::optional<Result<CsvRow>> CsvReader::next() {
  while (!rest_.empty()) {
    const auto end = rest_.find('\n');
    std::string_view text = rest_.substr(0, end);
    rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
    ++line_;
    if (text.ends_with('\r')) text.remove_suffix(1);
    if (text.size() > longest_csv_line)
      return units::fault(where(line_), "", fmt::format("expected at most {} bytes in a line", longest_csv_line));
    if (trimmed(text).empty() || trimmed(text).front() == '#') continue;
    if (text.find('\0') != std::string_view::npos) return units::fault(where(line_), "", "expected text, not NUL bytes");
    if (!is_utf8(text)) return units::fault(where(line_), for_message(text), "expected UTF-8");
    auto fields = split(text);
    if (!fields)
      return units::fault(where(line_), for_message(text), "expected quotes in pairs around a whole field, closed on the same line");
    return CsvRow{line_, *std::move(fields)};
  }
  return std::nullopt;
}

std::string CsvReader::where(std::size_t line) const { return fmt::format("{}:{}", name_, line); }
std::string CsvReader::where(std::size_t line, std::string_view column) const { return fmt::format("{}:{}: {}", name_, line, column); }

Result<CsvHeader> CsvHeader::read(CsvReader& reader, const std::vector<std::string_view>& required,
                                  const std::vector<std::string_view>& optional) {
  auto row = reader.next();
  if (!row) return units::fault(reader.where(reader.line() + 1), "", fmt::format("expected a header with {}", fmt::join(required, ",")));
  if (!*row) return tl::make_unexpected(row->error());
  CsvHeader header;
  header.names_ = std::move((*row)->fields);
  const std::size_t line = reader.line();
  for (const std::string_view column : required)
    if (!header.has(column))
      return units::fault(reader.where(line, column), "", "missing in the header: expected comma-separated column names");
  for (const std::string& name : header.names_) {
    if (name.empty()) continue;
    if (std::count(header.names_.begin(), header.names_.end(), name) > 1)
      return units::fault(reader.where(line), for_message(name), "expected a column name once");
    const auto knows = [&](const auto& columns) { return std::find(columns.begin(), columns.end(), name) != columns.end(); };
    if (!knows(required) && !knows(optional))
      header.warnings_.push_back(fmt::format("{}: column '{}' is not known and not read", reader.where(line), for_message(name)));
  }
  return header;
}

std::string_view CsvHeader::field(const CsvRow& row, std::string_view column) const {
  const auto index = index_of(column);
  return index && *index < row.fields.size() ? std::string_view{row.fields[*index]} : std::string_view{};
}

std::optional<std::size_t> CsvHeader::index_of(std::string_view column) const {
  const auto found = std::find(names_.begin(), names_.end(), column);
  if (found == names_.end()) return std::nullopt;
  return static_cast<std::size_t>(found - names_.begin());
}

}  // namespace feeds
