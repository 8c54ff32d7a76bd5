// The shipped files themselves: complete, honest about their sources, and agreeing with the published tables they carry.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <set>

#include "params/lookup.h"
#include "params/scratch_models.h"
#include "support/within.h"

namespace {

const params::Models& shipped() {
  static const params::Models models = [] {
    auto loaded = params::load_models(shipped_models);
    if (!loaded) FAIL(loaded.error().line());
    return std::move(*loaded);
  }();
  return models;
}

const tree::Species& species(const std::string& key) {
  const auto& all = shipped().species;
  const auto found = std::find_if(all.begin(), all.end(), [&](const tree::Species& s) { return s.key == key; });
  REQUIRE(found != all.end());
  return *found;
}

// Ordinary least squares of ln(y) on ln(dbh_cm), trees from 10 cm on.
struct Fit {
  double intercept = 0.0, slope = 0.0, ln_sd = 0.0;
};
Fit least_squares(const std::vector<std::pair<double, double>>& points) {
  double x = 0.0, y = 0.0, xx = 0.0, xy = 0.0, residual = 0.0;
  const double n = static_cast<double>(points.size());
  for (const auto& [px, py] : points) x += px / n, y += py / n;
  for (const auto& [px, py] : points) xx += (px - x) * (px - x), xy += (px - x) * (py - y);
  Fit fit{y - xy / xx * x, xy / xx, 0.0};
  for (const auto& [px, py] : points) residual += std::pow(py - fit.intercept - fit.slope * px, 2);
  fit.ln_sd = std::sqrt(residual / (n - 2.0));
  return fit;
}

}  // namespace

TEST_SUITE("params") {
  TEST_CASE("every reference is used by some other file") {
    std::string files;
    for (const auto& entry : std::filesystem::directory_iterator{shipped_models}) {
      if (entry.path().filename() == "references.json") continue;
      std::ifstream stream{entry.path()};
      files.append(std::istreambuf_iterator<char>{stream}, {});
    }
    for (const params::Reference& reference : shipped().references)
      CHECK_MESSAGE(files.find('"' + reference.key + '"') != std::string::npos, reference.key);
  }

  TEST_CASE("every parameter's source key resolves to a text") {
    for (const params::Row& row : shipped().rows) CHECK_MESSAGE(!row.source_text.empty(), row.key);
  }

  TEST_CASE("every parameter is listed once, inside its range, not overridden") {
    std::set<std::string> keys;
    for (const params::Row& row : shipped().rows) {
      CHECK_MESSAGE(keys.insert(row.key).second, row.key);
      CHECK_MESSAGE((row.lowest <= row.value && row.value <= row.highest), row.key);
      CHECK_MESSAGE((!row.overridden && row.shipped_value == row.value), row.key);
    }
    CHECK(keys.contains("tree.stomata.g_ref"));
    CHECK(keys.contains("weather-error.temperature.d7"));
    CHECK(keys.contains("soils.textures.silt_loam.ks"));
    CHECK(keys.contains("species.allometry.ulmus_pumila.height.slope"));
  }

  TEST_CASE("no estimate of ours and no bare practice claims more than its confidence") {
    for (const params::Row& row : shipped().rows)
      if (row.source == "own-estimate" || row.source == "common-practice" || row.source == "fit-defaults" || row.source == "fit-ports")
        CHECK_MESSAGE(row.confidence == 'D', row.key);
  }

  TEST_CASE("only species with a published port flow are answered for, and elms that borrow it") {
    // Sinclair and Larsen 1981 table 1; what the factors give through a hole is tested in tests/app/facts_test.cpp.
    const std::set<std::string> table{"ulmus_americana", "quercus_rubra",   "quercus_alba",       "fagus_grandifolia",
                                      "acer_saccharum",  "tilia_americana", "fraxinus_americana", "pinus_strobus"};
    for (const tree::Species& one : shipped().species) CHECK_MESSAGE((table.contains(one.key) || one.latin.starts_with("Ulmus ")), one.key);
  }

  TEST_CASE("an elm without measurements of its own says whose crown and ports it borrows") {
    CHECK(species("ulmus_americana").genus_note.empty());
    for (const char* key : {"ulmus_minor", "ulmus_glabra", "ulmus_laevis", "ulmus_rubra", "ulmus_thomasii", "ulmus_alata"}) {
      CHECK(species(key).allometry.leaf_area_m2.slope == species("ulmus_americana").allometry.leaf_area_m2.slope);
      CHECK(species(key).genus_note.find("Port flow is American elm's. Crown size is American elm's") == 0);
    }
    CHECK(species("ulmus_pumila").allometry.leaf_area_m2.slope == 1.9376);
  }

  TEST_CASE("a species without its own hydraulics takes the tree's") {
    const tree::Hydraulics& tree = shipped().tree.hydraulics;
    CHECK(species("ulmus_glabra").p50_mpa.value == tree.p50_mpa.value);
    CHECK(species("tilia_americana").huber_m2_m2 == tree.huber_m2_m2);
    CHECK(species("pinus_strobus").p50_mpa.value == 3.35);
    CHECK(species("pinus_strobus").huber_m2_m2 == 2063.0);
  }

  TEST_CASE("only the evergreen is never without leaves") {
    for (const tree::Species& one : shipped().species)
      CHECK_MESSAGE((one.leaves.leaf_out_degree_days == 0.0) == (one.key == "pinus_strobus"), one.key);
  }

  TEST_CASE("practice and forecast errors arrive in their structs") {
    const days::Practice& practice = shipped().practice;
    CHECK(practice.set_up.dose_l_per_cm == 1.78);
    CHECK(practice.day.latest_start_h == 13.0);
    CHECK(practice.holds.thunder_clear_h == 0.5);
    CHECK(practice.weather_error.temperature_sd_c.lead_d == std::vector<double>{1, 3, 7, 8});
    CHECK(practice.weather_error.temperature_sd_c.value == std::vector<double>{2.0, 2.6, 4.7, 5.5});
    CHECK(practice.weather_error.cloud_sd_pct.lead_d == std::vector<double>{1, 7.5});
    CHECK(shipped().soil.layer_bottoms_cm.size() == 5);
    CHECK(shipped().textures.size() == 12);
  }

  TEST_CASE("crown fits are the least squares of the measured trees they name") {
    // US Forest Service Urban Tree Database, raw table TS3 (McPherson et al. 2016).
    const char* outside = std::getenv("SAPDRAW_OUTSIDE_DATA");
    if (outside == nullptr) {
      MESSAGE("skipped: SAPDRAW_OUTSIDE_DATA is not set");
      return;
    }
    std::ifstream file{std::filesystem::path{outside} / "trees" / "urban_tree_database_raw.csv"};
    REQUIRE(file);
    const std::map<std::string, std::string> measured{
        {"Ulmus americana", "ulmus_americana"}, {"Ulmus pumila", "ulmus_pumila"},       {"Ulmus parvifolia", "ulmus_parvifolia"},
        {"Quercus rubra", "quercus_rubra"},     {"Quercus alba", "quercus_alba"},       {"Fagus sylvatica", "fagus_grandifolia"},
        {"Acer saccharum", "acer_saccharum"},   {"Tilia americana", "tilia_americana"}, {"Fraxinus americana", "fraxinus_americana"},
        {"Pinus strobus", "pinus_strobus"}};
    enum : std::size_t { name_column = 3, dbh_column = 7, height_column = 8, crown_column = 10, leaf_column = 11, columns = 12 };
    std::map<std::string, std::map<std::size_t, std::vector<std::pair<double, double>>>> points;
    for (std::string line; std::getline(file, line);) {
      std::vector<std::string> cells;
      std::string cell;
      bool quoted = false;
      for (const char c : line) {
        if (c == '"') quoted = !quoted;
        if (c == ',' && !quoted)
          cells.push_back(std::exchange(cell, {}));
        else if (c != '\r')
          cell += c;
      }
      cells.push_back(cell);
      if (cells.size() != columns || !measured.contains(cells[name_column])) continue;
      const double dbh_cm = std::strtod(cells[dbh_column].c_str(), nullptr);
      for (const std::size_t column : {std::size_t{height_column}, std::size_t{crown_column}, std::size_t{leaf_column}}) {
        const double y = std::strtod(cells[column].c_str(), nullptr);
        if (dbh_cm >= 10.0 && y > 0.0) points[cells[name_column]][column].emplace_back(std::log(dbh_cm), std::log(y));
      }
    }
    for (const auto& [latin, key] : measured) {
      const tree::Allometry& crown = species(key).allometry;
      const std::map<std::size_t, tree::LogLogFit> shipped_fits{
          {height_column, crown.height_m}, {crown_column, crown.crown_diameter_m}, {leaf_column, crown.leaf_area_m2}};
      for (const auto& [column, fit] : shipped_fits) {
        CAPTURE(latin);
        CAPTURE(column);
        const Fit own = least_squares(points[latin][column]);
        CHECK(fit.intercept == within(own.intercept, 6e-5));
        CHECK(fit.slope == within(own.slope, 6e-5));
        CHECK(fit.ln_sd == within(own.ln_sd, 6e-5));
      }
    }
  }
}
