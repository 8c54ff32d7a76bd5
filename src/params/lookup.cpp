#include "params/lookup.h"

#include <algorithm>

#include "params/near_names.h"

namespace params {
namespace {

template <class Named>
bool answers_to(const Named& named, const std::string& plain) {
  return plain_name(named.key) == plain || plain_name(named.latin) == plain ||
         std::any_of(named.english.begin(), named.english.end(), [&](const std::string& name) { return plain_name(name) == plain; });
}

template <class Named>
void add_names(const std::vector<Named>& all, std::vector<std::string>& names) {
  for (const Named& one : all) {
    names.push_back(one.latin);
    names.insert(names.end(), one.english.begin(), one.english.end());
  }
}

}  // namespace

units::Result<tree::Species> find_species(const Models& models, std::string_view text) {
  const std::string plain = plain_name(text);
  for (const tree::Species& one : models.species)
    if (answers_to(one, plain)) return one;
  for (const Unanswered& one : models.unanswered)
    if (answers_to(one, plain)) return units::fault("species", std::string{text}, "not answered for: " + one.reason);
  std::vector<std::string> names;
  add_names(models.species, names);
  add_names(models.unanswered, names);
  const auto near = near_names(text, names);
  return units::fault("species", std::string{text},
                      near.empty() ? "expected a species of models/species.json" : "unknown species: did you mean " + one_of(near) + "?");
}

units::Result<soil::Texture> find_texture(const Models& models, std::string_view text) {
  const std::string plain = plain_name(text);
  std::vector<std::string> names;
  for (const soil::Texture& one : models.textures) {
    if (plain_name(one.key) == plain) return one;
    names.push_back(one.name);
  }
  const auto near = near_names(text, names);
  return units::fault("soil", std::string{text}, "unknown texture: expected " + one_of(near.empty() ? names : near));
}

}  // namespace params
