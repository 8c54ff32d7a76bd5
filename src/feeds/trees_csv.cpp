#include "feeds/trees_csv.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <span>

#include "feeds/csv.h"
#include "feeds/read.h"
#include "feeds/text.h"
#include "units/text.h"

namespace feeds {
namespace {

using units::Fault;

struct Limits {
  double lowest, highest;
};
constexpr Limits dbh_cm{2.0, 400.0}, latitude{-90.0, 90.0}, longitude{-180.0, 180.0}, elevation_m{-430.0, 9000.0}, dose_l{0.1, 5000.0},
    port_count{1.0, 400.0}, crown_m{0.5, 60.0}, crown_now_pct{0.0, 100.0}, rew{0.0, 1.5}, probe_pct{0.0, 100.0}, probe_cm{1.0, 150.0},
    hole_mm{2.0, 30.0}, applied_kpa{10.0, 700.0};

// The fields of one line; collects a fault for each that is not as it should be.
class Fields {
 public:
  Fields(const CsvReader& reader, const CsvHeader& header, const CsvRow& row) : reader_(reader), header_(header), row_(row) {}

  [[nodiscard]] std::string text(std::string_view column) const { return std::string{header_.field(row_, column)}; }

  std::string required_text(std::string_view column) {
    if (text(column).empty()) refuse(column, "expected a text, not nothing");
    return text(column);
  }

  double required_number(std::string_view column, const Limits& limits) {
    if (text(column).empty()) refuse_number(column, limits);
    return number(column, limits).value_or(0.0);
  }

  std::optional<double> number(std::string_view column, const Limits& limits) {
    if (text(column).empty()) return std::nullopt;
    const auto value = parse_number(text(column));
    if (!value || *value < limits.lowest || *value > limits.highest) {
      refuse_number(column, limits);
      return std::nullopt;
    }
    return value;
  }

  std::optional<int> whole_number(std::string_view column, const Limits& limits) {
    const auto value = number(column, limits);
    if (!value) return std::nullopt;
    if (std::floor(*value) == *value) return static_cast<int>(*value);
    refuse(column, "expected a whole number");
    return std::nullopt;
  }

  std::optional<units::LocalDay> day(std::string_view column) {
    if (text(column).empty()) return std::nullopt;
    const auto value = units::parse_day(text(column));
    if (!value) refuse(column, "expected a day YYYY-MM-DD");
    return value;
  }

  std::optional<std::chrono::minutes> clock(std::string_view column) {
    const std::string written = text(column);
    if (written.empty()) return std::nullopt;
    const auto instant = units::parse_instant("1970-01-01T" + written + "Z");
    if (instant && written.size() == 5) return std::chrono::floor<std::chrono::minutes>(instant->time_since_epoch());
    refuse(column, "expected a time HH:MM");
    return std::nullopt;
  }

  // The place of the text among `words`; blanks and hyphens stand for underscores.
  std::optional<std::size_t> one_of(std::string_view column, std::span<const std::string_view> words) {
    std::string written = text(column);
    if (written.empty()) return std::nullopt;
    for (char& c : written)
      if (c == ' ' || c == '-') c = '_';
    const auto found = std::ranges::find_if(words, [&](std::string_view word) { return units::same_letters(word, written); });
    if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
    refuse(column, fmt::format("expected one of {}", fmt::join(words, ", ")));
    return std::nullopt;
  }

  void refuse(std::string_view column, std::string expected) {
    faults_.push_back({reader_.where(row_.line, column), for_message(text(column)), std::move(expected)});
  }

  [[nodiscard]] std::vector<Fault>& faults() { return faults_; }

 private:
  void refuse_number(std::string_view column, const Limits& limits) {
    refuse(column, fmt::format("expected a number from {} to {}", limits.lowest, limits.highest));
  }

  const CsvReader& reader_;
  const CsvHeader& header_;
  const CsvRow& row_;
  std::vector<Fault> faults_;
};

template <class Quantity>
std::optional<Quantity> quantity(std::optional<double> number, double factor = 1.0) {
  return number ? std::optional{Quantity{*number * factor}} : std::nullopt;
}

TreeRow read_row(Fields& fields, std::size_t line) {
  TreeRow row;
  row.line = line;
  row.tree = fields.required_text("tree");
  row.name = fields.text("name");
  row.species = fields.required_text("species");
  row.dbh = units::Centimetres{fields.required_number("dbh_cm", dbh_cm)};
  row.site.latitude = units::Degrees{fields.required_number("lat", latitude)};
  row.site.longitude = units::Degrees{fields.required_number("lon", longitude)};
  row.site.elevation = units::Metres{fields.required_number("elevation_m", elevation_m)};
  row.zone = fields.required_text("zone");
  row.soil = fields.required_text("soil");
  row.dose = quantity<units::Litres>(fields.number("dose_l", dose_l));
  row.ports = fields.whole_number("ports", port_count);
  row.crown = quantity<units::Metres>(fields.number("crown_m", crown_m));
  row.crown_now = quantity<units::Fraction>(fields.number("crown_now_pct", crown_now_pct), 0.01);
  row.full_leaf_on = fields.day("full_leaf_on");
  row.leave_by = fields.clock("leave_by");
  row.rew_now = quantity<units::Fraction>(fields.number("rew_now", rew));
  row.probe = quantity<units::Fraction>(fields.number("probe_pct", probe_pct), 0.01);
  row.probe_depth = quantity<units::Centimetres>(fields.number("probe_cm", probe_cm));
  if (row.probe && !row.probe_depth && fields.text("probe_cm").empty())
    fields.refuse("probe_cm", "expected the depth of the reading in probe_pct");
  row.soil_feel = fields.one_of("soil_feel", soil_feels);
  row.soil_on = fields.day("soil_on");
  row.hole_diameter_mm = fields.number("hole_diameter_mm", hole_mm);
  row.pressure = quantity<units::Kilopascals>(fields.number("pressure_kpa", applied_kpa));
  return row;
}

}  // namespace

units::Result<TreesFile> read_trees(const std::string& name, std::string_view content) {
  if (content.size() > largest_input_bytes)
    return units::fault(name, fmt::format("{} bytes", content.size()), fmt::format("expected at most {} bytes", largest_input_bytes));
  CsvReader reader{name, content};
  const auto header = CsvHeader::read(reader, {"tree", "name", "species", "dbh_cm", "lat", "lon", "elevation_m", "zone", "soil"},
                                      {"dose_l", "ports", "crown_m", "crown_now_pct", "full_leaf_on", "leave_by", "rew_now", "probe_pct",
                                       "probe_cm", "soil_feel", "soil_on", "hole_diameter_mm", "pressure_kpa"});
  if (!header) return tl::make_unexpected(header.error());
  TreesFile file;
  file.warnings = header->warnings();
  std::map<std::string, std::size_t> line_of;
  while (const auto line = reader.next()) {
    if (!*line) {
      file.refused.push_back({reader.line(), "", {line->error()}});
      continue;
    }
    const CsvRow& csv = **line;
    Fields fields{reader, *header, csv};
    if (csv.fields.size() != header->size()) {
      Fault fault{reader.where(csv.line), fmt::format("{} fields", csv.fields.size()),
                  fmt::format("expected {}, as in the header", header->size())};
      file.refused.push_back({csv.line, fields.text("tree"), {std::move(fault)}});
      continue;
    }
    TreeRow row = read_row(fields, csv.line);
    if (const auto [first, is_new] = line_of.try_emplace(row.tree, csv.line); !row.tree.empty() && !is_new)
      fields.refuse("tree", fmt::format("expected another id: line {} has it", first->second));
    if (fields.faults().empty())
      file.trees.push_back(std::move(row));
    else
      file.refused.push_back({csv.line, row.tree, std::move(fields.faults())});
  }
  return file;
}

}  // namespace feeds
