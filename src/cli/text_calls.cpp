#include "cli/text_calls.h"

#include "app/text_change.h"
#include "app/text_preview.h"
#include "app/text_send.h"
#include "app/text_status.h"
#include "cli/morning_calls.h"
#include "cli/weather_options.h"

namespace cli {
namespace {

using app::Common;
using Directory = std::filesystem::path;

void add_send(CLI::App& text, Given& given) {
  CLI::App& command = *text.add_subcommand("send", "send what is due; exit 1 when nothing is, 4 when something did not go");
  const auto request = std::make_shared<app::TextSendRequest>();
  command.add_option("--config", request->config, "settings (default $XDG_CONFIG_HOME/sapdraw/config.toml)")->type_name("FILE");
  add_within(command, request->within);
  on_call(command, given, request, false,
          [](const Common& common, const app::TextSendRequest& asked, const Directory&) { return app::text_send_command(common, asked); });
}

void add_status(CLI::App& text, Given& given) {
  CLI::App& command = *text.add_subcommand("status", "what was sent to whom, when, by which road; what was not, and why");
  const auto request = std::make_shared<app::TextStatusRequest>();
  const auto crew = command.add_option("--crew", request->crew, "to one crew, with the words")->type_name("ID");
  command.add_option("--client", request->client, "to one client, with the words")->type_name("ID")->excludes(crew);
  add_day(command, "--day", request->day, "about one day");
  add_day(command, "--since", request->since, "about this day and later (default the last seven days)");
  command.get_option("--since")->excludes("--day");
  command
      .add_option_function<std::string>(
          "--state", [request](const std::string& word) { request->state = book::message_state(word); },
          "draft, queued, sending, sent, uncertain, failed, cancelled")
      ->check(expects("draft, queued, sending, sent, uncertain, failed or cancelled",
                      [](const std::string& word) { return book::message_state(word).has_value(); }))
      ->type_name("STATE");
  on_call(command, given, request, false, [](const Common& common, const app::TextStatusRequest& asked, const Directory&) {
    return app::text_status_command(common, asked);
  });
}

void add_resend(CLI::App& text, Given& given) {
  CLI::App& command = *text.add_subcommand("resend", "queue a message once more that did not, or may not, have arrived");
  const auto request = std::make_shared<app::TextResendRequest>();
  command.add_option("id", request->id, "its id")->type_name("ID")->required();
  command.add_flag("--again", request->again, "though it was sent: it will arrive twice");
  command.add_option("--why", request->why, "why")->type_name("TEXT");
  on_call(command, given, request, false, [](const Common& common, const app::TextResendRequest& asked, const Directory&) {
    return app::text_resend_command(common, asked);
  });
}

void add_cancel(CLI::App& text, Given& given) {
  CLI::App& command = *text.add_subcommand("cancel", "do not send a message that waits");
  const auto request = std::make_shared<app::TextCancelRequest>();
  command.add_option("id", request->id, "its id")->type_name("ID")->required();
  command.add_option("--why", request->why, "why")->type_name("TEXT");
  on_call(command, given, request, false, [](const Common& common, const app::TextCancelRequest& asked, const Directory&) {
    return app::text_cancel_command(common, asked);
  });
}

void add_preview(CLI::App& text, Given& given) {
  CLI::App& command = *text.add_subcommand("preview", "what crews would be told, as a phone shows it; exit 1: nothing");
  const auto request = std::make_shared<app::TextPreviewRequest>();
  add_crew_texts(command, request->texts);
  const auto morning = command.add_flag_callback(
      "--morning", [request] { request->texts.occasion = app::Occasion::morning; }, "the morning's instead of the evening's: what changed");
  add_correction(command, request->texts)->excludes(morning);
  command.add_flag("--mail", request->as_mail, "the longer form");
  on_call(command, given, request, false, [](const Common& common, const app::TextPreviewRequest& asked, const Directory&) {
    return on_place(asked.texts.orders, [&] { return app::text_preview_command(common, asked); });
  });
}

}  // namespace

void add_text_calls(CLI::App& app, Given& given) {
  CLI::App& text = *app.add_subcommand("text", "messages to crews: preview, send, status, resend, cancel");
  text.footer(of_every_command);
  text.fallthrough();
  text.require_subcommand(1, 1);
  add_preview(text, given);
  add_send(text, given);
  add_status(text, given);
  add_resend(text, given);
  add_cancel(text, given);
}

}  // namespace cli
