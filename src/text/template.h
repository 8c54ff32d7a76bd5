// How an owner wants messages laid out: his own words around the pieces. A template is checked when it is saved, so that no message can
// fail for it later, nor leave out what a crew must know.
//   {name}   a piece (text/pieces.h)
//   [...]    vanishes, with its words, where a piece within it is empty or left out for want of room
#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "text/pieces.h"
#include "units/fault.h"

namespace text {

enum class TemplateKind {
  evening,     // the whole day
  morning,     // what changed since
  correction,  // begins with {do}
  stop,        // one stop, within {stops}
  prep_stop    // one where no valve is opened: {verdict} is "prep only" or "NO GO" there
};

class Template {
 public:
  // `name` is how faults call it. Faults: an unknown or repeated piece, or one that this kind has not; a piece missing that is never left
  // out; a piece that always says something within [ ], or one that may be left out outside of them; braces or brackets that do not
  // match; own words of more than 60 septets or outside the seven-bit alphabet; a correction that does not begin with what to do.
  static units::Result<Template> parse(TemplateKind kind, std::string_view text, std::string_view name);

  // `say` gives each piece's words; empty where it has none. What stands in them is never read as a template.
  [[nodiscard]] std::string fill(const std::function<std::string(Piece)>& say) const;

 private:
  struct Part {
    std::string words;           // before the piece
    std::optional<Piece> piece;  // empty: words alone
    std::size_t group = 0;       // 0: always there; else vanishes with the others of its number
  };
  std::vector<Part> parts_;
};

struct Templates {
  Template evening, morning, correction, stop, prep_stop;
};

// The program's own wording of a kind, and all of them parsed.
[[nodiscard]] std::string_view standard_text(TemplateKind kind);
[[nodiscard]] const Templates& standard_templates();

}  // namespace text
