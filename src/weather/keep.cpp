#include "weather/keep.h"

#include <algorithm>
#include <optional>

namespace weather {
namespace {

int witness(Provenance provenance) {
  switch (provenance) {
    case Provenance::observed:
      return 4;
    case Provenance::analysed:
      return 3;
    case Provenance::derived:
    case Provenance::filled:
      return 2;
    case Provenance::forecast:
      return 1;
    case Provenance::missing:
      return 0;
  }
  return 0;
}

// A series seen at any label.
struct View {
  const Series* series;
  [[nodiscard]] std::optional<std::size_t> at(units::UtcHour label) const { return series->index_of(label); }
  [[nodiscard]] Provenance provenance(Variable variable, units::UtcHour label) const {
    const auto hour = at(label);
    return hour ? (*series)[variable].provenance(*hour) : Provenance::missing;
  }
};

void copy(Variable variable, const View& from, Series& to, std::size_t hour) {
  const auto at = from.at(to.label(hour));
  if (at && (*from.series)[variable].has(*at))
    to[variable].set(hour, *from.series->at(variable, *at), (*from.series)[variable].provenance(*at));
}

bool same_layers(const Series& a, const Series& b) {
  return std::ranges::equal(a.soil, b.soil, [](const SoilLayer& x, const SoilLayer& y) { return x.top == y.top && x.bottom == y.bottom; });
}

void copy_column(const Column& from, const Series& series, Column& to, const Series& target) {
  for (std::size_t at = 0; at < from.size(); ++at)
    if (const auto hour = target.index_of(series.label(at)); hour && from.has(at)) to.set(*hour, *from.at(at), from.provenance(at));
}

void lay_soil(const Series& from, Series& to) {
  for (std::size_t i = 0; i < from.soil.size(); ++i) {
    copy_column(from.soil[i].moisture_m3_m3, from, to.soil[i].moisture_m3_m3, to);
    copy_column(from.soil[i].temperature_c, from, to.soil[i].temperature_c, to);
  }
}

}  // namespace

Series keep(const Series& kept, const Series& fresh, units::UtcTime now) {
  if (fresh.hours() == 0 && kept.hours() == 0) return {};
  const auto present = std::chrono::floor<std::chrono::hours>(now);
  const auto end_of = [](const Series& s) { return s.label(s.hours()); };
  units::UtcHour first = kept.hours() == 0 ? fresh.first_label() : kept.first_label();
  units::UtcHour end = std::min(kept.hours() == 0 ? first : end_of(kept), present + std::chrono::hours{1});
  if (fresh.hours() > 0) {
    first = std::min(first, fresh.first_label());
    end = std::max(end, end_of(fresh));
  }
  first = std::max(first, present - longest_kept);
  if (end <= first) return {};

  Series all{first, static_cast<std::size_t>((end - first).count())};
  const View old{&kept}, young{&fresh};
  for (std::size_t hour = 0; hour < all.hours(); ++hour) {
    const units::UtcHour label = all.label(hour);
    const auto better = [&](Variable variable) {
      return label <= now && witness(old.provenance(variable, label)) > witness(young.provenance(variable, label)) ? old : young;
    };
    for (std::size_t v = 0; v < variable_count; ++v) {
      const auto variable = static_cast<Variable>(v);
      const bool humidity = variable == Variable::dew_point || variable == Variable::relative_humidity;
      copy(variable, better(humidity ? Variable::temperature : variable), all, hour);
    }
  }
  const Series& layers = fresh.soil.empty() ? kept : fresh;
  for (const SoilLayer& layer : layers.soil) all.soil.push_back({layer.top, layer.bottom, Column{all.hours()}, Column{all.hours()}});
  if (fresh.soil.empty() || same_layers(kept, fresh)) lay_soil(kept, all);
  if (!fresh.soil.empty()) lay_soil(fresh, all);
  return all;
}

}  // namespace weather
