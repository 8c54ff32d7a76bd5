#include "book/flare_record.h"

#include "book/around.h"

namespace book {

double as_of_now(double then_cm, const std::optional<double>& flare_then_cm, double flare_cm) {
  return clockwise_cm(0.0, then_cm * flare_cm / flare_then_cm.value_or(flare_cm), flare_cm);
}

}  // namespace book
