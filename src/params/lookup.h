// From the names people write in tree lists to the species and soils that the models hold.
#pragma once
#include <string_view>

#include "params/models.h"

namespace params {

// `text` may be the Latin binomial, the key or any English name, in any case, with `_`, `-` or spaces between words.
// Fault (where = "species"): a known species that is not answered for, with the reason; an unknown name, with near ones.
[[nodiscard]] units::Result<tree::Species> find_species(const Models& models, std::string_view text);

// A USDA texture class, in any case, with `_`, `-` or spaces. Fault (where = "soil"): an unknown name, with near ones.
[[nodiscard]] units::Result<soil::Texture> find_texture(const Models& models, std::string_view text);

}  // namespace params
