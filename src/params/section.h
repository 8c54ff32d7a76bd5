// A strict reader of parameter objects: what is asked for must be there, and nothing else may be.
#pragma once
#include <functional>
#include <map>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "params/models.h"
#include "units/fault.h"
#include "units/uncertain.h"

namespace params {

// One entry of an owner's file.
struct Override {
  double value = 0.0;
  std::string unit;
  std::string note;
  bool used = false;
};

// What all files of one load share. The first fault is kept and every later reading returns zeros, so binders need no checks.
struct Reading {
  std::vector<Reference> references;
  std::vector<Row> rows;
  std::string owner_file;
  std::map<std::string, Override> overrides;  // by Row::key
  std::optional<units::Fault> fault;

  void fail(std::string where, std::string found, std::string expected);
  [[nodiscard]] const Reference* reference(std::string_view key) const;
};

// An object inside a file, read by names. After the reader returns, names that nobody asked for and names that were missing become
// faults, the former first: a typing error shows as both and the misspelt name is the one to see.
class Section {
 public:
  using Reader = std::function<void(Section&)>;

  // Reads `json` as the object at `key` of `file` ("" for the whole file).
  static void read(Reading& reading, const std::string& file, const std::string& stem, const std::string& key,
                   const nlohmann::ordered_json& json, const Reader& reader);

  void section(std::string_view name, const Reader& reader);
  // The same, once for each key, whatever the keys are.
  void each(const std::function<void(const std::string& name)>& visit) const;
  [[nodiscard]] bool has(std::string_view name) const;
  // Whether the file has a name that it may leave out.
  bool optional(std::string_view name);

  // A parameter taken as known, and one that differs between trees and so must have a spread.
  double number(std::string_view name, std::string_view unit);
  units::Uncertain uncertain(std::string_view name, std::string_view unit);
  // An exponent that tree/power.h can raise to: a multiple of one half.
  double half_step(std::string_view name);
  // Parameters keyed by what they are given at: "d1", "d7.5" for prefix "d"; pairs of that number and the value, rising.
  std::vector<std::pair<double, double>> series(std::string_view name, std::string_view prefix, std::string_view unit);

  // Plain members that are not parameters.
  std::string text(std::string_view name);
  std::string text_or_nothing(std::string_view name);
  std::vector<std::string> texts(std::string_view name);
  double bare_number(std::string_view name);
  std::pair<double, double> bounds(std::string_view name);  // two rising numbers

  // Where a name of this section stands, as faults print it.
  [[nodiscard]] std::string where(std::string_view name) const;
  // Whether the owner's file sets a name of this section, and where the value in force was written.
  [[nodiscard]] bool overridden(std::string_view name) const;
  [[nodiscard]] std::string set_at(std::string_view name) const;
  [[nodiscard]] Reading& reading() { return reading_; }
  // Refuses `low` above `high`. An owner may move either value: whichever he moved is named.
  void in_order(std::string_view low_name, double low, std::string_view high_name, double high);
  // Source, rests_on, confidence and note of this object, for members that share one provenance.
  void provenance(Row& row);
  // Checks the value against its row, lays the owner's value on top, and lists it.
  double accept(Row row, std::string_view unit, std::string_view name);

 private:
  Section(Reading& reading, std::string file, std::string stem, std::string key, const nlohmann::ordered_json& json);
  const nlohmann::ordered_json* member(std::string_view name);
  units::Uncertain parameter(std::string_view name, std::string_view unit, bool with_spread);
  void finish();
  [[nodiscard]] std::string key_of(std::string_view name) const;

  Reading& reading_;
  std::string file_, stem_, key_;
  const nlohmann::ordered_json& json_;
  std::set<std::string, std::less<>> asked_;
  std::vector<std::string> missing_;
};

}  // namespace params
