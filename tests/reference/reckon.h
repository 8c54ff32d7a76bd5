// Reckons the published values of a check by the program's own functions, under the names the check gives them.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "support/reference.h"

namespace reference {

class Reckoned {
 public:
  void set(const std::string& name, double value) { values_[name] = {value}; }
  void set(const std::string& name, std::vector<double> values) { values_[name] = std::move(values); }
  // Empty when the name was not reckoned.
  [[nodiscard]] std::vector<double> at(const std::string& name) const {
    const auto found = values_.find(name);
    return found == values_.end() ? std::vector<double>{} : found->second;
  }

 private:
  std::map<std::string, std::vector<double>> values_;
};

[[nodiscard]] Reckoned fao56_chapter3(const Check& check);
[[nodiscard]] Reckoned fao56_chapter4(const Check& check);
[[nodiscard]] Reckoned fao56_annex2(const Check& check);
[[nodiscard]] Reckoned asce_ewri(const Check& check);
[[nodiscard]] Reckoned sun(const Check& check);
[[nodiscard]] Reckoned cloud(const Check& check);

}  // namespace reference
