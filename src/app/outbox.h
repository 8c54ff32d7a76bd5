// The outbox: messages in the book from the moment they are composed until they are delivered. A command composes, hands over here, and
// asks here what was said; app/send_messages.h delivers.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/request.h"
#include "book/delivery.h"
#include "post/sender.h"
#include "store/book.h"

namespace app {

enum class ReaderKind { crew, client, office };

struct Reader {
  ReaderKind kind = ReaderKind::crew;
  std::string id;  // of the crew or client; the office has none
};

// What a command hands over. Everything that is to be read stands in it: nothing is composed again when it is sent.
struct Composed {
  Reader reader;
  units::LocalDay day{};  // that it is about, by the reader's clock
  book::Purpose purpose = book::Purpose::evening;
  int number = 1;     // of a correction: OrdersOfDay::next_correction
  std::string about;  // of a notice or a note to the office: what tells it from others of the day, "J4"
  book::Road road = book::Road::text;
  std::string subject;                             // mail alone
  std::string text;                                // UTF-8, LF; of a crew's or client's text what text::Message holds
  std::vector<post::Attachment> attachments = {};  // mail alone; their bytes must be UTF-8
  std::string order;                               // the order that it says, as JSON; empty where it says none
  std::vector<std::string> jobs = {};              // whose clients' places stand in it: goes with them when one is erased
  std::string zone;                                // the reader's, "America/Chicago", for quiet hours; the office needs none
  units::UtcTime made_at{}, not_after{};           // not sent later than this: cancelled, and the office told
};

// The same for the same reader, day, purpose (number, about): one message, whatever restarts, two processes or two desks do. The road is
// not in it: who changes his mind about the road is not told twice.
[[nodiscard]] std::string message_id(const Composed& message);

// By which road a crew or client may be written to: the one preferred, else by text if that was agreed to, else by mail. Faults, in the
// name of the field of the address book to be filled in: no such crew or client; no number or mail; texts not agreed on. The office is
// written to at `post.office` of the settings: always a mail or a text by what stands there, and not asked for here.
[[nodiscard]] units::Result<book::Road> road_to(store::Book& book, const Reader& reader, units::UtcTime now);

// The edits that put a message into the outbox, for store::Book::apply together with whatever makes it necessary: all of `group`. The first
// adds it; where it is there already (in any state) it is left as it is, told by Written::unchanged. Behind it, for a crew, those that
// cancel messages of the same day that it overtakes and that have not left yet: an evening's by the morning's, both by a correction, a
// correction by the next; where one of these leaves meanwhile, that is a conflict: ask again. Faults: road_to's; no such zone; an order
// that is no JSON; attachments that are no UTF-8 or stand beside a text; not_after before made_at; an empty text.
[[nodiscard]] units::Result<std::vector<book::Edit>> queue_edits(store::Book& book, const Composed& message, std::size_t group);

// The same, written: each message by itself, a conflict asked again.
struct Queued {
  std::string id;
  bool already_there = false;
  std::vector<units::Fault> faults = {};  // none: it is in the outbox
};
[[nodiscard]] std::vector<Queued> queue_messages(store::Book& book, const std::vector<Composed>& messages, const book::Author& author);

// A message of the outbox as commands show it.
struct OutboxEntry {
  std::string id;
  Reader reader;
  std::string reader_name;
  std::optional<units::LocalDay> day;  // drafts of the plan have none
  std::optional<book::Purpose> purpose;
  int number = 1;
  book::MessageState state = book::MessageState::draft;
  std::optional<book::Road> road;
  std::string to;  // the address used, once it was tried
  std::string subject, text, order, zone;
  int tries = 0;
  std::string reason;  // of the last try that did not deliver, or of being cancelled
  int code = 0;        // the last answer's, of HTTP or SMTP
  std::optional<units::UtcTime> made_at, sent_at, next_try_at, not_after;
  std::int64_t version = 0;
};

// What a crew was told about a day, of one moment.
struct OrdersOfDay {
  std::optional<OutboxEntry> said;     // the last that says an order and was sent, or may have been (uncertain, being sent)
  std::optional<OutboxEntry> waiting;  // the last that is queued and comes after `said`
  int next_correction = 1;             // two desks that ask at the same moment get the same, so that only one correction leaves
  // What a correction is held against, so that it is not said twice: what waits, else what was said.
  [[nodiscard]] const OutboxEntry* last() const { return waiting ? &*waiting : said ? &*said : nullptr; }
};
[[nodiscard]] OrdersOfDay orders_of_day(store::Book& book, const std::string& crew, units::LocalDay day);

struct OutboxFilter {
  std::string crew = {}, client = {};
  std::optional<units::LocalDay> day = {}, since = {};  // since: drafts, which have no day, are left out
  std::optional<book::MessageState> state = {};
  std::size_t limit = 0;  // 0: all
};
// By day, reader, and in the order in which they are to be read; with a limit the last of them.
[[nodiscard]] std::vector<OutboxEntry> outbox(store::Book& book, const OutboxFilter& filter);
[[nodiscard]] OutboxEntry entry_of(const book::Record& message);  // its reader's name left out

}  // namespace app
