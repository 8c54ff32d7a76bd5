#include "book/quiet_hours.h"

namespace book {
namespace {

using std::chrono::minutes;

bool is_at_work(const AtWork& at_work, minutes clock) {
  const minutes overtime{static_cast<int>(at_work.overtime_h * 60.0)};
  return (!at_work.from || clock >= *at_work.from) && (!at_work.until || clock <= *at_work.until + overtime);
}

}  // namespace

std::optional<units::LocalTime> held_until(const QuietHours& quiet, Purpose purpose, std::optional<units::LocalDay> about,
                                           const AtWork& at_work, units::LocalTime now) {
  const units::LocalDay today = std::chrono::floor<std::chrono::days>(now);
  const auto clock = std::chrono::floor<minutes>(now - today);
  const bool over_midnight = quiet.until < quiet.from;
  const bool is_quiet = over_midnight ? clock >= quiet.from || clock < quiet.until : clock >= quiet.from && clock < quiet.until;
  if (!is_quiet) return std::nullopt;
  if (purpose == Purpose::correction && about == today && is_at_work(at_work, clock)) return std::nullopt;
  const units::LocalDay end = over_midnight && clock >= quiet.from ? today + std::chrono::days{1} : today;
  return end + quiet.until;
}

}  // namespace book
