// The shipped numbers of models/, loaded once for tests of the science that they feed.
#pragma once
#include "params/lookup.h"
#include "params/models.h"

namespace shipped {

inline const params::Models& models() {
  static const params::Models loaded = params::load_models(SAPDRAW_SOURCE_DIR "/models").value();
  return loaded;
}

inline tree::Species species(std::string_view name) { return params::find_species(models(), name).value(); }

inline soil::Texture texture(std::string_view name) { return params::find_texture(models(), name).value(); }

}  // namespace shipped
