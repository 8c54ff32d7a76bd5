#include <fmt/format.h>

#include <map>
#include <set>

#include "params/bind.h"
#include "params/near_names.h"

namespace params {
namespace {

using Limits = std::map<std::string, std::pair<double, double>, std::less<>>;

// Three coefficients that share one fit, its data and its provenance; their limits stand once for all fits of the file.
tree::LogLogFit bind_fit(Section& s, const Limits& limits, std::string_view measure, double& largest_dbh_cm) {
  Row shared;
  s.provenance(shared);
  shared.note = fmt::format("n {}{}{}", s.bare_number("n"), shared.note.empty() ? "" : "; ", shared.note);
  largest_dbh_cm = s.bounds("dbh_cm").second;
  const auto coefficient = [&](std::string_view name, const std::string& unit) {
    Row row = shared;
    row.value = s.bare_number(name);
    row.unit = unit;
    if (const auto limit = limits.find(name); limit != limits.end()) std::tie(row.lowest, row.highest) = limit->second;
    return s.has(name) ? s.accept(std::move(row), unit, name) : 0.0;
  };
  return {coefficient("intercept", fmt::format("ln {}", measure)), coefficient("slope", "1"), coefficient("ln_sd", "1")};
}

tree::Allometry bind_allometry(Section& s, const Limits& limits) {
  tree::Allometry result;
  double leaf_area_to = 0.0, crown_to = 0.0, height_to = 0.0;
  s.section("leaf_area", [&](Section& fit) { result.leaf_area_m2 = bind_fit(fit, limits, "m2", leaf_area_to); });
  s.section("crown_diameter", [&](Section& fit) { result.crown_diameter_m = bind_fit(fit, limits, "m", crown_to); });
  s.section("height", [&](Section& fit) { result.height_m = bind_fit(fit, limits, "m", height_to); });
  result.fitted_to_dbh_cm = std::min({leaf_area_to, crown_to, height_to});
  return result;
}

tree::LeafCalendar bind_calendar(Section& s) {
  tree::LeafCalendar result;
  result.thermal_base_c = s.number("thermal_base", "degC");
  result.leaf_out_degree_days = s.number("leaf_out", "degC d");
  result.season_amplitude_c = s.number("season_amplitude", "degC");
  result.expansion_days = s.number("expansion", "d");
  result.colouring_day_length_h = s.number("colouring_day_length", "h");
  result.fall_days = s.number("fall", "d");
  return result;
}

// What several species share is written once and named by each.
template <class T>
T shared(Section& s, std::string_view name, const std::map<std::string, T>& known) {
  const std::string key = s.text(name);
  const auto found = known.find(key);
  if (found != known.end()) return found->second;
  std::vector<std::string> keys;
  for (const auto& [other, value] : known) keys.push_back(other);
  if (s.has(name)) s.reading().fail(s.where(name), key, "expected " + one_of(keys));
  return {};
}

// Names lead back to one species, or a tree list would be answered by the order of a file.
class Names {
 public:
  void claim(Section& s, const std::string& key, const std::string& latin, const std::vector<std::string>& english) {
    std::set<std::string> own{plain_name(key), plain_name(latin)};
    for (const std::string& name : english) own.insert(plain_name(name));
    for (const std::string& name : own)
      if (!taken_.insert(name).second) s.reading().fail(s.where("english"), name, "expected a name that no other species has");
  }

 private:
  std::set<std::string> taken_;
};

}  // namespace

void bind_species(Section& file, const tree::Parameters& tree, std::vector<tree::Species>& species, std::vector<Unanswered>& unanswered) {
  Limits limits;
  std::map<std::string, tree::Allometry> crowns;
  std::map<std::string, tree::LeafCalendar> calendars;
  Names names;
  file.section("fit_limits", [&](Section& s) {
    for (const char* name : {"intercept", "slope", "ln_sd"}) limits[name] = s.bounds(name);
  });
  file.section("allometry", [&](Section& all) {
    all.each([&](const std::string& key) { all.section(key, [&](Section& s) { crowns[key] = bind_allometry(s, limits); }); });
  });
  file.section("calendars", [&](Section& all) {
    all.each([&](const std::string& key) { all.section(key, [&](Section& s) { calendars[key] = bind_calendar(s); }); });
  });
  const auto bind_one = [&](Section& s, const std::string& key) {
    tree::Species one;
    one.key = key;
    one.latin = s.text("latin");
    one.english = s.texts("english");
    one.genus_note = s.text_or_nothing("note");
    one.allometry = shared(s, "allometry", crowns);
    one.leaves = shared(s, "calendar", calendars);
    one.port_factor = s.number("port_factor", "1");
    one.p50_mpa = s.optional("p50") ? s.uncertain("p50", "MPa") : tree.hydraulics.p50_mpa;
    one.huber_m2_m2 = s.optional("huber") ? s.number("huber", "m2/m2") : tree.hydraulics.huber_m2_m2;
    names.claim(s, key, one.latin, one.english);
    species.push_back(std::move(one));
  };
  file.section("species",
               [&](Section& all) { all.each([&](const std::string& key) { all.section(key, [&](Section& s) { bind_one(s, key); }); }); });
  file.section("unanswered", [&](Section& all) {
    all.each([&](const std::string& key) {
      all.section(key, [&](Section& s) {
        unanswered.push_back({key, s.text("latin"), s.texts("english"), s.text("reason")});
        names.claim(s, key, unanswered.back().latin, unanswered.back().english);
      });
    });
  });
}

}  // namespace params
