// `text preview`: what crews would be told, as a phone shows it or as mail; nothing is queued.
#pragma once
#include "app/crew_texts.h"
#include "app/outcome.h"

namespace app {

struct TextPreviewRequest {
  CrewTextsRequest texts;
  bool as_mail = false;
};

// Exit 1 where there is nothing to tell anybody.
[[nodiscard]] Outcome text_preview_command(const Common& common, const TextPreviewRequest& request);

}  // namespace app
