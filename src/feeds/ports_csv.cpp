#include "feeds/ports_csv.h"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "feeds/csv.h"
#include "feeds/text.h"

namespace feeds {
namespace {

using units::Fault;

constexpr double least_flare_cm = 5.0, most_flare_cm = 3000.0;

// Reads lines into `record`; the first fault stays in `fault`.
class Rows {
 public:
  Rows(const CsvReader& reader, const CsvHeader& header) : reader_(reader), header_(header) {}

  [[nodiscard]] std::optional<Fault> read(const CsvRow& row) {
    row_ = &row;
    const auto kind = field("kind");
    if (kind.empty() || kind == "port")
      port();
    else if (kind == "bad")
      bad();
    else if (kind == "ridge")
      ridge();
    else if (kind == "flare")
      flare();
    else
      refuse("kind", "expected port, bad, ridge or flare");
    return fault_;
  }

  [[nodiscard]] book::FlareRecord& record() { return record_; }

 private:
  [[nodiscard]] std::string_view field(std::string_view column) const { return header_.field(*row_, column); }

  void refuse(std::string_view column, const std::string& expected) {
    if (!fault_) fault_ = Fault{reader_.where(row_->line, column), for_message(field(column)), expected};
  }

  std::optional<double> maybe(std::string_view column, double lowest, double highest) {
    if (field(column).empty()) return std::nullopt;
    const auto value = parse_number(field(column));
    if (value && *value >= lowest && *value <= highest) return value;
    refuse(column, fmt::format("expected a number from {:.6g} to {:.6g}", lowest, highest));
    return std::nullopt;
  }

  double number(std::string_view column, double lowest, double highest) {
    const auto value = maybe(column, lowest, highest);
    if (!value) refuse(column, fmt::format("expected a number from {:.6g} to {:.6g}", lowest, highest));
    return value.value_or(lowest);
  }

  // A column that says nothing of this kind of line.
  void empty(std::string_view column) {
    if (!field(column).empty()) refuse(column, "expected nothing on a line of this kind");
  }

  std::optional<double> flare_then() { return maybe("flare_cm", least_flare_cm, most_flare_cm); }

  void port() {
    empty("to_cm");
    book::OldPort old;
    old.flare_cm = flare_then();
    old.clockwise_cm = number("clockwise_cm", 0.0, old.flare_cm.value_or(most_flare_cm));
    old.height_cm = maybe("height_cm", -100.0, 300.0);
    if (const auto year = maybe("year", 1900.0, 2200.0)) {
      old.year = static_cast<int>(*year);
      if (*year != std::floor(*year)) refuse("year", "expected a whole number");
    }
    const auto leaked = field("leaked");
    old.leaked = leaked == "yes" || leaked == "1";
    if (!leaked.empty() && !old.leaked && leaked != "no" && leaked != "0") refuse("leaked", "expected yes or no");
    record_.old_ports.push_back(old);
  }

  struct Ends {
    double from_cm, to_cm;
    std::optional<double> flare_cm;
  };

  Ends ends() {
    for (const char* column : {"height_cm", "leaked"}) empty(column);
    const auto flare_cm = flare_then();
    const double most = flare_cm.value_or(most_flare_cm);
    return {number("clockwise_cm", 0.0, most), number("to_cm", 0.0, most), flare_cm};
  }

  void bad() {
    const Ends ends = this->ends();
    record_.bad.push_back({ends.from_cm, ends.to_cm, ends.flare_cm});
  }

  void ridge() {
    const Ends ends = this->ends();
    const bool over_tag = ends.to_cm < ends.from_cm;
    if (over_tag && !ends.flare_cm) refuse("flare_cm", "expected the flare's circumference for a ridge over the tag");
    const double to_cm = ends.to_cm + (over_tag ? ends.flare_cm.value_or(0.0) : 0.0);
    record_.ridges.push_back({(ends.from_cm + to_cm) / 2.0, (to_cm - ends.from_cm) / 2.0, ends.flare_cm});
  }

  void flare() {
    for (const char* column : {"clockwise_cm", "to_cm", "height_cm", "year", "leaked"}) empty(column);
    if (record_.flare_cm) refuse("kind", "expected one line of the flare as measured now");
    record_.flare_cm = number("flare_cm", least_flare_cm, most_flare_cm);
  }

  const CsvReader& reader_;
  const CsvHeader& header_;
  const CsvRow* row_ = nullptr;
  book::FlareRecord record_;
  std::optional<Fault> fault_;
};

}  // namespace

units::Result<book::FlareRecord> read_ports(const std::string& name, std::string_view content) {
  CsvReader reader{name, content};
  const auto header = CsvHeader::read(reader, {"clockwise_cm"}, {"kind", "to_cm", "height_cm", "year", "flare_cm", "leaked"});
  if (!header) return tl::make_unexpected(header.error());
  // An unknown column may be a misspelt one, and what it says would be lost.
  if (!header->warnings().empty())
    return units::fault(reader.where(reader.line()), "",
                        "expected only the columns kind,clockwise_cm,to_cm,height_cm,year,flare_cm,leaked");
  Rows rows{reader, *header};
  while (const auto row = reader.next()) {
    if (!*row) return tl::make_unexpected(row->error());
    if (auto fault = rows.read(**row)) return tl::make_unexpected(std::move(*fault));
  }
  return std::move(rows.record());
}

}  // namespace feeds
