// Roads that end on this machine.
#pragma once
#include <filesystem>
#include <ostream>

#include "post/sender.h"

namespace post {

// A file a message in a folder that a modem's daemon watches: "To:" and "Alphabet: UTF-8", an empty line, the text. Named after the key. It
// is made ready in the folder `.sapdraw` beside, where an empty file keeps that it was, and then renamed into place: so a message sent
// again is known whether its file still lies there or the daemon has taken it. What is kept of messages a month old goes.
class SpoolSender : public Sender {
 public:
  explicit SpoolSender(std::filesystem::path folder) : folder_(std::move(folder)) {}
  [[nodiscard]] Outcome send(const Outgoing& message) override;
  [[nodiscard]] bool tells_repeats_apart() const override { return true; }

 private:
  std::filesystem::path folder_;
};

// Written to a stream, for looking at; delivered if the stream takes it.
class StreamSender : public Sender {
 public:
  explicit StreamSender(std::ostream& stream) : stream_(stream) {}
  [[nodiscard]] Outcome send(const Outgoing& message) override;
  [[nodiscard]] bool tells_repeats_apart() const override { return false; }

 private:
  std::ostream& stream_;
};

}  // namespace post
