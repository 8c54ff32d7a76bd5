#include "params/facts.h"

#include <nlohmann/json.hpp>
#include <utility>

#include "params/bind.h"
#include "params/document.h"

namespace params {
namespace {

ReferenceDay bind_day(Section& s) {
  ReferenceDay day;
  day.kind.temp_low_c = s.bare_number("temp_low_c");
  day.kind.temp_high_c = s.bare_number("temp_high_c");
  day.kind.rh_at_high_pct = s.bare_number("rh_at_high_pct");
  day.kind.cloud_pct = s.bare_number("cloud_pct");
  day.kind.rew = s.bare_number("rew");
  day.kind.soil_temp_c = s.bare_number("soil_temp_c");
  day.rain_mm_h = s.bare_number("rain_mm_h");
  day.reference_mm_h = s.bare_number("reference_mm_h");
  return day;
}

void bind_sun(Section& s, Facts& facts) {
  const std::string date = s.text("date");
  if (const auto day = units::parse_day(date))
    facts.date = *day;
  else if (s.has("date"))
    s.reading().fail(s.where("date"), date, "expected YYYY-MM-DD");
  facts.site = {units::Degrees{s.bare_number("latitude_deg")}, units::Degrees{0.0}, units::Metres{s.bare_number("elevation_m")}};
}

Fact bind_fact(Section& s, const std::string& key) {
  Fact fact;
  fact.key = key;
  fact.text = s.text("text");
  fact.source = s.text("source");
  if (const Reference* reference = s.reading().reference(fact.source))
    fact.source_text = reference->text;
  else if (s.has("source"))
    s.reading().fail(s.where("source"), fact.source, "expected a key of references.json");
  std::tie(fact.lowest, fact.highest) = s.bounds("bar");
  fact.unit = s.text("unit");
  const std::string kind = s.text("kind");
  fact.published = kind == "published";
  if (!fact.published && kind != "practice" && s.has("kind")) s.reading().fail(s.where("kind"), kind, "expected 'published' or 'practice'");
  return fact;
}

}  // namespace

units::Result<Facts> load_facts(const std::filesystem::path& directory) {
  Reading reading;
  Facts facts;
  const auto read = [&](const char* name, const Section::Reader& bind) {
    if (reading.fault) return;
    const std::filesystem::path file = directory / name;
    if (auto json = read_document(file))
      Section::read(reading, file.string(), file.stem().string(), "", *json, bind);
    else
      reading.fault = json.error();
  };
  read("references.json", [&](Section& file) { bind_references(file, reading.references); });
  read("facts.json", [&](Section& file) {
    file.text("note");
    file.section("sun", [&](Section& sun) { bind_sun(sun, facts); });
    file.section("days", [&](Section& all) {
      all.each([&](const std::string& key) { all.section(key, [&](Section& s) { facts.days[key] = bind_day(s); }); });
    });
    file.section("facts", [&](Section& all) {
      all.each([&](const std::string& key) { all.section(key, [&](Section& s) { facts.facts.push_back(bind_fact(s, key)); }); });
    });
  });
  if (reading.fault) return tl::make_unexpected(std::move(*reading.fault));
  return facts;
}

}  // namespace params
