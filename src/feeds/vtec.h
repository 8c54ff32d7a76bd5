// P-VTEC, the code in which the US National Weather Service says which event a text is about and what becomes of it:
// "/O.NEW.KBGM.SV.W.0113.260715T1952Z-260715T2030Z/" (NWS Instruction 10-1703).
#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace feeds {

struct Vtec {
  char product = 'O';       // O operational; T test, E experimental, X experimental in an operational text
  std::string action;       // NEW CON EXT EXA EXB UPG CAN EXP COR ROU
  std::string office;       // KBGM
  std::string phenomenon;   // SV
  char significance = 'W';  // W warning, Y advisory, A watch, S statement, O outlook, N synopsis, F forecast
  std::string tracking;     // 0113

  // One event keeps its key through all its texts.
  [[nodiscard]] std::string key() const { return office + '.' + phenomenon + '.' + significance + '.' + tracking; }
};

// The code without its times, which alerts give more reliably in their own members; empty where `text` is no P-VTEC.
[[nodiscard]] std::optional<Vtec> parse_vtec(std::string_view text);

}  // namespace feeds
