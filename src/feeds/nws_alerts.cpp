#include "feeds/nws_alerts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "feeds/declared_unit.h"
#include "feeds/reply.h"
#include "feeds/text.h"
#include "feeds/vtec.h"

namespace feeds {
namespace {

using units::Result;
using units::UtcTime;
using weather::Alert;
using weather::AlertKind;
using weather::AlertSeverity;

constexpr std::size_t most_alerts = 5000, longest_event = 80, longest_headline = 200, longest_key = 200;

struct Phenomenon {
  std::string_view code;
  AlertKind kind;
};
constexpr std::array<Phenomenon, 31> phenomena{{
    {"SV", AlertKind::thunder}, {"TO", AlertKind::thunder},                                                        // thunderstorm, tornado
    {"HW", AlertKind::wind},    {"WI", AlertKind::wind},    {"EW", AlertKind::wind},   {"LW", AlertKind::wind},    // on land
    {"HU", AlertKind::wind},    {"HI", AlertKind::wind},    {"TY", AlertKind::wind},   {"TR", AlertKind::wind},    // tropical
    {"TI", AlertKind::wind},    {"HF", AlertKind::wind},    {"GL", AlertKind::wind},   {"SR", AlertKind::wind},    // and marine
    {"BW", AlertKind::wind},                                                                                       //
    {"HT", AlertKind::heat},    {"XH", AlertKind::heat},    {"EH", AlertKind::heat},                               //
    {"FF", AlertKind::flood},   {"FL", AlertKind::flood},   {"FA", AlertKind::flood},  {"CF", AlertKind::flood},   //
    {"LS", AlertKind::flood},   {"SS", AlertKind::flood},   {"HY", AlertKind::flood},                              //
    {"FZ", AlertKind::freeze},  {"FR", AlertKind::freeze},  {"HZ", AlertKind::freeze}, {"EC", AlertKind::freeze},  //
    {"CW", AlertKind::freeze},  {"WC", AlertKind::freeze},
}};

AlertKind kind_of_phenomenon(std::string_view code) {
  for (const Phenomenon& known : phenomena)
    if (known.code == code) return known.kind;
  return AlertKind::other;
}

std::string lower(std::string_view text) {
  std::string out{text};
  std::transform(out.begin(), out.end(), out.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

bool says(std::string_view text, std::string_view word) { return text.find(word) != std::string_view::npos; }

AlertKind kind_of_words(std::string_view text) {
  if (says(text, "thunder") || says(text, "tornado") || says(text, "lightning")) return AlertKind::thunder;
  if (says(text, "freez") || says(text, "frost") || says(text, "cold") || says(text, "wind chill")) return AlertKind::freeze;
  if (says(text, "flood") || says(text, "hydrologic")) return AlertKind::flood;
  if (says(text, "heat")) return AlertKind::heat;
  if (says(text, "wind") || says(text, "gale") || says(text, "hurricane") || says(text, "tropical storm")) return AlertKind::wind;
  return AlertKind::other;
}

// The texts of one parameter, each of which the service writes as a list; anything else holds none.
std::vector<std::string_view> parameter(const JsonNode& properties, std::string_view name) {
  std::vector<std::string_view> texts;
  const auto parameters = properties.find("parameters");
  const auto list = parameters ? parameters->find(name) : std::nullopt;
  if (!list || !list->is_array()) return texts;
  for (std::size_t i = 0; i < list->size(); ++i)
    if (const auto text = list->item(i).text()) texts.push_back(*text);
  return texts;
}

std::string words_of(const JsonNode& properties, std::string_view key) {
  const auto node = properties.find(key);
  return node && node->is_text() ? std::string{*node->text()} : std::string{};
}

// "60 MPH", "Up to 50 MPH", "34 knots"; 0 says that none was measured.
std::optional<double> strongest_gust(const JsonNode& properties) {
  std::optional<double> strongest;
  for (const std::string_view said : parameter(properties, "maxWindGust")) {
    const auto digit = said.find_first_of("0123456789");
    if (digit == std::string_view::npos) continue;
    const auto end = said.find_first_not_of("0123456789.", digit);
    if (end == std::string_view::npos) continue;
    const auto figure = parse_number(said.substr(digit, end - digit));
    const std::string unit = lower(trimmed(said.substr(end)));
    const auto ours = conversion(UnitKind::speed, unit.starts_with("mph") ? "mp/h" : unit.starts_with("k") ? "kn" : "");
    if (!figure || !ours) continue;
    const double gust_m_s = (*ours)(*figure);
    if (gust_m_s > 0.0 && gust_m_s <= 140.0 && gust_m_s > strongest.value_or(0.0)) strongest = gust_m_s;
  }
  return strongest;
}

// A statement's name says nothing of its subject; its own headline does, and only texts about storms come with hail, gusts or a path.
AlertKind kind_of_statement(const JsonNode& properties, const std::optional<double>& gust_m_s) {
  std::string headlines = lower(words_of(properties, "headline"));
  for (const auto line : parameter(properties, "NWSheadline")) headlines += ' ' + lower(line);
  const AlertKind said = kind_of_words(headlines);
  if (said != AlertKind::other) return said;
  for (const auto motion : parameter(properties, "eventMotionDescription"))
    if (says(lower(motion), "storm")) return AlertKind::thunder;
  return gust_m_s ? AlertKind::wind : AlertKind::other;
}

AlertSeverity severity_of(const std::string& word) {
  constexpr std::array<std::pair<std::string_view, AlertSeverity>, 4> known{{{"Minor", AlertSeverity::minor},
                                                                             {"Moderate", AlertSeverity::moderate},
                                                                             {"Severe", AlertSeverity::severe},
                                                                             {"Extreme", AlertSeverity::extreme}}};
  for (const auto& [name, severity] : known)
    if (name == word) return severity;
  return AlertSeverity::unknown;
}

Result<std::optional<UtcTime>> time_of(const JsonNode& properties, std::string_view key) {
  const auto node = properties.find(key);
  if (!node || node->is_null()) return std::optional<UtcTime>{};
  const auto time = node->is_text() ? units::parse_instant(*node->text()) : std::nullopt;
  if (!time) return tl::make_unexpected(node->fault("expected a time such as 2026-07-15T12:00:00+00:00"));
  return time;
}

struct Times {
  UtcTime from, until, sent;
};

Result<Times> times_of(const JsonNode& properties) {
  std::array<std::optional<UtcTime>, 5> told;
  constexpr std::array<std::string_view, 5> keys{"ends", "expires", "onset", "effective", "sent"};
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const auto time = time_of(properties, keys[i]);
    if (!time) return tl::make_unexpected(time.error());
    told[i] = *time;
  }
  const auto& [ends, expires, onset, effective, sent] = told;
  std::optional<UtcTime> until = ends;
  if (!until)
    for (const auto text : parameter(properties, "eventEndingTime")) until = units::parse_instant(text);
  if (!until) until = expires;
  if (!until) return units::fault(properties.where() + ".expires", "", "missing: expected ends or expires");
  const UtcTime from = onset ? *onset : effective ? *effective : sent ? *sent : UtcTime{};
  return Times{from, *until, sent.value_or(UtcTime{})};
}

struct Told {
  Alert alert;
  UtcTime sent;
  bool in_force;  // not cancelled, expired or replaced
};

// Whether `a` is the better word on an event than `b`.
bool speaks_over(const Told& a, const Told& b) {
  if (a.sent != b.sent) return a.sent > b.sent;
  if (a.in_force != b.in_force) return a.in_force;
  return a.alert.until > b.alert.until;
}

bool ends_event(const Vtec& vtec) { return vtec.action == "CAN" || vtec.action == "EXP" || vtec.action == "UPG"; }

// The code that an alert goes by: the first that is in force, else the first.
std::optional<Vtec> vtec_of(const JsonNode& properties) {
  std::optional<Vtec> first;
  for (const auto text : parameter(properties, "VTEC")) {
    const auto vtec = parse_vtec(text);
    if (!vtec) continue;
    if (!ends_event(*vtec)) return vtec;
    if (!first) first = vtec;
  }
  return first;
}

// Empty where the alert is none for a crew: a test, an outlook.
Result<std::optional<Told>> read_alert(const JsonNode& feature) {
  const auto properties = feature.need("properties");
  if (!properties) return tl::make_unexpected(properties.error());
  const auto status = properties->need("status"), event = properties->need("event");
  for (const auto* needed : {&status, &event}) {
    if (!*needed) return tl::make_unexpected(needed->error());
    if (const auto text = (*needed)->text(); !text) return tl::make_unexpected(text.error());
  }
  if (*status->text() != "Actual") return std::optional<Told>{};
  const auto times = times_of(*properties);
  if (!times) return tl::make_unexpected(times.error());

  Told told{{}, times->sent, true};
  Alert& alert = told.alert;
  alert.event = for_message(*event->text(), longest_event);
  alert.from = times->from;
  alert.until = times->until;
  alert.severity = severity_of(words_of(*properties, "severity"));
  alert.headline = for_message(words_of(*properties, "headline"), longest_headline);
  alert.gust_m_s = strongest_gust(*properties);
  const std::string name = lower(alert.event);
  if (const auto vtec = vtec_of(*properties)) {
    const bool counts = vtec->product == 'O' || vtec->product == 'X';
    if (!counts || std::string_view{"WYA"}.find(vtec->significance) == std::string_view::npos) return std::optional<Told>{};
    alert.kind = kind_of_phenomenon(vtec->phenomenon);
    alert.watch = vtec->significance == 'A';
    alert.key = vtec->key();
    told.in_force = !ends_event(*vtec);
  } else {
    alert.kind = says(name, "statement") ? kind_of_statement(*properties, alert.gust_m_s) : kind_of_words(name);
    alert.watch = says(name, "watch") || says(name, "outlook");
    const std::string id = words_of(*properties, "id");
    alert.key = for_message(id.empty() ? feature.where() : id, longest_key);
  }
  return std::optional{std::move(told)};
}

}  // namespace

Result<std::vector<Alert>> read_nws_alerts(const std::string& name, std::string_view content, UtcTime now) {
  const auto document = parse_reply(name, content, "alerts");
  if (!document) return tl::make_unexpected(document.error());
  const auto features = document->root().need("features");
  if (!features) return tl::make_unexpected(features.error());
  if (!features->is_array()) return tl::make_unexpected(features->fault("expected a list"));
  if (features->size() > most_alerts)
    return units::fault(features->where(), fmt::format("{} alerts", features->size()), fmt::format("expected at most {}", most_alerts));

  std::map<std::string, Told> by_key;
  for (std::size_t i = 0; i < features->size(); ++i) {
    auto told = read_alert(features->item(i));
    if (!told) return tl::make_unexpected(told.error());
    if (!*told) continue;
    const auto [known, fresh] = by_key.try_emplace((*told)->alert.key, **told);
    if (!fresh && speaks_over(**told, known->second)) known->second = **std::move(told);
  }

  std::vector<Alert> alerts;
  for (auto& [key, told] : by_key) {
    if (!told.in_force || told.alert.until <= now) continue;
    if (told.alert.from >= told.alert.until) told.alert.from = now;
    alerts.push_back(std::move(told.alert));
  }
  std::stable_sort(alerts.begin(), alerts.end(), [](const Alert& a, const Alert& b) { return a.from < b.from; });
  return alerts;
}

}  // namespace feeds
