#include "params/lookup.h"

#include "params/scratch_models.h"

namespace {

const params::Models& shipped() {
  static const params::Models models = params::load_models(shipped_models).value();
  return models;
}

std::string species_line(std::string_view text) {
  const auto found = params::find_species(shipped(), text);
  return found ? found->key : found.error().line();
}

std::string texture_line(std::string_view text) {
  const auto found = params::find_texture(shipped(), text);
  return found ? found->key : found.error().line();
}

}  // namespace

TEST_SUITE("params") {
  TEST_CASE("a species is found by Latin name, key and English name, however it is written") {
    for (const char* text : {"Ulmus americana", "ulmus_americana", "ULMUS AMERICANA", "  American   elm ", "american-elm", "American_Elm"})
      CHECK(species_line(text) == "ulmus_americana");
    CHECK(species_line("Siberian elm") == "ulmus_pumila");
    CHECK(species_line("red oak") == "quercus_rubra");
  }

  TEST_CASE("a species without a published port figure is refused with that reason") {
    CHECK(species_line("green ash") == "species: 'green ash': not answered for: no published port flow");
    CHECK(species_line("Quercus macrocarpa") ==
          "species: 'Quercus macrocarpa': not answered for: no published port flow; white oak's is not carried over");
  }

  TEST_CASE("a species without crown measurements is refused with that reason") {
    CHECK(species_line("black cherry") ==
          "species: 'black cherry': not answered for: a published port flow, but no crown measurements at hand");
  }

  TEST_CASE("an unknown species is refused with near names") {
    CHECK(species_line("Ulmus amerikana") == "species: 'Ulmus amerikana': unknown species: did you mean 'Ulmus americana'?");
    CHECK(species_line("date palm") == "species: 'date palm': expected a species of models/species.json");
    CHECK(species_line("") == "species: expected a species of models/species.json");
    CHECK(species_line("beach") == "species: 'beach': unknown species: did you mean 'beech'?");
  }

  TEST_CASE("a texture is found by its class, however it is written") {
    for (const char* text : {"silt loam", "silt_loam", "Silt Loam", "SILT-LOAM"}) CHECK(texture_line(text) == "silt_loam");
    CHECK(texture_line("clay") == "clay");
    CHECK(texture_line("silt lome") == "soil: 'silt lome': unknown texture: expected 'silt loam'");
    CHECK(texture_line("peat").starts_with("soil: 'peat': unknown texture: expected 'sand', 'loamy sand', "));
  }
}
