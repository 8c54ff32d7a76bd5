// Roads that end on this machine.
#pragma once
#include <filesystem>
#include <ostream>

#include "post/sender.h"

namespace post {

// A file a message in a folder that a modem's daemon watches: "To:" and "Alphabet: UTF-8", an empty line, the text. Named after the key and
// renamed into place when it is on the disk, so a message sent again while its file lies there is the same file. A daemon that has taken
// the file away cannot be told apart from one that never had it: whoever sends again must know that it was not delivered.
class SpoolSender : public Sender {
 public:
  explicit SpoolSender(std::filesystem::path folder) : folder_(std::move(folder)) {}
  [[nodiscard]] Outcome send(const Outgoing& message) override;

 private:
  std::filesystem::path folder_;
};

// Written to a stream, for looking at; delivered if the stream takes it.
class StreamSender : public Sender {
 public:
  explicit StreamSender(std::ostream& stream) : stream_(stream) {}
  [[nodiscard]] Outcome send(const Outgoing& message) override;

 private:
  std::ostream& stream_;
};

}  // namespace post
