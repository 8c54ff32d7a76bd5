// Where results go: files, full devices, pipes that nobody reads.
#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "program.h"

namespace {
const Arguments one_state{"air", "--temp-c", "25", "--rh", "50", "--json"};

Arguments one_state_to(const std::string& place) {
  Arguments all = one_state;
  all.insert(all.end(), {"--out", place});
  return all;
}
}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("--out writes what would have been printed, and prints nothing") {
    const Scratch scratch;
    const auto place = scratch.folder() / "state.json";
    const Ran ran = sapdraw(one_state_to(place.string()));
    CHECK(ran.exit == 0);
    CHECK(ran.out.empty());
    CHECK(content_of(place) == sapdraw(one_state).out);
    CHECK(std::distance(std::filesystem::directory_iterator{scratch.folder()}, std::filesystem::directory_iterator{}) == 1);
  }

  TEST_CASE("--out into a place that cannot be written is refused with one line") {
    const Ran ran = sapdraw(one_state_to("no/such/folder/state.json"));
    CHECK(ran.exit == 3);
    CHECK(ran.out.empty());
    CHECK(ran.err == "no/such/folder/state.json: expected a place that can be written\n");
    const Ran folder = sapdraw(one_state_to("docs"));
    CHECK(folder.exit == 3);
    CHECK(folder.err == "docs: expected a place that can be written\n");
  }

  TEST_CASE("--out onto a pipe writes into it and renames nothing over it") {
    const Scratch scratch;
    const std::string place = (scratch.folder() / "pipe").string();
    REQUIRE(::mkfifo(place.c_str(), 0600) == 0);
    const int reader = ::open(place.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    REQUIRE(reader >= 0);
    CHECK(sapdraw(one_state_to(place)).exit == 0);
    CHECK(std::filesystem::is_fifo(place));
    char read[4096];
    const auto length = ::read(reader, read, sizeof read);
    ::close(reader);
    REQUIRE(length > 0);
    CHECK(std::string(read, static_cast<std::size_t>(length)) == sapdraw(one_state).out);
  }

  TEST_CASE("a refused command leaves an earlier result alone") {
    const Scratch scratch;
    const std::string place = scratch.file("state.json", "earlier");
    CHECK(sapdraw({"air", "--temp-c", "25", "--rh", "150", "--out", place}).exit == 3);
    CHECK(content_of(place) == "earlier");
  }

  TEST_CASE("a full device under stdout is told, not taken for success") {
    const Ran ran = sapdraw_onto("/dev/full", one_state);
    CHECK(ran.exit == 3);
    CHECK(ran.err == "stdout: expected a place that can be written; the command itself was carried out\n");
  }

  TEST_CASE("a pipe that nobody reads is no crash and no complaint") {
    const Ran ran = sapdraw_unread({"air", "--weather", demo_weather});
    CHECK(ran.exit == 0);
    CHECK(ran.err.empty());
  }
}
