// The new ports of one sheet, laid out on its flare, and how that is said to a crew.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/request.h"
#include "book/flare_record.h"
#include "book/place_rules.h"
#include "book/port_places.h"

namespace app {

// Where the circumference comes from that the places are laid out on.
enum class FlareFrom { measured, earlier_treatment, trunk };

struct PortPlan {
  bool on_record = false;  // something was known of the flare; else `record` is empty
  book::FlareRecord record;
  book::PortPlaces places;
  double flare_cm = 0.0;
  FlareFrom flare_from = FlareFrom::trunk;
  std::optional<int> flare_year;  // of the earlier treatment, where known
  book::PlaceRules rules;
};

// The flare as measured now wins over the newest treatment's, and that over what the trunk lets expect, `trunk_flare_cm`.
[[nodiscard]] units::Result<PortPlan> plan_ports(const std::optional<book::FlareRecord>& record, int ports, double trunk_flare_cm,
                                                 const book::PlaceRules& rules);

// What the crew must know beside the places: whether all fit, what gives where, which flare they are laid out on.
[[nodiscard]] std::vector<std::string> port_plan_says(const PortPlan& plan, UnitSystem units);

// One place each: "7   87 1/4 in, 4 in up". Empty without a record: then any even spread will do.
[[nodiscard]] std::vector<std::string> port_plan_list(const PortPlan& plan, UnitSystem units);

namespace words {
// As a tape shows it: "87 1/4" inches, "221.5" centimetres.
[[nodiscard]] std::string on_tape(double cm, UnitSystem units);
// "in", "cm".
[[nodiscard]] std::string tape_unit(UnitSystem units);
// A circumference: "17 ft 5 in", "530 cm".
[[nodiscard]] std::string around(double cm, UnitSystem units);
}  // namespace words

}  // namespace app
