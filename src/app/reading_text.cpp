#include <fmt/format.h>

#include <cmath>

#include "app/reading_command.h"
#include "app/words.h"
#include "app/wrap.h"
#include "days/clock.h"
#include "units/us_customary.h"

namespace app {
namespace {

class Text {
 public:
  Text(const ReadingReport& report, const Common& common) : report_(report), now_(report.now), units_(common.units), made_at_(common.now) {}

  [[nodiscard]] std::string text() const {
    std::string out = line(heading()) + line(finish()) + line(rates()) + line(odds()) + line(tank());
    if (now_.odd) out += line("WARNING: " + odd_reading_text(report_, units_));
    if (report_.hold) out += line(fmt::format("HOLD from {}: {}", clock(report_.hold->from), words::hold(*report_.hold, units_)));
    return out + line(weather()) + words::cautions() + "\n";
  }

 private:
  static std::string line(const std::string& text) { return text.empty() ? "" : wrap(text, ""); }

  [[nodiscard]] std::string clock(units::UtcTime t) const { return words::clock(report_.tree.tree.zone.to_local(t)); }

  // To five minutes, with the day where it is another than the opening's.
  [[nodiscard]] std::string when(double hours) const {
    const auto t = std::chrono::round<std::chrono::duration<int, std::ratio<300>>>(days::later_by(report_.opened, hours));
    const auto& zone = report_.tree.tree.zone;
    return clock(t) + (zone.day_of(t) == zone.day_of(report_.opened) ? "" : " " + words::day(zone.day_of(t)));
  }

  // "1:00 pm to 2:25 pm".
  [[nodiscard]] std::string range(const days::Quantiles& h) const {
    return h.p10 ? fmt::format("{} to {}", when(*h.p10), h.p90 ? when(*h.p90) : "beyond a day") : "not within a day";
  }

  [[nodiscard]] std::string heading() const {
    const auto& row = report_.tree.row;
    const std::string taken = report_.at()
                                  ? fmt::format("{} of {} by {}", amount(report_.taken().value), amount(dose_l()), clock(*report_.at()))
                                  : fmt::format("no reading yet, dose {}", amount(dose_l()));
    return fmt::format("{}, valves open {}: {}{}.", row.name.empty() ? row.tree : row.name, clock(report_.opened), taken,
                       report_.tree.tree.dose_from_label ? "" : " (DRAFT dose)");
  }

  [[nodiscard]] std::string finish() const {
    if (report_.taken().value >= dose_l()) return "The dose is in. Now the clean water, at the tree's own pace.";
    return fmt::format("Dose in: {}{}.", now_.finish_h.p50 ? "likely " + when(*now_.finish_h.p50) + ", " : "", range(now_.finish_h));
  }

  [[nodiscard]] std::string rates() const {
    if (!now_.rate_l_h) return "";
    return fmt::format("Normal: {} by now, {} an hour, dose in {}. This tree: {} an hour.", span(now_.normal_l), span(now_.normal_l_h),
                       range(now_.before_h), amount(*now_.rate_l_h));
  }

  [[nodiscard]] std::string odds() const {
    return fmt::format("Valves shut by {}: {} that the dose is in by then.", when(days::hours_between(report_.opened, report_.shut_by)),
                       words::chance(now_.chance_to_finish));
  }

  [[nodiscard]] std::string tank() const {
    const std::string sure =
        fmt::format("9 in 10 sure before {}: {} more.", report_.hold ? "the hold" : "shut-off", sure_amount(now_.sure_l));
    const std::string so_far = amount(now_.mixed_l) + " mixed so far";
    switch (now_.tank) {
      case days::TankAdvice::nothing_left:
        return fmt::format("Tank: the whole dose is mixed. {}", sure);
      case days::TankAdvice::mix:
        return fmt::format("Tank: MIX the next {} ({}). {}", amount(now_.mix_l), so_far, sure);
      case days::TankAdvice::mix_part:
        return fmt::format("Tank: MIX ONLY {} ({}). {}", sure_amount(now_.mix_l), so_far, sure);
      case days::TankAdvice::do_not_mix:
        break;
    }
    return fmt::format("Tank: DO NOT MIX more now ({}). {}", so_far, sure);
  }

  [[nodiscard]] double dose_l() const { return report_.tree.tree.subject.dose.value; }
  [[nodiscard]] std::string amount(double litres) const { return words::amount(litres, units_); }
  // What is sure is rounded down.
  [[nodiscard]] std::string sure_amount(double litres) const {
    const bool us = units_ == UnitSystem::us;
    return fmt::format("{:.0f} {}", std::floor((us ? units::us::gallons(litres) : litres) + 1e-6), us ? "gal" : "L");
  }
  [[nodiscard]] std::string span(const days::Quantiles& litres) const {
    const auto number = [&](double l) { return std::lround(units_ == UnitSystem::us ? units::us::gallons(l) : l); };
    return fmt::format("{}-{} {}", number(*litres.p10), number(*litres.p90), units_ == UnitSystem::us ? "gal" : "L");
  }

  [[nodiscard]] std::string weather() const {
    std::string line = "Weather: " + report_.source;
    if (report_.issued_at) line += fmt::format(", {:.0f} h old", days::hours_between(*report_.issued_at, made_at_));
    return report_.credit.empty() ? line : line + ". " + report_.credit;
  }

  const ReadingReport& report_;
  const days::TreeNow& now_;
  UnitSystem units_;
  units::UtcTime made_at_;
};

}  // namespace

std::string odd_reading_text(const ReadingReport& report, UnitSystem units) {
  const auto& odd = *report.now.odd;
  const TankReading& reading = report.readings[odd.index];
  const auto said = [&](const TankReading& one) {
    return fmt::format("{} by {}", words::amount(one.taken.value, units), words::clock(report.tree.tree.zone.to_local(one.at)));
  };
  // A later reading is odd after the ones before it, though taken alone it may not be.
  const std::string what = said(reading) + (odd.index == 0 ? "" : " after " + said(report.readings[odd.index - 1]));
  if (odd.never) return what + ": no tree we know takes that much; look for a leak.";
  if (odd.above) return what + " is far too much: a leak, or the tank misread?";
  return what + " is far too little: a shut valve, air in a section, leaves still wet?";
}

std::string reading_text(const ReadingReport& report, const Common& common) { return Text{report, common}.text(); }

}  // namespace app
