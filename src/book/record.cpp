#include "book/record.h"

#include "units/text.h"

namespace book {

const std::string& Record::text(const std::string& field) const {
  static const std::string nothing;
  const auto found = fields.find(field);
  return found == fields.end() ? nothing : found->second;
}

std::optional<double> Record::number(const std::string& field) const {
  return text(field).empty() ? std::nullopt : units::parse_number(text(field));
}

std::optional<units::LocalDay> Record::day(const std::string& field) const { return units::parse_day(text(field)); }

std::optional<units::UtcTime> Record::instant(const std::string& field) const { return units::parse_instant(text(field)); }

std::optional<std::chrono::minutes> Record::clock(const std::string& field) const {
  const auto instant = units::parse_instant("1970-01-01T" + text(field) + "Z");
  return instant ? std::optional{std::chrono::floor<std::chrono::minutes>(instant->time_since_epoch())} : std::nullopt;
}

bool Record::yes(const std::string& field) const { return text(field) == "yes"; }

}  // namespace book
