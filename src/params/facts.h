// The facts that the uptake model must reproduce with its shipped numbers, from models/facts.json: what is known, who says so, and how near
// the model must come. The days they are checked on are invented weather.
#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "days/practice.h"
#include "units/fault.h"
#include "units/site.h"
#include "units/time.h"

namespace params {

struct Fact {
  std::string key;     // app/facts.cpp says how it is computed
  std::string text;    // for a person who works with trees
  std::string source;  // a key of references.json
  std::string source_text;
  double lowest = 0.0;  // the bar: the model's figure lies in [lowest, highest]
  double highest = 0.0;
  std::string unit;        // "1" for a ratio or a share
  bool published = false;  // else practice without a published source
};

// A kind of day with the rain that falls all through it.
struct ReferenceDay {
  days::DayKind kind;
  double rain_mm_h = 0.0;
  double reference_mm_h = 0.0;  // reference evapotranspiration, which dries wet leaves
};

struct Facts {
  std::vector<Fact> facts;  // in the file's order
  std::map<std::string, ReferenceDay> days;
  units::LocalDay date;  // of every day, for the sun
  units::Site site;
};

// Fault: as load_models, and a bar that is not two rising numbers, a kind other than "published" or "practice".
[[nodiscard]] units::Result<Facts> load_facts(const std::filesystem::path& directory);

}  // namespace params
