#include <fmt/format.h>

#include <algorithm>

#include "app/crew_texts.h"
#include "app/words.h"

namespace app {
namespace {

constexpr std::size_t phone_columns = 40;

std::string joined(const std::vector<std::string>& parts) {
  std::string all;
  for (const std::string& part : parts) all += (all.empty() ? "" : ", ") + part;
  return all;
}

// As a phone shows it: lines broken at blanks, counted in characters.
std::string as_a_phone(const std::string& message) {
  std::string shown;
  std::size_t begin = 0;
  const auto columns = [](std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
  };
  const auto put = [&](std::string_view line) { shown += "  | " + std::string{line} + "\n"; };
  while (begin <= message.size()) {
    const std::size_t end = std::min(message.find('\n', begin), message.size());
    std::string line;
    for (std::size_t at = begin; at < end;) {
      const std::size_t stop = std::min(message.find(' ', at), end);
      const std::string word = message.substr(at, stop - at);
      if (!line.empty() && columns(line) + 1 + columns(word) > phone_columns) {
        put(line);
        line.clear();
      }
      line += (line.empty() ? "" : " ") + word;
      at = stop + 1;
    }
    put(line);
    begin = end + 1;
  }
  return shown;
}

std::string size_of(const text::Message& message) {
  const bool seven_bit = message.size.alphabet == text::Alphabet::gsm7;
  return fmt::format("{} part{}, {} {}", message.size.parts, message.size.parts == 1 ? "" : "s", message.size.units,
                     seven_bit ? "characters" : "characters of 16 bits: a name's letters ask for them");
}

}  // namespace

std::string to_look_at(const CrewTexts& texts) {
  std::string page;
  for (const auto* lines : {&texts.orders.missing, &texts.missing})
    for (const std::string& line : *lines) page += "LOOK AT: " + line + "\n";
  for (const std::string& line : texts.orders.plan) page += "PLAN: " + line + "\n";
  if (!texts.orders.plan.empty()) page += "Nothing was moved. sapdraw plan rework proposes what to do.\n";
  return page;
}

std::string crew_texts_text(const CrewTexts& texts, Occasion occasion, bool as_mail) {
  std::string page;
  for (const CrewTexts::One& one : texts.all) {
    const std::string head = one.order.order.crew + ", " + words::day(one.order.order.date) + ", " + name_of(occasion);
    if (!one.text.message.news) {
      page += head + ": nothing to tell\n\n";
      continue;
    }
    if (as_mail) {
      page += head + "\nSubject: " + one.text.email.subject + "\n\n" + one.text.email.body + "\n";
      continue;
    }
    page += head + ": " + size_of(one.text.message) + "\n" + as_a_phone(one.text.message.text);
    if (!one.text.message.left_out.empty()) page += "  left out for want of room: " + joined(one.text.message.left_out) + "\n";
    for (const auto& shortened : one.text.message.shortened) page += "  '" + shortened.from + "' became '" + shortened.to + "'\n";
    page += "\n";
  }
  return page + to_look_at(texts);
}

}  // namespace app
