#include "text/template.h"

#include <algorithm>

#include "text/encoding.h"

namespace text {
namespace {

constexpr std::size_t most_own_septets = 60;

// Pieces of each kind. `always` say something in every message; `kept` are never left out but may have nothing to say.
struct Kind {
  std::vector<Piece> always, kept, droppable;
};

const Kind& kind_of(TemplateKind kind) {
  using enum Piece;
  static const Kind evening{{crew, day, stops}, {old_weather, holds, safety}, {changed, call, weather_age}};
  static const Kind morning{{crew, day, changes}, {old_weather}, {call}};
  static const Kind correction{{action}, {changes}, {call}};
  static const Kind stop{
      {number, arrive, name, verdict, mix, open, shut, off}, {}, {address, odds, takes, ports, tanks, water, haul, gate, dog, home}};
  static const Kind prep_stop{{number, arrive, name, verdict, off}, {}, {odds, prep, address, gate, dog, home}};
  switch (kind) {
    case TemplateKind::evening:
      return evening;
    case TemplateKind::morning:
      return morning;
    case TemplateKind::correction:
      return correction;
    case TemplateKind::stop:
      return stop;
    case TemplateKind::prep_stop:
      break;
  }
  return prep_stop;
}

bool holds(const std::vector<Piece>& pieces, Piece piece) { return std::ranges::find(pieces, piece) != pieces.end(); }

std::string braced(Piece piece) { return "{" + std::string{name_of(piece)} + "}"; }

std::string list_of(const Kind& kind) {
  std::string list;
  for (const auto* pieces : {&kind.always, &kind.kept, &kind.droppable})
    for (const Piece piece : *pieces) list += (list.empty() ? "" : ", ") + braced(piece);
  return list;
}

}  // namespace

units::Result<Template> Template::parse(TemplateKind kind, std::string_view text, std::string_view name) {
  const Kind& pieces = kind_of(kind);
  const auto refuse = [&](std::string found, std::string expected) { return units::fault(std::string{name}, std::move(found), expected); };
  Template parsed;
  std::vector<Piece> seen;
  std::string words, own;
  std::size_t groups = 0, group = 0, pieces_in_group = 0;
  const auto end_part = [&](std::optional<Piece> piece) {
    if (piece || !words.empty()) parsed.parts_.push_back({words, piece, group});
    own += words;
    words.clear();
  };
  for (std::size_t at = 0; at < text.size(); ++at) {
    switch (text[at]) {
      case '[':
        if (group != 0) return refuse("[", "expected ] before the next [");
        end_part(std::nullopt);
        group = ++groups;
        pieces_in_group = 0;
        break;
      case ']':
        if (group == 0) return refuse("]", "expected [ before ]");
        if (pieces_in_group == 0) return refuse("[" + words + "]", "expected a piece within [ ]");
        end_part(std::nullopt);
        group = 0;
        break;
      case '}':
        return refuse("}", "expected { before }");
      case '{': {
        const auto close = text.find('}', at);
        if (close == std::string_view::npos) return refuse("{", "expected } after {");
        const std::string between{text.substr(at + 1, close - at - 1)};
        const auto piece = piece_named(between);
        const bool always = piece && holds(pieces.always, *piece), kept = piece && holds(pieces.kept, *piece);
        if (!piece || (!always && !kept && !holds(pieces.droppable, *piece)))
          return refuse("{" + between.substr(0, 40) + "}", "expected one of " + list_of(pieces));
        if (holds(seen, *piece)) return refuse(braced(*piece), "expected each piece once");
        if (always && group != 0) return refuse(braced(*piece), "expected outside of [ ]: it is never left out");
        if (!always && group == 0) return refuse(braced(*piece), "expected within [ ]: it may be empty or left out");
        seen.push_back(*piece);
        ++pieces_in_group;
        end_part(piece);
        at = close;
        break;
      }
      default:
        words += text[at];
    }
  }
  if (group != 0) return refuse("[", "expected ] after [");
  end_part(std::nullopt);
  for (const auto* needed : {&pieces.always, &pieces.kept})
    for (const Piece piece : *needed)
      if (!holds(seen, piece)) return refuse("", "expected " + braced(piece) + ": it is never left out");
  if (kind == TemplateKind::correction && !text.starts_with(braced(Piece::action)))
    return refuse("", "expected to begin with " + braced(Piece::action));
  const Measure length = measure(own);
  if (length.alphabet != Alphabet::gsm7 || own.find('\r') != std::string::npos || own.find('\f') != std::string::npos)
    return refuse("", "expected own words in the seven-bit alphabet of phones: plain letters, digits and signs");
  if (length.units > most_own_septets)
    return refuse("", "expected at most " + std::to_string(most_own_septets) + " characters of own words");
  return parsed;
}

std::string Template::fill(const std::function<std::string(Piece)>& say) const {
  std::string out;
  for (std::size_t first = 0; first < parts_.size();) {
    std::size_t last = first + 1;
    while (parts_[first].group != 0 && last < parts_.size() && parts_[last].group == parts_[first].group) ++last;
    std::string said;
    bool whole = true;
    for (std::size_t i = first; i < last; ++i) {
      said += parts_[i].words;
      if (!parts_[i].piece) continue;
      std::string words = say(*parts_[i].piece);
      // A time that begins a sentence.
      const bool own_words = *parts_[i].piece == Piece::open || *parts_[i].piece == Piece::shut || *parts_[i].piece == Piece::off;
      if (own_words && said.ends_with(". ") && !words.empty()) words[0] = static_cast<char>(words[0] & ~0x20);
      whole = whole && (parts_[i].group == 0 || !words.empty());
      said += words;
    }
    if (whole) out += said;
    first = last;
  }
  return out;
}

std::string_view standard_text(TemplateKind kind) {
  switch (kind) {
    case TemplateKind::evening:
      return "{crew} {day}[\n{old_weather}][\n{changed}]\n{stops}[\n{holds}][\n{safety}][\n{call}][\n{weather_age}]";
    case TemplateKind::morning:
      return "{crew} {day}, changed:[\n{old_weather}]\n{changes}[\n{call}]";
    case TemplateKind::correction:
      return "{do}[\n{changes}][\n{call}]";
    case TemplateKind::stop:
      return "{n}) {arrive} {name}[, {address}]: {verdict}[ {odds}][, {takes}]. {mix}[, {ports}][, {tanks}][, {water}][, {haul}]. "
             "{open}, {shut}, {off}.[ {gate}.][ {dog}.][ {home}.]";
    case TemplateKind::prep_stop:
      break;
  }
  return "{n}) {arrive} {name}[, {address}]: {verdict}[ {odds}][: {prep}]. {off}.[ {gate}.][ {dog}.][ {home}.]";
}

const Templates& standard_templates() {
  const auto parsed = [](TemplateKind kind) { return *Template::parse(kind, standard_text(kind), "standard"); };
  static const Templates all{parsed(TemplateKind::evening), parsed(TemplateKind::morning), parsed(TemplateKind::correction),
                             parsed(TemplateKind::stop), parsed(TemplateKind::prep_stop)};
  return all;
}

}  // namespace text
