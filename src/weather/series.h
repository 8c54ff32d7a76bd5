// An hourly weather series of one place: one column a variable, every hour labelled with where its number came from.
// Conventions are those of weather/variable.h: label h ends the hour. A missing value is missing, never zero.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "units/quantity.h"
#include "units/site.h"
#include "units/time.h"
#include "weather/variable.h"

namespace weather {

enum class Provenance : std::uint8_t {
  missing,   // no value
  observed,  // a station or a gauge
  analysed,  // a model's hour that lies in the past
  forecast,  // a model's hour still to come
  filled,    // a short gap bridged between neighbours (weather/gaps.h)
  derived,   // computed from other variables of the same hour, or a total spread evenly over its interval
};

// Values of one variable, hour by hour.
class Column {
 public:
  Column() = default;
  explicit Column(std::size_t hours) : values_(hours, 0.0), provenance_(hours, Provenance::missing) {}

  [[nodiscard]] std::size_t size() const { return values_.size(); }
  [[nodiscard]] Provenance provenance(std::size_t hour) const { return provenance_[hour]; }
  [[nodiscard]] bool has(std::size_t hour) const { return hour < size() && provenance_[hour] != Provenance::missing; }
  // Empty beyond the ends and where missing.
  [[nodiscard]] std::optional<double> at(std::size_t hour) const { return has(hour) ? std::optional{values_[hour]} : std::nullopt; }
  [[nodiscard]] bool empty() const;  // no hour has a value

  void set(std::size_t hour, double value, Provenance provenance) {
    values_[hour] = value;
    provenance_[hour] = provenance;
  }
  void resize(std::size_t hours) {
    values_.resize(hours, 0.0);
    provenance_.resize(hours, Provenance::missing);
  }

 private:
  std::vector<double> values_;
  std::vector<Provenance> provenance_;
};

// Volumetric water content and temperature of a soil layer as a weather service models them. Instants at the label.
struct SoilLayer {
  units::Metres top;     // below the surface
  units::Metres bottom;  // > top
  Column moisture_m3_m3;
  Column temperature_c;
};

class Series {
 public:
  Series() = default;
  Series(units::UtcHour first_label, std::size_t hours);

  [[nodiscard]] units::UtcHour first_label() const { return first_; }
  [[nodiscard]] std::size_t hours() const { return hours_; }
  [[nodiscard]] units::UtcHour label(std::size_t hour) const { return first_ + std::chrono::hours{static_cast<long>(hour)}; }
  // Index of the hour that ends at `label`; empty outside the series.
  [[nodiscard]] std::optional<std::size_t> index_of(units::UtcHour label) const;

  [[nodiscard]] const Column& operator[](Variable variable) const { return columns_[static_cast<std::size_t>(variable)]; }
  [[nodiscard]] Column& operator[](Variable variable) { return columns_[static_cast<std::size_t>(variable)]; }
  [[nodiscard]] std::optional<double> at(Variable variable, std::size_t hour) const { return (*this)[variable].at(hour); }
  // True where any variable or soil layer has a value.
  [[nodiscard]] bool any(std::size_t hour) const;

  std::vector<SoilLayer> soil;  // from the surface down; may be empty

 private:
  units::UtcHour first_{};
  std::size_t hours_ = 0;
  std::array<Column, variable_count> columns_;
};

// What one weather file or reply says about one place.
struct Forecast {
  std::string source;                       // as a person would name it: "Open-Meteo", "station CSV rain.csv"
  std::string credit;                       // the line the source's licence asks for; empty where none is
  std::optional<units::UtcTime> issued_at;  // unknown for sources that do not say
  std::optional<units::Site> place;         // the source's own place, where it states one
  bool elevation_known = false;             // whether place->elevation came from the source
  Series control;                           // the deterministic run, or the ensemble's control
  std::vector<Series> members;              // other ensemble members, same hours as control; empty without an ensemble
  std::vector<std::string> warnings;        // what the reader noticed and let pass, one line each
};

}  // namespace weather
