#include "book/lawful.h"

#include <algorithm>
#include <cmath>

#include "units/text.h"

namespace book {
namespace {

using std::chrono::days;
using units::LocalDay;

class Judge {
 public:
  Judge(const Record& rule, const JobFacts& job, int warn_days) : job_(job), warn_(warn_days) { found_.rule = rule; }

  Finding judged() {
    const std::string& needs = found_.rule.text("needs");
    if (needs == "consent") consent();
    if (needs == "notice") lead("notice_at");
    if (needs == "posting") posting();
    if (needs == "ticket") ticket();
    if (needs == "licence") licence();
    if (needs == "attended" && (!job_.has_crew || job_.members_at_work == 0)) missing(Why::nobody);
    return std::move(found_);
  }

 private:
  void missing(Why why) {
    found_.state = Lawful::missing;
    found_.why = why;
  }

  // It holds through `last`.
  void holds_until(LocalDay last) {
    found_.until = last;
    if (last < job_.day)
      missing(Why::lapsed);
    else if (found_.state == Lawful::met && last < job_.day + days{warn_})
      found_.state = Lawful::expiring;
  }

  // The last of `valid_days` days from `first` on, where the rule has them.
  void holds_from(LocalDay first) {
    if (const auto valid = found_.rule.number("valid_days")) holds_until(first + days{std::lround(*valid) - 1});
  }

  void consent() {
    if (!job_.client || job_.client->text("consent").empty() || job_.client->text("consent") == "asked") return missing(Why::not_entered);
    if (job_.client->text("consent") == "no") return missing(Why::refused);
    const auto on = job_.client->day("consent_on");
    if (on && *on > job_.day) {
      found_.from = on;
      return missing(Why::not_yet);
    }
    if (const auto until = job_.client->day("consent_until"))
      holds_until(*until);
    else if (on)
      holds_from(*on);
    else if (found_.rule.number("valid_days"))
      missing(Why::not_entered);  // nobody can say how old it is
  }

  bool lead(const char* field) {
    const auto given = job_.site.instant(field);
    if (!given) {
      missing(Why::not_entered);
      return false;
    }
    const auto lead = std::chrono::minutes{std::lround(60.0 * found_.rule.number("lead_hours").value_or(0.0))};
    if (*given + lead <= job_.begins) return true;
    found_.before = job_.begins - lead;
    missing(Why::too_late);
    return false;
  }

  void posting() {
    if (!lead("posted_at")) return;
    holds_from(job_.zone.day_of(*job_.site.instant("posted_at")));
  }

  // A ticket holds from its own first day, or from the end of the working days that the rule has one wait after the call.
  void ticket() {
    const Record& site = job_.site;
    if (site.text("ticket").empty()) return missing(Why::not_entered);
    const auto called = site.day("ticket_called_on");
    auto first = site.day("ticket_from");
    if (!first && called) first = after_working_days(*called, static_cast<int>(found_.rule.number("wait_days").value_or(0.0)));
    if (!first) return missing(Why::not_entered);
    if (job_.day < *first) {
      found_.from = first;
      return missing(Why::not_yet);
    }
    if (const auto until = site.day("ticket_until"))
      holds_until(*until);
    else
      holds_from(called.value_or(*first));
  }

  static LocalDay after_working_days(LocalDay day, int wait) {
    while (wait > 0) {
      day += days{1};
      const std::chrono::weekday weekday{day};
      if (weekday != std::chrono::Saturday && weekday != std::chrono::Sunday) --wait;
    }
    return day + days{1};
  }

  // The licence of the category that holds longest counts.
  void licence() {
    const std::string& category = found_.rule.text("category");
    const Record* best = nullptr;
    for (const Record& one : job_.licences)
      if ((category.empty() || units::same_letters(one.text("category"), category)) &&
          (best == nullptr || one.text("expires_on") > best->text("expires_on")))
        best = &one;
    if (best == nullptr) return missing(Why::nobody);
    found_.who = best->text("member");
    if (const auto until = best->day("expires_on")) holds_until(*until);
  }

  const JobFacts& job_;
  int warn_;
  Finding found_;
};

}  // namespace

std::vector<Finding> lawful(const std::vector<Record>& rules, const JobFacts& job, int warn_days) {
  std::vector<Finding> findings;
  for (const Record& rule : rules) findings.push_back(Judge{rule, job, warn_days}.judged());
  return findings;
}

bool may_go(const std::vector<Finding>& findings) {
  return std::ranges::none_of(findings, [](const Finding& finding) { return finding.state == Lawful::missing; });
}

}  // namespace book
