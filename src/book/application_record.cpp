#include "book/application_record.h"

#include <array>
#include <utility>

namespace book {
namespace {

using Asked = std::pair<const char*, const char*>;  // field, law

constexpr std::array of_treatment{Asked{"for_name", "40 CFR 171.303(b)(7)"},
                                  Asked{"for_address", "40 CFR 171.303(b)(7)"},
                                  Asked{"location", "7 CFR 110.3(a)(3), 40 CFR 171.303(b)(7)"},
                                  Asked{"area", "7 CFR 110.3(a)(3), 40 CFR 171.303(b)(7)"},
                                  Asked{"treated", "7 CFR 110.3(a)(3), 40 CFR 171.303(b)(7)"},
                                  Asked{"started_at", "40 CFR 171.303(b)(7)"},
                                  Asked{"applicator", "7 CFR 110.3(a)(5), 40 CFR 171.303(b)(7)"},
                                  Asked{"licence_number", "7 CFR 110.3(a)(5), 40 CFR 171.303(b)(7)"},
                                  Asked{"ended_at", "office"},
                                  Asked{"mix_l", "office"}};
constexpr std::array of_mix{Asked{"product", "7 CFR 110.3(a)(1), 40 CFR 171.303(b)(7)"},
                            Asked{"registration", "7 CFR 110.3(a)(1), 40 CFR 171.303(b)(7)"},
                            Asked{"amount", "7 CFR 110.3(a)(2), 40 CFR 171.303(b)(7)"}};

}  // namespace

std::vector<Gap> gaps(const Kind& kind, const Record& treatment, const std::vector<Record>& mixes) {
  std::vector<Gap> found;
  const auto ask = [&](const Record& record, const char* field, const char* law, const std::string& before = "") {
    if (record.text(field).empty()) found.push_back({before + field, law});
  };
  const std::string& outcome = treatment.text("outcome");
  if (outcome != "done") ask(treatment, "reason", "office");
  if (outcome != "not_treated" || !mixes.empty() || treatment.number("mix_l").value_or(0.0) > 0.0) {
    for (const auto& [field, law] : of_treatment) ask(treatment, field, law);
    if (mixes.empty()) found.push_back({"mix", "7 CFR 110.3(a)(1)-(2), 40 CFR 171.303(b)(7)"});
    for (const Record& mix : mixes)
      for (const auto& [field, law] : of_mix) ask(mix, field, law, "mix " + mix.text("tank") + ": ");
  }
  for (const Field& field : kind.fields)
    if (field.required && field.name.starts_with("own_") && treatment.text(field.name).empty()) found.push_back({field.name, "own field"});
  return found;
}

}  // namespace book
