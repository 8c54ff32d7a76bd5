#include "store/migrations.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>

#include "store/failure.h"
#include "store/migration_texts.h"

namespace store {
namespace {

// The statements of a step: each ends with a semicolon at the end of a line. Comments are whole lines.
std::vector<std::string> statements(const std::string& sql) {
  std::vector<std::string> all;
  std::string statement;
  std::size_t at = 0;
  while (at < sql.size()) {
    const std::size_t end = std::min(sql.find('\n', at), sql.size());
    const std::string line = sql.substr(at, end - at);
    at = end + 1;
    if (line.starts_with("--")) continue;
    statement += line + "\n";
    if (!line.ends_with(";")) continue;
    statement.resize(statement.size() - 2);
    all.push_back(std::move(statement));
    statement.clear();
  }
  return all;
}

std::string seen_fingerprint(Database& database, int number) {
  std::string kept;
  database.session() << "SELECT fingerprint FROM schema_step WHERE number = :number", soci::use(number, "number"), soci::into(kept);
  return kept;
}

}  // namespace

const std::vector<Migration>& migrations() {
  static const std::vector<Migration> all{{1, migration_0001}, {2, migration_0002}, {3, migration_0003}, {4, migration_0004}};
  return all;
}

std::string fingerprint(const std::string& sql) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : sql) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  std::array<char, 17> digits{};
  std::snprintf(digits.data(), digits.size(), "%016llx", static_cast<unsigned long long>(hash));
  return digits.data();
}

int schema_number(Database& database) {
  if (!database.has_table("schema_step")) return 0;
  return static_cast<int>(database.whole("SELECT coalesce(max(number), 0) FROM schema_step"));
}

bool is_current(Database& database, const std::vector<Migration>& steps) {
  if (schema_number(database) != steps.back().number) return false;
  return std::ranges::all_of(steps,
                             [&](const Migration& step) { return seen_fingerprint(database, step.number) == fingerprint(step.sql); });
}

void migrate(Database& database, const std::string& shown, const std::vector<Migration>& steps) {
  Transaction transaction{database, Transaction::For::writing};
  const int present = schema_number(database);
  if (present > steps.back().number)
    throw Failure(shown + ": expected a book of form " + std::to_string(steps.back().number) + " or older: this one is of form " +
                  std::to_string(present) + ", made by a newer sapdraw; nothing was changed");
  if (present == 0) database.run("CREATE TABLE schema_step (number BIGINT PRIMARY KEY, fingerprint TEXT NOT NULL)");
  for (const Migration& step : steps) {
    const std::string print = fingerprint(step.sql);
    if (step.number <= present) {
      if (seen_fingerprint(database, step.number) != print)
        throw Failure(shown + ": expected a book whose form " + std::to_string(step.number) + " is ours: it was made by another program");
      continue;
    }
    for (const std::string& statement : statements(step.sql)) database.run(statement);
    database.session() << "INSERT INTO schema_step (number, fingerprint) VALUES (:number, :print)", soci::use(step.number, "number"),
        soci::use(print, "print");
  }
  transaction.commit();
}

}  // namespace store
