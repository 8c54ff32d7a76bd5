#include "store/row_writer.h"

#include <charconv>

#include "store/query.h"
#include "units/text.h"

namespace store {

using book::FieldType;

RowWriter::RowWriter(Database& database, const book::Kind& kind) : database_(database), kind_(kind) {
  for (const book::Field& field : kind.fields) cells_.push_back({field.name, field.type});
}

void RowWriter::fill(const book::Record& record) {
  id_ = record.id;
  version_ = record.version;
  removed_ = record.removed ? 1 : 0;
  for (Cell& cell : cells_) {
    const std::string& text = record.text(cell.name);
    cell.known = text.empty() ? soci::i_null : soci::i_ok;
    cell.text = text;
    const double number = units::parse_number(text).value_or(0.0);
    cell.number = number;
    cell.whole = static_cast<long long>(number);
  }
  own_ = own_json(record.fields);
  own_known_ = own_.empty() ? soci::i_null : soci::i_ok;
}

std::unique_ptr<soci::statement> RowWriter::prepared(const std::string& sql) {
  auto statement = std::make_unique<soci::statement>(database_.session());
  statement->exchange(soci::use(id_, "id"));
  statement->exchange(soci::use(version_, "version"));
  statement->exchange(soci::use(removed_, "removed"));
  for (Cell& cell : cells_) {
    if (cell.type == FieldType::number)
      statement->exchange(soci::use(cell.number, cell.known, "f_" + cell.name));
    else if (cell.type == FieldType::whole)
      statement->exchange(soci::use(cell.whole, cell.known, "f_" + cell.name));
    else
      statement->exchange(soci::use(cell.text, cell.known, "f_" + cell.name));
  }
  statement->exchange(soci::use(own_, own_known_, "f_own"));
  statement->alloc();
  statement->prepare(sql);
  statement->define_and_bind();
  return statement;
}

void RowWriter::insert(const book::Record& record) {
  fill(record);
  if (!insert_) {
    std::string values = ":id, :version, :removed";
    for (const Cell& cell : cells_) values += ", :f_" + cell.name;
    insert_ = prepared("INSERT INTO " + kind_.name + " (" + columns_of(kind_) + ") VALUES (" + values + ", :f_own)");
  }
  insert_->execute(true);
}

void RowWriter::update(const book::Record& record) {
  fill(record);
  if (!update_) {
    std::string set = "version = :version, removed = :removed";
    for (const Cell& cell : cells_) set += ", " + cell.name + " = :f_" + cell.name;
    update_ = prepared("UPDATE " + kind_.name + " SET " + set + ", own = :f_own WHERE id = :id");
  }
  update_->execute(true);
}

}  // namespace store
