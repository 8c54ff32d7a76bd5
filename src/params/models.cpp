#include "params/models.h"

#include <nlohmann/json.hpp>
#include <utility>

#include "params/bind.h"
#include "params/document.h"
#include "params/owner_file.h"

namespace params {
namespace {

void read_file(Reading& reading, const std::filesystem::path& file, const Section::Reader& bind) {
  if (reading.fault) return;
  auto json = read_document(file);
  if (!json)
    reading.fault = json.error();
  else
    Section::read(reading, file.string(), file.stem().string(), "", *json, bind);
}

}  // namespace

units::Result<Models> load_models(const std::filesystem::path& directory, const std::optional<std::filesystem::path>& owner_file) {
  Reading reading;
  Models models;
  if (owner_file) read_owner_file(reading, *owner_file);
  read_file(reading, directory / "references.json", [&](Section& file) { bind_references(file, reading.references); });
  read_file(reading, directory / "tree.json", [&](Section& file) { bind_tree(file, models.tree); });
  read_file(reading, directory / "ports.json", [&](Section& file) { bind_ports(file, models.ports); });
  read_file(reading, directory / "species.json",
            [&](Section& file) { bind_species(file, models.tree, models.species, models.unanswered); });
  read_file(reading, directory / "soils.json", [&](Section& file) { bind_soils(file, models.textures, models.soil, models.plot); });
  read_file(reading, directory / "sapflow.json", [&](Section& file) { bind_sapflow(file, models.sapflow); });
  read_file(reading, directory / "practice.json", [&](Section& file) { bind_practice(file, models.practice, models.port_places); });
  read_file(reading, directory / "office.json", [&](Section& file) { bind_office(file, models.office, models.sending); });
  read_file(reading, directory / "plan.json", [&](Section& file) { bind_plan(file, models.planning); });
  read_file(reading, directory / "holds.json", [&](Section& file) { bind_holds(file, models.practice.holds); });
  read_file(reading, directory / "weather-error.json", [&](Section& file) { bind_weather_error(file, models.practice.weather_error); });
  refuse_unused_overrides(reading);
  if (reading.fault) return tl::make_unexpected(std::move(*reading.fault));
  models.references = std::move(reading.references);
  models.rows = std::move(reading.rows);
  return models;
}

}  // namespace params
