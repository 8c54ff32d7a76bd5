#include "net/budget.h"

#include <fmt/format.h>

#include <array>
#include <fstream>

#include "net/durable_file.h"

namespace net {
namespace {

using std::chrono::days, std::chrono::floor, std::chrono::hours, std::chrono::minutes, std::chrono::seconds;
using units::UtcTime;

enum Window : std::size_t { minute, hour, day, month, windows };

UtcTime begin_of(Window window, UtcTime now) {
  switch (window) {
    case minute:
      return floor<minutes>(now);
    case hour:
      return floor<hours>(now);
    case day:
      return floor<days>(now);
    default: {
      const std::chrono::year_month_day date{floor<days>(now)};
      return std::chrono::sys_days{date.year() / date.month() / 1};
    }
  }
}

UtcTime end_of(Window window, UtcTime begin) {
  switch (window) {
    case minute:
      return begin + minutes{1};
    case hour:
      return begin + hours{1};
    case day:
      return begin + days{1};
    default: {
      const std::chrono::year_month_day date{floor<days>(begin)};
      return std::chrono::sys_days{(date.year() / date.month() + std::chrono::months{1}) / 1};
    }
  }
}

std::optional<double> limit_of(Window window, const Rates& rates) {
  return std::array{rates.per_minute, rates.per_hour, rates.per_day, rates.per_month}[window];
}

struct Account {
  std::array<UtcTime, windows> begin{};
  std::array<double, windows> spent{};
  UtcTime not_before{};

  void roll_to(UtcTime now) {
    // Written under a clock that was far ahead: of no use to anybody.
    if (not_before > now + days{2}) not_before = {};
    for (std::size_t w = 0; w < windows; ++w)
      if (begin[w] > now + days{32}) begin[w] = {};
    for (std::size_t w = 0; w < windows; ++w)
      if (const UtcTime current = begin_of(static_cast<Window>(w), now); current > begin[w]) {
        begin[w] = current;
        spent[w] = 0.0;
      }
  }
};

Account load(const std::filesystem::path& file) {
  Account account;
  std::ifstream in{file};
  long long at = 0;
  for (std::size_t w = 0; w < windows; ++w) {
    if (!(in >> at >> account.spent[w])) return {};
    account.begin[w] = UtcTime{seconds{at}};
  }
  if (!(in >> at)) return {};
  account.not_before = UtcTime{seconds{at}};
  return account;
}

void save(const std::filesystem::path& file, const Account& account) {
  std::string text;
  for (std::size_t w = 0; w < windows; ++w) text += fmt::format("{} {}\n", account.begin[w].time_since_epoch().count(), account.spent[w]);
  text += fmt::format("{}\n", account.not_before.time_since_epoch().count());
  static_cast<void>(write_whole(file, text));
}

}  // namespace

Budgets::Grant Budgets::reserve(const std::string& service, const Rates& rates, double weight, UtcTime now) {
  const auto file = folder_ / service;
  const FileLock lock{folder_ / (service + ".lock")};
  Account account = load(file);
  account.roll_to(now);
  if (account.not_before > now) return {false, account.not_before};
  for (std::size_t w = 0; w < windows; ++w) {
    const auto limit = limit_of(static_cast<Window>(w), rates);
    if (limit && account.spent[w] > 0.0 && account.spent[w] + weight > *limit)
      return {false, end_of(static_cast<Window>(w), account.begin[w])};
  }
  for (double& spent : account.spent) spent += weight;
  save(file, account);
  return {};
}

void Budgets::wait_until(const std::string& service, UtcTime instant) {
  const auto file = folder_ / service;
  const FileLock lock{folder_ / (service + ".lock")};
  Account account = load(file);
  account.not_before = std::max(account.not_before, instant);
  save(file, account);
}

Spent Budgets::spent(const std::string& service, const Rates& rates, UtcTime now) const {
  Account account = load(folder_ / service);
  account.roll_to(now);
  Spent spent{service, account.spent[day], {}};
  if (rates.per_day) spent.left_today = std::max(0.0, *rates.per_day - spent.today);
  return spent;
}

}  // namespace net
