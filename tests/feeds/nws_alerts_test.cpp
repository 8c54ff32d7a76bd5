#include "feeds/nws_alerts.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/outside_replies.h"
#include "feeds/reading.h"
#include "feeds/vtec.h"
#include "support/within.h"

using weather::Alert;
using weather::AlertKind;
using weather::AlertSeverity;

namespace {

std::vector<Alert> alerts_of(std::string_view content, std::string_view now = "2026-07-06T12:00Z") {
  auto alerts = feeds::read_nws_alerts("alerts", content, utc(now));
  if (!alerts) FAIL(alerts.error().line());
  return *std::move(alerts);
}

const Alert& the(const std::vector<Alert>& alerts, std::string_view event) {
  const auto found = std::find_if(alerts.begin(), alerts.end(), [&](const Alert& a) { return a.event == event; });
  REQUIRE(found != alerts.end());
  return *found;
}

// One alert whose members, besides status and event, are given.
std::string one(std::string_view members, std::string_view event = "Wind Advisory") {
  return fmt::format(R"({{"features":[{{"properties":{{"status":"Actual","event":"{}",{}}}}}]}})", event, members);
}

AlertKind kind_of(std::string_view code) {
  const auto alerts = alerts_of(one(fmt::format(
      R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T13:00:00Z","parameters":{{"VTEC":["/O.NEW.KMAP.{}.W.0001.x/"]}})", code)));
  REQUIRE(alerts.size() == 1);
  return alerts[0].kind;
}

AlertKind kind_of_event(std::string_view event, std::string_view parameters = "{}") {
  const auto alerts =
      alerts_of(one(fmt::format(R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T13:00:00Z","parameters":{})", parameters), event));
  REQUIRE(alerts.size() == 1);
  return alerts[0].kind;
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("alerts in force or to come are told in the order in which they begin") {
    const auto alerts = alerts_of(sample_bytes("nws-alerts.json"));
    REQUIRE(alerts.size() == 6);
    CHECK(std::is_sorted(alerts.begin(), alerts.end(), [](const Alert& a, const Alert& b) { return a.from < b.from; }));
    const Alert& heat = the(alerts, "Heat Advisory");
    CHECK(heat.kind == AlertKind::heat);
    CHECK(heat.from == utc("2026-07-06T18:00Z"));
    CHECK(heat.until == utc("2026-07-07T00:00Z"));
    CHECK(heat.severity == AlertSeverity::moderate);
    CHECK(heat.key == "KMAP.HT.Y.0003");
    CHECK(!heat.watch);
    CHECK(!heat.gust_m_s);
  }

  TEST_CASE("an event outlives the text about it, and ends with the event") {
    const Alert flood = the(alerts_of(sample_bytes("nws-alerts.json")), "Flash Flood Warning");
    CHECK(flood.from == utc("2026-07-06T11:00Z"));
    CHECK(flood.until == utc("2026-07-06T14:00Z"));
    CHECK(flood.kind == AlertKind::flood);
    CHECK(alerts_of(one(R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T13:00:00Z","ends":"2026-07-06T12:00:00Z")")).empty());
    CHECK(alerts_of(one(R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T12:00:01Z","ends":null)")).size() == 1);
  }

  TEST_CASE("of several texts about one event the last one sent speaks") {
    const auto alerts = alerts_of(sample_bytes("nws-alerts.json"));
    CHECK(std::count_if(alerts.begin(), alerts.end(), [](const Alert& a) { return a.event == "Severe Thunderstorm Warning"; }) == 1);
    const Alert& storm = the(alerts, "Severe Thunderstorm Warning");
    CHECK(storm.until == utc("2026-07-06T12:15Z"));
    // 1 mph = 0.44704 m/s (NIST SP 811).
    CHECK(*storm.gust_m_s == within(50 * 0.44704, 1e-9));
    CHECK(storm.kind == AlertKind::thunder);
  }

  TEST_CASE("a cancelled event is over whatever its times say, and so are tests and what has ended") {
    const auto alerts = alerts_of(sample_bytes("nws-alerts.json"));
    for (const char* gone : {"Wind Advisory", "Tornado Warning", "Freeze Warning"})
      CHECK(std::none_of(alerts.begin(), alerts.end(), [&](const Alert& a) { return a.event == gone; }));
    for (const char* action : {"CAN", "EXP", "UPG"})
      CHECK(alerts_of(
                one(fmt::format(
                    R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T13:00:00Z","parameters":{{"VTEC":["/O.{}.KMAP.WI.Y.0001.x/"]}})",
                    action)))
                .empty());
  }

  TEST_CASE("of two texts sent at once the one in force speaks: a cancellation may be for the neighbours") {
    const auto text = [](std::string_view action, std::string_view ends) {
      return fmt::format(
          R"({{"properties":{{"status":"Actual","event":"Wind Advisory","sent":"2026-07-06T11:00:00Z","ends":"{}","parameters":{{"VTEC":["/O.{}.KMAP.WI.Y.0001.x/"]}}}}}})",
          ends, action);
    };
    for (const auto& [first, second] : {std::pair{"CAN", "CON"}, std::pair{"CON", "CAN"}})
      CHECK(alerts_of(fmt::format(R"({{"features":[{},{}]}})", text(first, "2026-07-06T20:00:00Z"), text(second, "2026-07-06T20:00:00Z")))
                .size() == 1);
    const auto both =
        alerts_of(fmt::format(R"({{"features":[{},{}]}})", text("CON", "2026-07-06T20:00:00Z"), text("CON", "2026-07-06T21:00:00Z")));
    REQUIRE(both.size() == 1);
    CHECK(both[0].until == utc("2026-07-06T21:00Z"));
  }

  TEST_CASE("a watch is marked as one and statements and outlooks with a code are left out") {
    const Alert watch = the(alerts_of(sample_bytes("nws-alerts.json")), "Flood Watch");
    CHECK(watch.watch);
    CHECK(watch.kind == AlertKind::flood);
    for (const char letter : std::string_view{"SOFN"})
      CHECK(
          alerts_of(
              one(fmt::format(
                  R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T13:00:00Z","parameters":{{"VTEC":["/O.NEW.KMAP.WI.{}.0001.x/"]}})",
                  letter)))
              .empty());
    CHECK(alerts_of(one(R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T13:00:00Z")", "Hydrologic Outlook"))[0].watch);
  }

  TEST_CASE("a test code is no alert even under an actual status") {
    CHECK(alerts_of(
              one(R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T13:00:00Z","parameters":{"VTEC":["/T.NEW.KMAP.WI.Y.0001.x/"]})"))
              .empty());
  }

  TEST_CASE("phenomena of VTEC fall into the kinds that a crew acts on") {
    // NWS Instruction 10-1703: SV severe thunderstorm, TO tornado, HW high wind, WI wind, EW extreme wind, HT heat, XH extreme heat (seen
    // in a recording of 2026), EH excessive heat, FF flash flood, FL flood, FA areal flood, FZ freeze, FR frost, HZ hard freeze, FG fog,
    // FW fire weather. HW, WI and HZ from memory.
    for (const char* code : {"SV", "TO"}) CHECK(kind_of(code) == AlertKind::thunder);
    for (const char* code : {"HW", "WI", "EW"}) CHECK(kind_of(code) == AlertKind::wind);
    for (const char* code : {"HT", "XH", "EH"}) CHECK(kind_of(code) == AlertKind::heat);
    for (const char* code : {"FF", "FL", "FA"}) CHECK(kind_of(code) == AlertKind::flood);
    for (const char* code : {"FZ", "FR", "HZ"}) CHECK(kind_of(code) == AlertKind::freeze);
    for (const char* code : {"FG", "FW", "ZZ"}) CHECK(kind_of(code) == AlertKind::other);
  }

  TEST_CASE("an event without a code goes by its words") {
    CHECK(kind_of_event("Severe Thunderstorm Warning") == AlertKind::thunder);
    CHECK(kind_of_event("High Wind Warning") == AlertKind::wind);
    CHECK(kind_of_event("Wind Chill Advisory") == AlertKind::freeze);
    CHECK(kind_of_event("Air Quality Alert") == AlertKind::other);
    CHECK(kind_of_event("Special Weather Statement", R"({"NWSheadline":["A STRONG THUNDERSTORM WILL PASS"],"maxWindGust":["40 MPH"]})") ==
          AlertKind::thunder);
    CHECK(kind_of_event("Special Weather Statement", R"({"eventMotionDescription":["2026-07-06T12:00:00-00:00...storm...236DEG"]})") ==
          AlertKind::thunder);
    CHECK(kind_of_event("Special Weather Statement", R"({"maxWindGust":["40 MPH"]})") == AlertKind::wind);
    CHECK(kind_of_event("Special Weather Statement", R"({"maxWindGust":["0 MPH"]})") == AlertKind::other);
    CHECK(kind_of_event("Special Weather Statement") == AlertKind::other);
  }

  TEST_CASE("a headline is one short line") {
    const Alert air = the(alerts_of(sample_bytes("nws-alerts.json")), "Air Quality Alert");
    CHECK(air.headline == "Air Quality Alert? until?tomorrow");
    const auto longer =
        alerts_of(one(R"("sent":"2026-07-06T11:00:00Z","expires":"2026-07-06T13:00:00Z","headline":")" + std::string(500, 'x') + '"'));
    CHECK(longer[0].headline == std::string(200, 'x') + "...");
  }

  TEST_CASE("an alert that is said to begin after its end counts from now") {
    const auto alerts = alerts_of(one(R"("onset":"2026-07-06T15:00:00Z","sent":"2026-07-06T11:00:00Z","ends":"2026-07-06T14:00:00Z")"));
    REQUIRE(alerts.size() == 1);
    CHECK(alerts[0].from == utc("2026-07-06T12:00Z"));
    CHECK(alerts[0].until == utc("2026-07-06T14:00Z"));
  }

  TEST_CASE("no alert is an empty list") { CHECK(alerts_of(R"({"type":"FeatureCollection","features":[]})").empty()); }

  TEST_CASE("alerts that are none are refused with the member at fault") {
    const auto refused = [](std::string_view content) {
      const auto alerts = feeds::read_nws_alerts("alerts", content, utc("2026-07-06T12:00Z"));
      return alerts ? std::string{"was read"} : alerts.error().line();
    };
    CHECK(refused("{}") == "alerts: features: missing");
    CHECK(refused(R"({"features":3})") == "alerts: features: '3': expected a list");
    CHECK(refused(R"({"features":[{}]})") == "alerts: features[0].properties: missing");
    CHECK(refused(R"({"features":[{"properties":{"event":"x"}}]})") == "alerts: features[0].properties.status: missing");
    CHECK(refused(R"({"features":[{"properties":{"status":"Actual","event":4}}]})") ==
          "alerts: features[0].properties.event: '4': expected a text");
    CHECK(refused(one(R"("sent":"2026-07-06T11:00:00Z","ends":null)")) ==
          "alerts: features[0].properties.expires: missing: expected ends or expires");
    CHECK(refused(one(R"("ends":"soon")")) ==
          "alerts: features[0].properties.ends: 'soon': expected a time such as 2026-07-15T12:00:00+00:00");
    std::string many = R"({"features":[0)";
    for (int i = 0; i < 5000; ++i) many += ",0";
    CHECK(refused(many + "]}") == "alerts: features: '5001 alerts': expected at most 5000");
    CHECK(refused(R"({"title":"Unexpected Problem","status":500,"detail":"An unexpected problem has occurred."})") ==
          "alerts: 'Unexpected Problem: An unexpected problem has occurred.': expected alerts, not a service's error");
  }

  TEST_CASE("VTEC is read by its fixed widths") {
    const auto vtec = feeds::parse_vtec("/O.NEW.KBGM.SV.W.0113.260715T1952Z-260715T2030Z/");
    REQUIRE(vtec);
    CHECK(vtec->key() == "KBGM.SV.W.0113");
    CHECK(vtec->action == "NEW");
    for (const char* broken : {"", "/", "O.NEW.KBGM.SV.W.0113.x", "/O.NEW.KBGM.SV.W.113.x", "/O.new.KBGM.SV.W.0113.x",
                               "/O.NEW.KBGM.SV.W.01a3.x", "/00000.0.ER.000000T0000Z.000000T0000Z.000000T0000Z.OO/"})
      CHECK_MESSAGE(!feeds::parse_vtec(broken), broken);
  }

  TEST_CASE("eight recorded alerts: seven in force, the cancelled heat advisory is not") {
    const auto content = recorded("nws_alerts_8of396_20260715_redated.json");
    if (!content) return;
    const auto alerts = alerts_of(*content, "2026-07-15T20:00:45Z");
    REQUIRE(alerts.size() == 7);
    const auto with_key = [&](std::string_view key) {
      return std::find_if(alerts.begin(), alerts.end(), [&](const Alert& a) { return a.key == key; });
    };
    CHECK(with_key("KFGF.HT.Y.0004") == alerts.end());
    REQUIRE(with_key("KIND.HT.Y.0003") != alerts.end());
    CHECK(with_key("KIND.HT.Y.0003")->until == utc("2026-07-16T00:00Z"));
    REQUIRE(with_key("KMPX.XH.W.0002") != alerts.end());
    CHECK(with_key("KMPX.XH.W.0002")->kind == AlertKind::heat);
    CHECK(with_key("KMPX.XH.W.0002")->until == utc("2026-07-18T02:00Z"));
    REQUIRE(with_key("KBGM.SV.W.0113") != alerts.end());
    CHECK(*with_key("KBGM.SV.W.0113")->gust_m_s == within(60 * 0.44704, 1e-9));
    REQUIRE(with_key("KPUB.FF.W.0010") != alerts.end());
    CHECK(with_key("KPUB.FF.W.0010")->kind == AlertKind::flood);
    CHECK(the(alerts, "Special Weather Statement").kind == AlertKind::thunder);
    CHECK(the(alerts, "Special Weather Statement").until == utc("2026-07-15T20:30Z"));
    CHECK(the(alerts, "Air Quality Alert").kind == AlertKind::other);
    // After 20:30 the storms are over.
    const auto later = alerts_of(*content, "2026-07-15T20:30Z");
    CHECK(std::none_of(later.begin(), later.end(), [](const Alert& a) { return a.kind == AlertKind::thunder; }));
  }

  TEST_CASE("a recorded flood watch of 2019, times with an offset, is a watch until its event ends") {
    const auto content = recorded("nws_alerts_zone_20191220.json");
    if (!content) return;
    const auto alerts = alerts_of(*content, "2019-12-21T20:00Z");
    REQUIRE(alerts.size() == 1);
    CHECK(alerts[0].watch);
    CHECK(alerts[0].kind == AlertKind::flood);
    CHECK(alerts[0].key == "KPQR.FA.A.0004");
    CHECK(alerts[0].from == utc("2019-12-20T21:34Z"));
    CHECK(alerts[0].until == utc("2019-12-22T18:00Z"));
  }
}
