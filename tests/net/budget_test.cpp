#include "net/budget.h"

#include <doctest/doctest.h>

#include <fstream>

#include "net/scratch.h"

using namespace std::chrono_literals;
using units::UtcTime;

namespace {
const UtcTime noon = std::chrono::sys_days{std::chrono::year{2026} / 7 / 31} + 12h;
net::Rates limited() { return {.per_second = 100, .at_once = 1, .per_minute = 10.0, .per_hour = 25.0, .per_day = 40.0, .per_month = 60.0}; }
}  // namespace

TEST_SUITE("net") {
  TEST_CASE("calls are granted until a window is full, and again when it ends") {
    const ScratchFolder scratch;
    net::Budgets budgets{scratch.path()};
    const auto take = [&](double weight, UtcTime now) { return budgets.reserve("open-meteo", limited(), weight, now); };
    CHECK(take(6.0, noon).granted);
    CHECK(take(4.0, noon + 10s).granted);
    const auto full = take(0.5, noon + 20s);
    CHECK_FALSE(full.granted);
    CHECK(full.again == noon + 60s);
    CHECK(take(10.0, noon + 60s).granted);
    CHECK(take(5.0, noon + 120s).granted);
    CHECK(take(1.0, noon + 180s).again == noon + 1h);
    CHECK(take(10.0, noon + 1h).granted);
    CHECK(take(5.0, noon + 61min).granted);
    CHECK(take(1.0, noon + 2h).again == noon + 12h);
    // The next day is the next month: both are new.
    CHECK(take(10.0, noon + 12h).granted);
    CHECK(budgets.spent("open-meteo", limited(), noon + 12h).today == 10.0);
    CHECK(budgets.spent("open-meteo", limited(), noon + 12h).left_today == 30.0);
    CHECK_FALSE(budgets.spent("nws", {}, noon).left_today.has_value());
  }

  TEST_CASE("what one run has spent the next one knows, and each service has its own") {
    const ScratchFolder scratch;
    CHECK(net::Budgets{scratch.path()}.reserve("open-meteo", limited(), 10.0, noon).granted);
    CHECK_FALSE(net::Budgets{scratch.path()}.reserve("open-meteo", limited(), 1.0, noon).granted);
    CHECK(net::Budgets{scratch.path()}.reserve("nws", limited(), 1.0, noon).granted);
  }

  TEST_CASE("a clock that jumps back grants nothing anew, and one that jumps on does not lock up") {
    const ScratchFolder scratch;
    net::Budgets budgets{scratch.path()};
    CHECK(budgets.reserve("x", limited(), 10.0, noon).granted);
    CHECK_FALSE(budgets.reserve("x", limited(), 1.0, noon - 48h).granted);
    CHECK(budgets.reserve("x", limited(), 1.0, noon + 24h * 400).granted);
    // That clock was years ahead: set right, it must not lock the office out for years.
    CHECK(budgets.reserve("x", limited(), 10.0, noon).granted);
    budgets.wait_until("x", noon + 24h * 400);
    CHECK(budgets.reserve("x", {}, 1.0, noon).granted);
  }

  TEST_CASE("a call heavier than a whole window goes alone") {
    const ScratchFolder scratch;
    net::Budgets budgets{scratch.path()};
    CHECK(budgets.reserve("x", limited(), 15.0, noon).granted);
    CHECK_FALSE(budgets.reserve("x", limited(), 1.0, noon).granted);
  }

  TEST_CASE("a wait that the service asked for binds every run") {
    const ScratchFolder scratch;
    net::Budgets{scratch.path()}.wait_until("nws", noon + 5min);
    const auto grant = net::Budgets{scratch.path()}.reserve("nws", {}, 1.0, noon);
    CHECK_FALSE(grant.granted);
    CHECK(grant.again == noon + 5min);
    CHECK(net::Budgets{scratch.path()}.reserve("nws", {}, 1.0, noon + 5min).granted);
  }

  TEST_CASE("a garbled account begins anew, and without a place to write calls go on") {
    const ScratchFolder scratch;
    net::Budgets budgets{scratch.path()};
    CHECK(budgets.reserve("x", limited(), 10.0, noon).granted);
    std::ofstream{scratch.path() / "x"} << "nonsense";
    CHECK(budgets.reserve("x", limited(), 10.0, noon).granted);
    CHECK(net::Budgets{"/proc/nowhere"}.reserve("x", limited(), 1.0, noon).granted);
  }
}
