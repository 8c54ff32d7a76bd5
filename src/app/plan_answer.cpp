#include "app/plan_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/open_book.h"
#include "app/plan_still_holds.h"
#include "app/record_faults.h"
#include "units/text.h"

namespace app {
namespace {

using book::Edit;
using book::Record;
using Json = nlohmann::ordered_json;

class Answer {
 public:
  Answer(store::Book& book, const Common& common, const PlanAnswerRequest& request, Outcome& outcome)
      : book_(book), common_(common), request_(request), outcome_(outcome) {}

  void give() {
    choose();
    if (outcome_.exit != Exit::done) return;
    if (chosen_.empty()) {
      outcome_.out = common_.format == Format::json ? "{\"moves\":[],\"drafts\":0}\n" : "No move waits for an answer.\n";
      return;
    }
    if (request_.accept) check_needs();
    if (request_.accept) check_book();
    if (outcome_.exit != Exit::done) return;
    std::vector<Edit> edits;
    for (std::size_t i = 0; i < chosen_.size(); ++i) add_edits(chosen_[i], edits);
    close_answered(edits);
    write(edits);
  }

 private:
  void choose() {
    if (request_.all) {
      for (const Record& proposal : book_.list("proposal", {.equal = {{"state", "open"}}}))
        for (Record& move : book_.list("move", {.equal = {{"proposal", proposal.id}, {"state", "open"}}}))
          if (!request_.accept || request_.waiting || !move.yes("may_wait")) chosen_.push_back(std::move(move));
      return;
    }
    for (const std::string& id : request_.moves) {
      auto move = book_.find("move", id);
      if (!move) {
        outcome_.refuse({"move", units::for_message(id), "expected the id of a move of the open proposal: sapdraw plan rework lists them"});
      } else if (move->text("state") != "open") {
        outcome_.refuse({"move " + id, move->text("state"), "expected one that waits for an answer"});
      } else if (const auto proposal = book_.find("proposal", move->text("proposal")); proposal->text("state") != "open") {
        outcome_.refuse({"move " + id, "of proposal " + proposal->id, "expected a move of the newest proposal: make a new one"});
      } else if (std::ranges::find(chosen_, id, &Record::id) == chosen_.end()) {
        chosen_.push_back(std::move(*move));
      }
    }
  }

  void check_needs() {
    for (const Record& move : chosen_) {
      std::istringstream ids{move.text("needs")};
      for (std::string job; ids >> job;) {
        const auto others = book_.list("move", {.equal = {{"proposal", move.text("proposal")}, {"job", job}}});
        const bool with = std::ranges::any_of(others, [&](const Record& other) {
          return other.text("state") == "accepted" || std::ranges::find(chosen_, other.id, &Record::id) != chosen_.end();
        });
        if (!with)
          outcome_.refuse(
              {"move " + move.id, "without that of job " + job, "expected both: the crew's day has no room for it while the other stays"});
      }
    }
  }

  void check_book() {
    for (const Record& move : chosen_)
      if (const auto fault = no_longer(book_, common_, move, chosen_)) outcome_.refuse(*fault);
  }

  void add_edits(const Record& move, std::vector<Edit>& edits) const {
    edits.push_back({Edit::What::change, "move", move.id, {{"state", request_.accept ? "accepted" : "refused"}}, move.version, 1});
    if (!request_.accept) return;
    book::Fields set{{"day", move.text("to_day")},
                     {"crew", move.text("to_crew")},
                     {"start", move.text("to_start")},
                     {"state", move.text("to_day").empty() ? "wanted" : "confirmed"}};
    const bool is_new = move.text("job").empty();
    if (is_new) {
      set["tree"] = move.text("tree");
      edits.push_back({Edit::What::add, "job", "", set, {}, 1});
    } else {
      edits.push_back({Edit::What::change, "job", move.text("job"), set, static_cast<std::int64_t>(*move.number("job_version")), 1});
    }
    add_draft(move, edits);
  }

  // What the client is told; nothing where neither day nor hour changes.
  void add_draft(const Record& move, std::vector<Edit>& edits) const {
    const std::string& why = move.text("why");
    const auto line = why.find('\n');
    if (line == std::string::npos) return;
    const auto tree = book_.find("tree", move.text("tree"));
    const auto site = tree ? book_.find("site", tree->text("site")) : std::nullopt;
    if (!site || site->text("client").empty()) return;
    Edit draft{
        Edit::What::add, "message", "", {{"client", site->text("client")}, {"state", "draft"}, {"body", why.substr(line + 1)}}, {}, 1};
    if (!move.text("job").empty()) draft.set["job"] = move.text("job");
    edits.push_back(std::move(draft));
  }

  void close_answered(std::vector<Edit>& edits) const {
    for (const Record& proposal : book_.list("proposal", {.equal = {{"state", "open"}}})) {
      const auto open = book_.list("move", {.equal = {{"proposal", proposal.id}, {"state", "open"}}});
      const bool all =
          std::ranges::all_of(open, [&](const Record& one) { return std::ranges::find(chosen_, one.id, &Record::id) != chosen_.end(); });
      if (all) edits.push_back({Edit::What::change, "proposal", proposal.id, {{"state", "closed"}}, {}, 1});
    }
  }

  void write(const std::vector<Edit>& edits) {
    const std::string why = request_.why.empty() ? (request_.accept ? "plan accept" : "plan refuse") : request_.why;
    const auto applied = book_.apply(edits, author(common_, why), store::Mode::all_or_nothing);
    for (const store::Refusal& refusal : applied.refusals)
      if (refusal.conflict) {
        const Edit& edit = edits[refusal.edit];
        for (const auto& line : conflict_lines(edit.kind, edit.id, *refusal.conflict)) outcome_.err.push_back(line);
        outcome_.exit = Exit::bad_input;
      }
    tell_refusals(
        applied, [&](std::size_t i) { return edits[i].kind + " " + edits[i].id + ": "; }, outcome_);
    if (!applied.kept) return;
    Json list = Json::array();
    std::size_t drafts = 0;
    for (const store::Written& written : applied.written) drafts += written.after.kind == "message" ? 1 : 0;
    for (const Record& move : chosen_) {
      list.push_back({{"move", move.id}, {"job", move.text("job")}, {"state", request_.accept ? "accepted" : "refused"}});
      outcome_.out += fmt::format("move {} {}: {} {}\n", move.id, request_.accept ? "accepted" : "refused",
                                  move.text("job").empty() ? "new job for tree " + move.text("tree") : "job " + move.text("job"),
                                  request_.accept ? move.text("to_day") + " " + move.text("to_start") : "stays as booked");
    }
    if (drafts > 0)
      outcome_.out +=
          fmt::format("{} draft{} to clients: sapdraw booking message list --where state=draft\n", drafts, drafts == 1 ? "" : "s");
    if (common_.format == Format::json) outcome_.out = Json{{"moves", list}, {"drafts", drafts}}.dump(2) + "\n";
  }

  store::Book& book_;
  const Common& common_;
  const PlanAnswerRequest& request_;
  Outcome& outcome_;
  std::vector<Record> chosen_;
};

}  // namespace

Outcome plan_answer_command(const Common& common, const PlanAnswerRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (book) Answer{*book, common, request, outcome}.give();
  return outcome;
}

}  // namespace app
