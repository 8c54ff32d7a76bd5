#include "params/owner_file.h"

#include <nlohmann/json.hpp>

#include "params/document.h"
#include "params/near_names.h"

namespace params {

void read_owner_file(Reading& reading, const std::filesystem::path& file) {
  reading.owner_file = file.string();
  auto json = read_document(file);
  if (!json) {
    if (!reading.fault) reading.fault = json.error();
    return;
  }
  Section::read(reading, reading.owner_file, "", "", *json, [&](Section& all) {
    all.each([&](const std::string& key) {
      all.section(key, [&](Section& s) {
        Override owner{s.bare_number("value"), s.text("unit"), s.text_or_nothing("note"), false};
        reading.overrides.emplace(key, std::move(owner));
      });
    });
  });
}

void refuse_unused_overrides(Reading& reading) {
  for (const auto& [key, owner] : reading.overrides) {
    if (owner.used) continue;
    std::vector<std::string> keys;
    for (const Row& row : reading.rows) keys.push_back(row.key);
    const auto near = near_names(key, keys);
    reading.fail(
        reading.owner_file + ": " + key, "",
        near.empty() ? "unknown parameter: the command `models` lists them" : "unknown parameter: did you mean " + one_of(near) + "?");
  }
}

}  // namespace params
