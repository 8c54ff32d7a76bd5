// Text as every reader here meets it: units/text.h under the readers' own roof.
#pragma once
#include "units/text.h"

namespace feeds {

using units::for_message, units::is_utf8, units::parse_number, units::trimmed;

}  // namespace feeds
