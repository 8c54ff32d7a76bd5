// In which units people read and write numbers; inside everything is SI.
#pragma once

namespace units {

enum class UnitSystem { us, si };

}  // namespace units
