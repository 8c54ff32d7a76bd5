#include "weather/blend.h"

#include <algorithm>
#include <array>
#include <optional>

#include "weather/horizon.h"

namespace weather {
namespace {

// Variables that one service must give together: a chance of rain says nothing about another model's amount.
using Group = std::span<const Variable>;
constexpr std::array humidity{Variable::dew_point, Variable::relative_humidity};
constexpr std::array sky{Variable::shortwave, Variable::cloud};
constexpr std::array rain{Variable::rain, Variable::rain_chance};
constexpr std::array pressure{Variable::pressure};
constexpr std::array wind{Variable::wind};
constexpr std::array gust{Variable::gust};
constexpr std::array thunder{Variable::thunder_chance};
constexpr std::array temperature{Variable::temperature};

void copy(Group group, const Series& from, std::size_t at, Series& to, std::size_t hour) {
  for (const Variable variable : group)
    if (from[variable].has(at)) to[variable].set(hour, *from.at(variable, at), from[variable].provenance(at));
}

// Rain's group hangs on the amount: a chance alone tells nothing of how much.
bool has(Group group, const Series& series, std::size_t at) {
  if (group.data() == rain.data()) return series[Variable::rain].has(at);
  return std::ranges::any_of(group, [&](Variable variable) { return series[variable].has(at); });
}

struct Speaker {
  std::size_t rank;
  std::size_t at;  // its index of the hour
};

std::optional<Speaker> speaker(std::span<const Series* const> by_rank, units::UtcHour label) {
  for (std::size_t rank = 0; rank < by_rank.size(); ++rank)
    if (const auto at = by_rank[rank]->index_of(label); at && enough(*by_rank[rank], *at)) return Speaker{rank, *at};
  return std::nullopt;
}

void fill_hour(std::span<const Series* const> by_rank, const std::optional<Speaker>& speaker, Series& to, std::size_t hour) {
  const units::UtcHour label = to.label(hour);
  if (speaker)
    for (const Group group : {Group{temperature}, Group{humidity}}) copy(group, *by_rank[speaker->rank], speaker->at, to, hour);
  const auto from_first_that_has = [&](Group group) {
    if (speaker && has(group, *by_rank[speaker->rank], speaker->at)) return copy(group, *by_rank[speaker->rank], speaker->at, to, hour);
    for (const Series* series : by_rank)
      if (const auto at = series->index_of(label); at && has(group, *series, *at)) return copy(group, *series, *at, to, hour);
  };
  for (const Group group : {Group{sky}, Group{rain}, Group{pressure}, Group{wind}, Group{gust}, Group{thunder}}) from_first_that_has(group);
  // Temperature without humidity is still worth keeping for the soil's past; nobody speaks for such an hour.
  if (!speaker) from_first_that_has(Group{temperature});
}

void take_soil(std::span<const Series* const> by_rank, Series& to) {
  const auto found = std::ranges::find_if(by_rank, [](const Series* series) { return !series->soil.empty(); });
  if (found == by_rank.end()) return;
  const Series& from = **found;
  for (const SoilLayer& layer : from.soil) {
    SoilLayer moved{layer.top, layer.bottom, Column{to.hours()}, Column{to.hours()}};
    for (std::size_t at = 0; at < from.hours(); ++at) {
      const std::size_t hour = *to.index_of(from.label(at));
      if (layer.moisture_m3_m3.has(at)) moved.moisture_m3_m3.set(hour, *layer.moisture_m3_m3.at(at), layer.moisture_m3_m3.provenance(at));
      if (layer.temperature_c.has(at)) moved.temperature_c.set(hour, *layer.temperature_c.at(at), layer.temperature_c.provenance(at));
    }
    to.soil.push_back(std::move(moved));
  }
}

bool looks_ahead(const Series& series, units::UtcTime now) {
  for (std::size_t hour = series.hours(); hour-- > 0 && series.label(hour) > now;)
    if (enough(series, hour)) return true;
  return false;
}

}  // namespace

Blend blend(std::span<const Series* const> by_trust, units::UtcTime now) {
  Blend result;
  if (by_trust.empty()) return result;
  units::UtcHour first = by_trust.front()->first_label(), end = first;
  for (const Series* series : by_trust) {
    first = std::min(first, series->first_label());
    end = std::max(end, series->label(series->hours()));
  }
  const auto hours = static_cast<std::size_t>((end - first).count());
  result.control = Series{first, hours};
  for (std::size_t hour = 0; hour < hours; ++hour) {
    const auto who = speaker(by_trust, result.control.label(hour));
    fill_hour(by_trust, who, result.control, hour);
    result.speaker.push_back(who ? static_cast<std::uint8_t>(who->rank) : Blend::nobody);
  }
  take_soil(by_trust, result.control);

  std::vector<std::size_t> ahead;
  for (std::size_t rank = 0; rank < by_trust.size(); ++rank)
    if (looks_ahead(*by_trust[rank], now)) ahead.push_back(rank);
  if (ahead.size() < 2) return result;
  for (const std::size_t rank : ahead) {
    std::vector<const Series*> ranked{by_trust[rank]};
    for (const Series* other : by_trust)
      if (other != by_trust[rank]) ranked.push_back(other);
    Series course = result.control;
    for (std::size_t hour = 0; hour < hours; ++hour) {
      if (course.label(hour) <= now) continue;
      for (std::size_t v = 0; v < variable_count; ++v) course[static_cast<Variable>(v)].set(hour, 0.0, Provenance::missing);
      fill_hour(ranked, speaker(ranked, course.label(hour)), course, hour);
    }
    result.opinions.push_back(std::move(course));
  }
  return result;
}

}  // namespace weather
