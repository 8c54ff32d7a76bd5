// All that one crew's message for one day may say, as plain data: what was worked out, before it is put in words. Clock times are those of
// the crew's zone; amounts are litres whatever units the crew reads. Texts are as people typed them; whoever puts them in words cleans
// them.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "days/holds.h"
#include "days/quantiles.h"
#include "days/verdict.h"
#include "units/time.h"
#include "units/unit_system.h"

namespace text {

// A hazard with its hours. `worst` as days::Hold has it: the figure that set it, 0 where none did.
struct OrderHold {
  days::HoldCode code = days::HoldCode::thunder;
  units::LocalTime from{}, until{};
  double worst = 0.0;
  friend bool operator==(const OrderHold&, const OrderHold&) = default;
};

struct Valves {
  units::LocalTime open, shut_by;
};

struct Stop {
  std::string name;     // site and tree as the crew calls them
  std::string code;     // the book's short handle, by which stops of two orders are the same; also stands in where a name has no room
  std::string address;  // this and every text below: empty where there is nothing to say
  units::LocalTime arrive{}, off_site_by{};
  std::optional<Valves> valves;  // empty: a stop for preparation only, and mix, flush, verdict and hours mean nothing
  days::Verdict verdict = days::Verdict::no_go;
  double chance = 0.0;  // 0..1: what the verdict rests on
  days::Quantiles takes_h;
  double mix_l = 0.0, flush_l = 0.0;
  int ports = 0, tanks = 0;  // 0: not said
  std::string water;         // where it is drawn: "hydrant at the corner"
  double haul_l = 0.0;       // brought along; 0: none
  std::string gate, dog, home;
  std::vector<std::string> prep;  // what can be done without opening a valve, in order
  std::vector<OrderHold> holds;
  std::vector<std::string> safety;  // lines that are never left out
};

struct CrewOrder {
  std::string crew;
  units::LocalDay date{};
  units::UnitSystem units = units::UnitSystem::us;
  std::vector<Stop> stops;           // in the order of the day
  std::string call;                  // the number to call
  std::vector<std::string> changed;  // against what was agreed before: "Elm St moved to Thu"
  std::optional<double> weather_age_h;
  bool weather_too_old = false;  // beyond the owner's limit: no GO whatever the figures say, and preparation only
};

}  // namespace text
