#include "params/bind.h"

namespace params {

void bind_references(Section& file, std::vector<Reference>& references) {
  file.each([&](const std::string& key) {
    file.section(key, [&](Section& s) { references.push_back({key, s.text("text"), s.text("address")}); });
  });
}

}  // namespace params
