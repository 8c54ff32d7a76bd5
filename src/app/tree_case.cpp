#include "app/tree_case.h"

#include <fmt/format.h>

#include "feeds/time_zone.h"
#include "params/lookup.h"
#include "uptake/subject.h"

namespace app {
namespace {

// A fault of a lookup, told where in the tree list the name stands.
tl::unexpected<units::Fault> in_line(units::Fault fault, const std::string& file, const feeds::TreeRow& row, const char* column) {
  // A tree of the book stands on no line.
  fault.where = row.line == 0 ? fmt::format("tree {}: {}", row.tree, column) : fmt::format("{}:{}: {}", file, row.line, column);
  return tl::make_unexpected(std::move(fault));
}

uptake::Subject subject(const params::Models& models, const feeds::TreeRow& row, const tree::Species& species) {
  const days::SetUp& set_up = models.practice.set_up;
  uptake::Subject s;
  s.source = uptake::make_source(models.tree, models.ports, set_up.flare_factor, species);
  s.allometry = species.allometry;
  s.measured = {row.dbh, row.crown};
  s.port_factor = species.port_factor;
  if (row.ports) s.port_count = *row.ports;
  s.port_spacing = units::Centimetres{set_up.port_spacing_cm};
  s.hole_diameter_mm = row.hole_diameter_mm;
  s.pressure = units::Megapascals{row.pressure ? row.pressure->value / 1000.0 : set_up.pressure_kpa / 1000.0};
  s.dose = row.dose.value_or(units::Litres{set_up.dose_l_per_cm * row.dbh.value});
  s.flush = set_up.flush_share * s.dose;
  return s;
}

}  // namespace

units::Result<TreeInFull> tree_in_full(const params::Models& models, const std::string& file, const feeds::TreeRow& row,
                                       units::UtcTime around) {
  const auto species = params::find_species(models, row.species);
  if (!species) return in_line(species.error(), file, row, "species");
  const auto texture = params::find_texture(models, row.soil);
  if (!texture) return in_line(texture.error(), file, row, "soil");
  const auto year = std::chrono::hours{24 * 366};
  const auto zone = feeds::load_zone(row.zone, around - year, around + year);
  if (!zone) return in_line(zone.error(), file, row, "zone");
  auto root_zone = soil::RootZone::make(models.soil, *texture);
  if (!root_zone) return tl::make_unexpected(root_zone.error());

  const soil::RewCurve curve = root_zone->curve();
  Ground ground{std::move(*root_zone), {}};
  ground.look.on = row.soil_on;
  if (row.soil_on && *row.soil_on > zone->day_of(around))
    return in_line({"", units::to_text(*row.soil_on), "expected a day that is not ahead"}, file, row, "soil_on");
  if (row.rew_now) ground.look.rew = row.rew_now->value;
  if (row.probe && row.probe_depth) ground.look.probe = SoilLook::Probe{row.probe_depth->value, row.probe->value};
  if (row.soil_feel) ground.look.feel = static_cast<soil::Feel>(*row.soil_feel);
  LeafFacts leaves{species->leaves, row.full_leaf_on, row.crown_now ? row.crown_now->value : 1.0};
  days::TreeCase tree{subject(models, row, *species),
                      curve,
                      row.site,
                      *zone,
                      row.leave_by,
                      row.dose.has_value(),
                      units::Metres{models.soil.layer_bottoms_cm.back() / 100.0}};
  return TreeInFull{
      row, *species, *texture, std::move(tree), std::move(ground), std::move(leaves), !row.dose ? "common practice" : row.line == 0 ? "book" : "tree list"};
}

}  // namespace app
