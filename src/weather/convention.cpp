#include "weather/convention.h"

#include <algorithm>
#include <charconv>
#include <string>

namespace weather {
namespace {

using std::chrono::hours;
using units::Result;
using units::UtcHour;
using units::UtcTime;

std::string printed(double value) {
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
  return {buffer.data(), end};
}

Result<void> inside(double value, double lowest, double highest, std::string_view name) {
  if (value >= lowest && value <= highest) return {};
  return units::fault("", printed(value), "expected " + std::string{name} + " from " + printed(lowest) + " to " + printed(highest));
}

bool full_hour(UtcTime time) { return std::chrono::floor<hours>(time) == time; }

Result<void> off_the_hour(UtcTime time) { return units::fault("", units::to_text(time), "expected a full hour"); }

std::string_view kind_name(const Sample& sample) {
  constexpr std::array<std::string_view, std::variant_size_v<Sample>> names{"an instant",
                                                                            "a mean of the preceding hour",
                                                                            "a sum of the preceding hour",
                                                                            "a maximum of the preceding hour",
                                                                            "a sum of the following hour",
                                                                            "a value held over an interval",
                                                                            "a total over an interval"};
  return names[sample.index()];
}

// Whether a source may speak of a variable of this convention in this way.
bool fits(HourConvention convention, const Sample& sample) {
  const bool held = std::holds_alternative<IntervalHold>(sample);
  switch (convention) {
    case HourConvention::instant:
      return held || std::holds_alternative<Instant>(sample);
    case HourConvention::mean_of_preceding_hour:
      return held || std::holds_alternative<MeanOfPrecedingHour>(sample);
    case HourConvention::maximum_of_preceding_hour:
      return held || std::holds_alternative<MaximumOfPrecedingHour>(sample);
    case HourConvention::sum_of_preceding_hour:
      return std::holds_alternative<SumOfPrecedingHour>(sample) || std::holds_alternative<SumOfFollowingHour>(sample) ||
             std::holds_alternative<IntervalTotal>(sample);
  }
  return false;
}

// The labels first..last that a sample fills, and what each of them gets.
struct Placement {
  UtcTime first, last;
  double value;
  bool derived;
};

struct Placing {
  HourConvention convention;

  Placement operator()(const Instant& s) const { return {s.at, s.at, s.value, false}; }
  Placement operator()(const MeanOfPrecedingHour& s) const { return {s.label, s.label, s.value, false}; }
  Placement operator()(const SumOfPrecedingHour& s) const { return {s.label, s.label, s.value, false}; }
  Placement operator()(const MaximumOfPrecedingHour& s) const { return {s.label, s.label, s.value, false}; }
  Placement operator()(const SumOfFollowingHour& s) const { return {s.start + hours{1}, s.start + hours{1}, s.value, false}; }
  Placement operator()(const IntervalHold& s) const {
    const UtcTime first = std::chrono::ceil<hours>(s.from);
    const UtcTime last = std::chrono::ceil<hours>(s.until) - hours{1};
    const hours lead{convention == HourConvention::instant ? 0 : 1};
    return {first + lead, last + lead, s.value, false};
  }
  Placement operator()(const IntervalTotal& s) const {
    const double length_h = std::chrono::duration<double, std::ratio<3600>>(s.until - s.from).count();
    return {s.from + hours{1}, s.until, s.value / length_h, true};
  }
};

double value_of(const Sample& sample) {
  return std::visit([](const auto& s) { return s.value; }, sample);
}

}  // namespace

Sample hour_ending(Variable variable, UtcTime label, double value) {
  switch (traits(variable).convention) {
    case HourConvention::mean_of_preceding_hour:
      return MeanOfPrecedingHour{label, value};
    case HourConvention::sum_of_preceding_hour:
      return SumOfPrecedingHour{label, value};
    case HourConvention::maximum_of_preceding_hour:
      return MaximumOfPrecedingHour{label, value};
    case HourConvention::instant:
      break;
  }
  return Instant{label, value};
}

Result<void> SeriesBuilder::place(Track& track, UtcTime time, double value, bool derived) {
  if (!full_hour(time)) return off_the_hour(time);
  const UtcHour label = std::chrono::floor<hours>(time);
  if (!track.empty() && label <= track.back().label)
    return units::fault("", units::to_text(time), "expected a time after " + units::to_text(UtcTime{track.back().label}));
  if (!track.empty() && label - track.front().label > longest_series)
    return units::fault("", units::to_text(time),
                        "expected at most " + std::to_string(longest_series.count() / (24 * 366)) + " years in one series");
  Provenance provenance = Provenance::forecast;
  if (derived)
    provenance = Provenance::derived;
  else if (label <= now_)
    provenance = origin_ == Origin::station ? Provenance::observed : Provenance::analysed;
  track.push_back({label, value, provenance});
  return {};
}

Result<void> SeriesBuilder::add(Variable variable, const Sample& sample) {
  const VariableTraits& t = traits(variable);
  if (!fits(t.convention, sample))
    return units::fault("", std::string{kind_name(sample)}, "expected another hour convention for " + std::string{t.name});
  if (auto ok = inside(value_of(sample), t.lowest, t.highest, t.name); !ok) return ok;
  if (const auto* total = std::get_if<IntervalTotal>(&sample); total && total->until <= total->from)
    return units::fault("", units::to_text(total->until), "expected an interval that ends after its start");
  const Placement placement = std::visit(Placing{t.convention}, sample);
  if (placement.last - placement.first > longest_series)
    return units::fault("", units::to_text(placement.last), "expected a shorter interval");
  if (!full_hour(placement.first)) return off_the_hour(placement.first);
  if (!full_hour(placement.last)) return off_the_hour(placement.last);
  Track& track = tracks_[static_cast<std::size_t>(variable)];
  for (UtcTime label = placement.first; label <= placement.last; label += hours{1})
    if (auto ok = place(track, label, placement.value, placement.derived); !ok) return ok;
  return {};
}

Result<void> SeriesBuilder::add(const SoilColumn& column, const Instant& sample) {
  const bool moisture = column.quantity == SoilQuantity::moisture;
  auto ok = moisture ? inside(sample.value, lowest_soil_moisture, highest_soil_moisture, "soil moisture")
                     : inside(sample.value, lowest_soil_temperature_c, highest_soil_temperature_c, "soil temperature");
  if (!ok) return ok;
  const auto same = [&](const SoilTrack& track) {
    return track.column.top == column.top && track.column.bottom == column.bottom && track.column.quantity == column.quantity;
  };
  auto track = std::find_if(soil_.begin(), soil_.end(), same);
  if (track == soil_.end()) track = soil_.insert(soil_.end(), {column, {}});
  return place(track->placed, sample.at, sample.value, false);
}

std::optional<SeriesBuilder::Extent> SeriesBuilder::extent() const {
  std::optional<Extent> extent;
  const auto widen = [&extent](const Track& track) {
    if (track.empty()) return;
    if (!extent) extent = Extent{track.front().label, track.back().label};
    extent->first = std::min(extent->first, track.front().label);
    extent->last = std::max(extent->last, track.back().label);
  };
  for (const Track& track : tracks_) widen(track);
  for (const SoilTrack& track : soil_) widen(track.placed);
  return extent;
}

Series SeriesBuilder::build(const Extent& extent) const {
  const auto count = static_cast<std::size_t>((extent.last - extent.first).count()) + 1;
  Series series{extent.first, count};
  const auto fill = [&series](Column& column, const Track& track) {
    for (const Placed& placed : track)
      if (const auto hour = series.index_of(placed.label)) column.set(*hour, placed.value, placed.provenance);
  };
  for (std::size_t v = 0; v < variable_count; ++v) fill(series[static_cast<Variable>(v)], tracks_[v]);
  for (const SoilTrack& track : soil_) {
    const auto same = [&](const SoilLayer& layer) { return layer.top == track.column.top && layer.bottom == track.column.bottom; };
    auto layer = std::find_if(series.soil.begin(), series.soil.end(), same);
    if (layer == series.soil.end())
      layer = series.soil.insert(layer, {track.column.top, track.column.bottom, Column{count}, Column{count}});
    fill(track.column.quantity == SoilQuantity::moisture ? layer->moisture_m3_m3 : layer->temperature_c, track.placed);
  }
  std::sort(series.soil.begin(), series.soil.end(),
            [](const SoilLayer& a, const SoilLayer& b) { return a.top != b.top ? a.top < b.top : a.bottom < b.bottom; });
  return series;
}

}  // namespace weather
