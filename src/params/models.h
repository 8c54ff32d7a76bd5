// The numbers of nature and practice, loaded from a models/ directory: each has a unit, a range, a source and a confidence,
// and a file that breaks any of these is refused. In the files a parameter is an object
//   {"value", "unit", "range": [lowest, highest], "spread_ln_sd"?, "source", "rests_on"?, "confidence", "note"?}
// under the name of the struct member that it fills, less the unit; no other names are allowed, and a spread stands exactly where
// the struct has units::Uncertain. Coefficients of one crown fit share a source, and their limits stand in "fit_limits".
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "book/delivery.h"
#include "book/due.h"
#include "book/place_rules.h"
#include "days/practice.h"
#include "plan/planning.h"
#include "sapflow/parameters.h"
#include "soil/parameters.h"
#include "soil/plot.h"
#include "soil/texture.h"
#include "tree/parameters.h"
#include "units/fault.h"
#include "uptake/parameters.h"

namespace params {

// What a source key stands for. Keys such as "common-practice" and "own-estimate" say honestly that nothing was published.
struct Reference {
  std::string key;
  std::string text;
  std::string address;  // DOI or web address; empty where there is none
};

// One parameter as a person is shown it.
struct Row {
  std::string key;  // file stem and path inside it: "tree.stomata.g_ref"; an owner's override uses this key
  double value = 0.0;
  std::string unit;  // "1" where there is none
  double lowest = 0.0;
  double highest = 0.0;
  std::optional<double> spread_ln_sd;  // between trees; absent where the parameter is taken as known
  std::string source;                  // a key of `Models::references`
  std::string source_text;
  std::vector<std::string> rests_on;  // further references that the source's work started from
  char confidence = 'D';              // A table or data read, B abstract or excerpt read, C from memory, D our estimate
  std::string note;                   // may be empty; the owner's note where the owner gave one
  bool overridden = false;
  double shipped_value = 0.0;  // equals `value` unless overridden
};

// A species that is known by name but not answered for, and why.
struct Unanswered {
  std::string key;
  std::string latin;
  std::vector<std::string> english;
  std::string reason;
};

struct Models {
  tree::Parameters tree;
  uptake::PortParameters ports;
  days::Practice practice;
  book::OfficeTerms office;
  book::DeliveryTerms sending;
  plan::Planning planning;
  book::PlaceRules port_places;
  std::vector<tree::Species> species;  // by key; an overridden crown or leaf calendar serves every species that shares it
  std::vector<Unanswered> unanswered;
  std::vector<soil::Texture> textures;
  soil::Parameters soil;
  soil::PlotParameters plot;
  sapflow::Parameters sapflow;
  std::vector<Reference> references;
  std::vector<Row> rows;  // every parameter, file by file, in the files' order
};

// Reads every file of `directory`, then lays the owner's file on top when one is given. That file is a flat JSON object
//   {"practice.set_up.dose": {"value": 1.9, "unit": "L/cm", "note": "label of 2026"}}
// with the keys of `Row`; value and unit are required, and the shipped range binds.
// Fault: the first of an unreadable file, a JSON syntax error (file:line), a key given twice, unknown or missing, a unit other
// than the expected one, a value outside its range, a missing spread, a confidence other than A to D, an unresolved source,
// an order that cannot hold (latest start before earliest start).
[[nodiscard]] units::Result<Models> load_models(const std::filesystem::path& directory,
                                                const std::optional<std::filesystem::path>& owner_file = std::nullopt);

}  // namespace params
