// The owner's rules against what the book holds. Rules are invented: what the law asks, the owner enters.
#include "book/lawful.h"

#include <doctest/doctest.h>

using namespace book;

namespace {

units::LocalDay day(const char* text) { return *units::parse_day(text); }
units::UtcTime at(const char* text) { return *units::parse_instant(text); }

JobFacts thursday() {
  return {day("2026-07-09"),
          at("2026-07-09T12:00Z"),
          units::ZoneOffsets::utc(),
          Record{"client", "k", 1, false, {{"consent", "yes"}}},
          Record{"site", "s", 1},
          {},
          2,
          true};
}
Finding judged(const Fields& rule, const JobFacts& job, int warn = 14) {
  return lawful({Record{"rule", "U1", 1, false, rule}}, job, warn).front();
}
Record licence(const char* category, const char* until, const char* who = "bob") {
  return {"licence", "L", 1, false, {{"member", who}, {"number", "1"}, {"category", category}, {"expires_on", until}}};
}

}  // namespace

TEST_SUITE("book: lawful") {
  TEST_CASE("consent must be given, and hold on the day") {
    JobFacts job = thursday();
    CHECK(judged({{"needs", "consent"}}, job).state == Lawful::met);
    job.client->fields["consent_until"] = "2026-07-08";
    CHECK(judged({{"needs", "consent"}}, job).why == Why::lapsed);
    job.client->fields["consent_until"] = "2026-07-09";
    CHECK(judged({{"needs", "consent"}}, job).state == Lawful::expiring);
    job.client->fields = {{"consent", "no"}};
    CHECK(judged({{"needs", "consent"}}, job).why == Why::refused);
    job.client->fields = {{"consent", "asked"}};
    CHECK(judged({{"needs", "consent"}}, job).why == Why::not_entered);
    job.client.reset();
    CHECK(judged({{"needs", "consent"}}, job).state == Lawful::missing);
  }
  TEST_CASE("consent of old lapses where the rule gives it days") {
    JobFacts job = thursday();
    job.client->fields["consent_on"] = "2025-07-09";
    CHECK(judged({{"needs", "consent"}, {"valid_days", "365"}}, job).why == Why::lapsed);
    CHECK(judged({{"needs", "consent"}, {"valid_days", "366"}}, job).state == Lawful::expiring);
  }
  TEST_CASE("consent of unknown age, or of a later day, is none") {
    JobFacts job = thursday();
    CHECK(judged({{"needs", "consent"}, {"valid_days", "365"}}, job).why == Why::not_entered);
    job.client->fields["consent_on"] = "2026-07-10";
    CHECK(judged({{"needs", "consent"}}, job).why == Why::not_yet);
  }
  TEST_CASE("signs count from the day on which they went up at the site") {
    JobFacts job = thursday();
    job.zone = units::ZoneOffsets{"west", {{units::UtcTime{}, std::chrono::hours{-6}}}};
    job.site.fields["posted_at"] = "2026-07-09T01:30Z";  // 7:30 pm of the 8th there
    CHECK(judged({{"needs", "posting"}, {"valid_days", "1"}}, job).why == Why::lapsed);
    CHECK(judged({{"needs", "posting"}, {"valid_days", "2"}}, job).state == Lawful::expiring);
  }
  TEST_CASE("notice must have been given its hours before the job, to the minute") {
    JobFacts job = thursday();
    const Fields rule{{"needs", "notice"}, {"lead_hours", "48"}};
    CHECK(judged(rule, job).why == Why::not_entered);
    job.site.fields["notice_at"] = "2026-07-07T12:00Z";
    CHECK(judged(rule, job).state == Lawful::met);
    job.site.fields["notice_at"] = "2026-07-07T12:01Z";
    CHECK(judged(rule, job).why == Why::too_late);
    CHECK(judged(rule, job).before == at("2026-07-07T12:00Z"));
  }
  TEST_CASE("a ticket holds after its working days of waiting and until its last day") {
    JobFacts job = thursday();
    const Fields rule{{"needs", "ticket"}, {"wait_days", "2"}, {"valid_days", "14"}};
    CHECK(judged(rule, job).why == Why::not_entered);
    job.site.fields = {{"ticket", "77"}, {"ticket_called_on", "2026-07-06"}};  // Monday; Tuesday and Wednesday are waited
    CHECK(judged(rule, job).state == Lawful::expiring);
    CHECK(judged(rule, job).until == day("2026-07-19"));
    job.site.fields["ticket_called_on"] = "2026-07-07";
    CHECK(judged(rule, job).why == Why::not_yet);
    CHECK(judged(rule, job).from == day("2026-07-10"));
    // Called on a Friday: a weekend is no waiting day.
    job.site.fields["ticket_called_on"] = "2026-07-03";
    job.day = day("2026-07-06");
    CHECK(judged(rule, job).from == day("2026-07-08"));
    job.site.fields["ticket_until"] = "2026-07-05";
    job.day = day("2026-07-09");
    CHECK(judged(rule, job).why == Why::lapsed);
  }
  TEST_CASE("the licence of the category that holds longest counts") {
    JobFacts job = thursday();
    const Fields rule{{"needs", "licence"}, {"category", "3A"}};
    CHECK(judged(rule, job).why == Why::nobody);
    job.licences = {licence("7B", "2030-01-01")};
    CHECK(judged(rule, job).why == Why::nobody);
    job.licences.push_back(licence("3A", "2026-07-08"));
    CHECK(judged(rule, job).why == Why::lapsed);
    job.licences.push_back(licence("3A", "2027-07-08", "eve"));
    CHECK(judged(rule, job).state == Lawful::met);
    CHECK(judged(rule, job).who == "eve");
    CHECK(judged({{"needs", "licence"}}, job).until == day("2030-01-01"));
  }
  TEST_CASE("lines under pressure need somebody at work that day") {
    JobFacts job = thursday();
    CHECK(judged({{"needs", "attended"}}, job).state == Lawful::met);
    job.members_at_work = 0;
    CHECK(judged({{"needs", "attended"}}, job).why == Why::nobody);
  }
  TEST_CASE("one missing rule keeps a job from going, an expiring one does not") {
    JobFacts job = thursday();
    job.client->fields["consent_until"] = "2026-07-10";
    const Record consent{"rule", "U1", 1, false, {{"needs", "consent"}}}, notice{"rule", "U2", 1, false, {{"needs", "notice"}}};
    CHECK(may_go(lawful({consent}, job, 14)));
    CHECK(!may_go(lawful({consent, notice}, job, 14)));
    CHECK(may_go({}));
  }
}
