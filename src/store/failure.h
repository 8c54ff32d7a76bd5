// What the database cannot do, as one line for a person: no password, no value of a record.
#pragma once
#include <functional>
#include <stdexcept>
#include <string>

namespace store {

class Failure : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// Runs `work`; an error of the database library comes out as a Failure that begins with `shown`, the book's address without password.
void guarded(const std::string& shown, const std::function<void()>& work);

}  // namespace store
