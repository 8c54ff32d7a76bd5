// That each name of the files fills the struct member it is named for: every parameter, moved alone, moves one number alone.
#include <algorithm>
#include <array>
#include <bit>
#include <string_view>

#include "params/scratch_models.h"

namespace {

// The numbers of structs that hold nothing but doubles, in order.
template <class... Structs>
std::vector<double> numbers(const Structs&... structs) {
  std::vector<double> all;
  const auto add = [&]<class S>(const S& one) {
    static_assert(sizeof(S) % sizeof(double) == 0);
    const auto part = std::bit_cast<std::array<double, sizeof(S) / sizeof(double)>>(one);
    all.insert(all.end(), part.begin(), part.end());
  };
  (add(structs), ...);
  return all;
}

std::vector<double> numbers_of(const params::Models& models) {
  const days::Practice& p = models.practice;
  std::vector<double> all = numbers(models.tree.stomata, models.tree.hydraulics, models.tree.wet_crown, models.ports, p.set_up, p.phases,
                                    p.day, p.decision, p.holds, p.good_day, p.advice, p.readings, models.port_places);
  for (const soil::Texture& t : models.textures)
    for (const double number : {t.theta_r, t.theta_s, t.alpha_per_cm, t.n, t.ks_cm_per_day, t.field_capacity_kpa, t.wilting_kpa,
                                t.readily_evaporable_mm, t.total_evaporable_mm})
      all.push_back(number);
  return all;
}

bool is_listed(const std::string& key) {
  for (const std::string_view part : {"tree.", "ports.", "practice.", "holds.", "soils.textures.loam."})
    if (key.starts_with(part)) return true;
  return false;
}

// A little off the shipped value, inside the range, on the grid of half steps where the engine asks for one.
double moved(const params::Row& row) {
  const double step = row.key.ends_with("_shape") ? 0.5 : 0.01 * (row.highest - row.lowest);
  return row.value + step <= row.highest ? row.value + step : row.value - step;
}

}  // namespace

TEST_SUITE("params") {
  TEST_CASE("every parameter of tree, ports, practice, holds and a texture moves its own number and no other") {
    const auto before = params::load_models(shipped_models);
    REQUIRE(before);
    const ScratchModels scratch;
    const std::vector<double> shipped = numbers_of(*before);
    std::vector<bool> reached(shipped.size(), false);
    int tried = 0;
    for (const params::Row& row : before->rows) {
      if (!is_listed(row.key)) continue;
      ++tried;
      CAPTURE(row.key);
      const double to = moved(row);
      scratch.write("owner.json", ScratchModels::Json{{row.key, {{"value", to}, {"unit", row.unit}}}}.dump());
      const auto after = params::load_models(scratch.directory(), scratch.directory() / "owner.json");
      REQUIRE(after);
      const std::vector<double> now = numbers_of(*after);
      std::vector<std::size_t> changed;
      for (std::size_t i = 0; i < now.size(); ++i)
        if (now[i] != shipped[i]) changed.push_back(i);
      REQUIRE(changed.size() == 1);
      CHECK(now[changed.front()] == to);
      CHECK_FALSE(reached[changed.front()]);
      reached[changed.front()] = true;
    }
    CHECK(tried > 80);
  }

  TEST_CASE("spread and limits of an uncertain parameter arrive with it") {
    const ScratchModels scratch;
    scratch.spoil("ports.json", [](ScratchModels::Json& ports) {
      ports["lumens_hours"]["range"] = {1, 11};
      ports["lumens_hours"]["spread_ln_sd"] = 0.33;
    });
    const auto models = params::load_models(scratch.directory());
    REQUIRE(models);
    CHECK(models->ports.lumens_hours.lowest == 1.0);
    CHECK(models->ports.lumens_hours.highest == 11.0);
    CHECK(models->ports.lumens_hours.spread_ln_sd == 0.33);
  }

  TEST_CASE("a crown fit is said to reach as far as its shortest set of measurements") {
    const auto models = params::load_models(shipped_models);
    REQUIRE(models);
    for (const tree::Species& one : models->species)
      if (one.key == "pinus_strobus") CHECK(one.allometry.fitted_to_dbh_cm == 78.5);
  }
}
