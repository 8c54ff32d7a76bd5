#include "app/wording.h"

#include <array>
#include <utility>

namespace app {
namespace {

using book::Record;

constexpr std::array kinds{std::pair{text::TemplateKind::evening, "evening"}, std::pair{text::TemplateKind::morning, "morning"},
                           std::pair{text::TemplateKind::correction, "correction"}, std::pair{text::TemplateKind::stop, "stop"},
                           std::pair{text::TemplateKind::prep_stop, "prep_stop"}};

std::optional<text::TemplateKind> kind_named(const std::string& name) {
  for (const auto& [kind, known] : kinds)
    if (name == known) return kind;
  return std::nullopt;
}

text::Template& place(text::Templates& templates, text::TemplateKind kind) {
  switch (kind) {
    case text::TemplateKind::evening:
      return templates.evening;
    case text::TemplateKind::morning:
      return templates.morning;
    case text::TemplateKind::correction:
      return templates.correction;
    case text::TemplateKind::stop:
      return templates.stop;
    case text::TemplateKind::prep_stop:
      break;
  }
  return templates.prep_stop;
}

}  // namespace

units::Result<text::Templates> templates_of(store::Book& book) {
  text::Templates templates = text::standard_templates();
  for (const Record& wording : book.list("wording", {})) {
    const auto kind = kind_named(wording.text("message"));
    if (!kind) continue;
    auto parsed = text::Template::parse(*kind, wording.text("layout"), "wording " + wording.id);
    if (!parsed) return tl::make_unexpected(parsed.error());
    place(templates, *kind) = std::move(*parsed);
  }
  return templates;
}

std::optional<units::Fault> wording_fault(store::Book& book, const std::string& id, const book::Fields& fields) {
  const auto value = [&](const char* name) {
    const auto field = fields.find(name);
    return field == fields.end() ? std::string{} : field->second;
  };
  const auto kind = kind_named(value("message"));
  if (!kind) return std::nullopt;  // the field's own check tells
  for (const Record& other : book.list("wording", {.equal = {{"message", value("message")}}}))
    if (other.id != id) return units::Fault{"message", value("message"), "expected one wording a message: change " + other.id};
  const auto parsed = text::Template::parse(*kind, value("layout"), "layout");
  if (!parsed) return parsed.error();
  return std::nullopt;
}

}  // namespace app
