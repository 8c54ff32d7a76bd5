// What both roads over libcurl need of it.
#pragma once
#include <curl/curl.h>

#include <chrono>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "post/sender.h"

namespace post {

struct EasyDeleter {
  void operator()(CURL* handle) const { curl_easy_cleanup(handle); }
};
using Easy = std::unique_ptr<CURL, EasyDeleter>;

struct ListDeleter {
  void operator()(curl_slist* list) const { curl_slist_free_all(list); }
};
using List = std::unique_ptr<curl_slist, ListDeleter>;
void append(List& list, const std::string& line);

// A body as curl takes it, piece by piece; `whole` once it has asked for more than there is.
struct Supply {
  std::string bytes;
  std::size_t taken = 0;
  bool whole = false;
  static std::size_t read(char* to, std::size_t size, std::size_t count, void* supply);
};

// A new handle with time limits, verified TLS 1.2 or better, no signals, no reuse of connections. Null without memory.
[[nodiscard]] Easy easy_handle(std::chrono::seconds timeout, const std::optional<std::filesystem::path>& ca_file);

// A failure before anything was handed over: certificates and names are the owner's to mend, the rest is for later.
[[nodiscard]] Outcome before_sending(CURLcode code);

}  // namespace post
