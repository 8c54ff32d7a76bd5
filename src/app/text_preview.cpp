#include "app/text_preview.h"

#include <algorithm>

namespace app {

Outcome text_preview_command(const Common& common, const TextPreviewRequest& request) {
  Outcome outcome;
  const auto texts = crew_texts(common, request.texts, outcome);
  if (!texts) return outcome;
  const Occasion occasion = request.texts.occasion;
  outcome.out =
      common.format == Format::json ? crew_texts_json(common, *texts, occasion) : crew_texts_text(*texts, occasion, request.as_mail);
  const bool news = std::ranges::any_of(texts->all, [](const CrewTexts::One& one) { return one.text.message.news; });
  if (!news && outcome.exit == Exit::done) outcome.exit = Exit::nothing;
  return outcome;
}

}  // namespace app
