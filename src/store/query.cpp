#include "store/query.h"

#include <nlohmann/json.hpp>

#include "book/field.h"

namespace store {

Query::Query(Database& database, std::string sql) : database_(database), sql_(std::move(sql)) {}

Query& Query::bind(std::string name, std::string value) {
  texts_.push_back({std::move(name), std::move(value)});
  return *this;
}

Query& Query::bind(std::string name, long long value) {
  wholes_.push_back({std::move(name), value});
  return *this;
}

Query& Query::bind(std::string name, double value) {
  numbers_.push_back({std::move(name), value});
  return *this;
}

void Query::each(const std::function<void(const soci::row&)>& take) {
  soci::row row;
  soci::statement statement{database_.session()};
  for (auto& bound : texts_) statement.exchange(soci::use(bound.value, bound.name));
  for (auto& bound : wholes_) statement.exchange(soci::use(bound.value, bound.name));
  for (auto& bound : numbers_) statement.exchange(soci::use(bound.value, bound.name));
  statement.exchange(soci::into(row));
  statement.alloc();
  statement.prepare(sql_);
  statement.define_and_bind();
  statement.execute();
  while (statement.fetch()) take(row);
}

std::string text_of(const soci::row& row, std::size_t column) {
  if (row.get_indicator(column) == soci::i_null) return {};
  switch (row.get_properties(column).get_data_type()) {
    case soci::dt_double:
      return book::shortest(row.get<double>(column));
    case soci::dt_integer:
      return std::to_string(row.get<int>(column));
    case soci::dt_long_long:
      return std::to_string(row.get<long long>(column));
    default:
      return row.get<std::string>(column);
  }
}

std::string columns_of(const book::Kind& kind) {
  std::string columns = "id, version, removed";
  for (const book::Field& field : kind.fields) columns += ", " + field.name;
  return columns + ", own";
}

book::Record record_of(const book::Kind& kind, const soci::row& row) {
  book::Record record{kind.name, row.get<std::string>(0), row.get<long long>(1), row.get<long long>(2) != 0};
  for (std::size_t i = 0; i < kind.fields.size(); ++i)
    if (std::string text = text_of(row, 3 + i); !text.empty()) record.fields.emplace(kind.fields[i].name, std::move(text));
  if (const std::string own = text_of(row, 3 + kind.fields.size()); !own.empty()) {
    const auto json = nlohmann::json::parse(own);
    for (const auto& [name, value] : json.items()) record.fields.emplace(name, value.get<std::string>());
  }
  return record;
}

book::Record find_record(Database& database, const book::Kind& kind, const std::string& id) {
  book::Record found{kind.name, id};
  if (!book::canonical_id("", id)) return found;  // what no record can be called; a database may refuse to be asked
  Query{database, "SELECT " + columns_of(kind) + " FROM " + kind.name + " WHERE id = :id"}.bind("id", id).each(
      [&](const soci::row& row) { found = record_of(kind, row); });
  return found;
}

std::string own_json(const book::Fields& fields) {
  nlohmann::json own = nlohmann::json::object();
  for (const auto& [name, value] : fields)
    if (name.starts_with(own_prefix)) own[name] = value;
  return own.empty() ? std::string{} : own.dump();
}

}  // namespace store
