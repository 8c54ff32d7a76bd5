#include "app/text_send.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/open_book.h"
#include "app/send_messages.h"
#include "app/text_status.h"

namespace app {

Outcome text_send_command(const Common& common, const TextSendRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const auto roads = roads_of(common, request.config);
  if (!roads) return refused(roads.error());
  const SendReport report = send_due(*book, *roads, common, request.within);
  for (const std::string& line : report.told) outcome.err.push_back(line);
  if (report.failed())
    outcome.exit = Exit::service_failed;
  else if (report.sent == 0)
    outcome.exit = Exit::nothing;
  if (common.format == Format::json)
    outcome.out = nlohmann::ordered_json{{"sent", report.sent},
                                         {"held", report.waiting},
                                         {"out_of_time", report.out_of_time},
                                         {"told", report.told},
                                         {"messages", outbox_json(report.touched)}}
                      .dump(2) +
                  "\n";
  else if (report.touched.empty())
    outcome.out = "nothing to send\n";
  else
    outcome.out = outbox_text(report.touched, false, common.now);
  return outcome;
}

}  // namespace app
