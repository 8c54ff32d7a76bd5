// The marks of old ports: a shape for each treatment, so that ink alone tells them apart.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/svg.h"
#include "book/flare_record.h"

namespace app {

class PortMarks {
 public:
  explicit PortMarks(const book::FlareRecord& record);

  // Treatments newest first, ports of unknown year last; none: no old ports.
  [[nodiscard]] const std::vector<std::optional<int>>& years() const { return years_; }
  // Which of `years` a port belongs to.
  [[nodiscard]] std::size_t treatment(const book::OldPort& old) const;
  // "2023", "year unknown".
  [[nodiscard]] std::string name(std::size_t treatment) const;

  // One old port; a circle around it if it leaked. From the sixth treatment back the shapes repeat, filled.
  static void old_port(svg::Drawing& drawing, svg::Point at, std::size_t treatment, bool leaked);
  static void new_port(svg::Drawing& drawing, svg::Point at);

 private:
  std::vector<std::optional<int>> years_;
};

}  // namespace app
