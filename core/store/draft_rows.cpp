// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/draft_rows.h"

#include <fmt/format.h>

#include "core/record/problem.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

bool draftIsThere(Connection& connection, std::string_view site, std::int64_t id) {
  Query row = connection.query("SELECT 1 FROM draft WHERE site = $1 AND id = $2");
  return row.bind(site, id).step();
}

void needDraft(Connection& connection, std::string_view site, std::int64_t id) {
  if (!draftIsThere(connection, site, id)) {
    throw InputError(fmt::format("draft {} is no longer in the record", id),
                     "look whether the visit was entered already, else start it anew");
  }
}

/// A number no draft had before: somebody may still hold that of one that is gone.
std::int64_t nextDraft(Connection& connection, std::string_view site) {
  connection
      .query(
          "INSERT INTO counter (site, name, last) VALUES ($1, 'draft', 1) "
          "ON CONFLICT (site, name) DO UPDATE SET last = counter.last + 1")
      .run(site);
  Query row = connection.query("SELECT last FROM counter WHERE site = $1 AND name = 'draft'");
  row.bind(site).step();
  return row.integer(0);
}

void readDraftParts(Connection& connection, std::string_view site, Draft& draft) {
  Query standard = connection.query(
      "SELECT s.serial FROM draft_standard d JOIN standard s ON s.site = d.site AND s.id = d.standard "
      "WHERE d.site = $1 AND d.draft = $2 ORDER BY d.id");
  standard.bind(site, draft.id);
  while (standard.step()) {
    draft.standards.push_back(standard.text(0));
  }
  Query value = connection.query(
      "SELECT phase, sequence, applied_text, indicated_text, skip_reason FROM draft_value "
      "WHERE site = $1 AND draft = $2 ORDER BY phase, sequence");
  value.bind(site, draft.id);
  while (value.step()) {
    draft.values.push_back(
        {phaseAt(value, 0), value.smallInteger(1), value.text(2), value.text(3), value.text(4)});
  }
}

}  // namespace

std::int64_t writeDraft(Connection& connection, std::string_view site, const Keys& keys, const Draft& draft) {
  static const std::string kDraft =
      insertInto("draft",
                 "site, id, channel, subject, person, started, setup_version, temperature, humidity, "
                 "conditions_note, "
                 "cautions_confirmed, adjusted, repaired, adjustment, remarks, reference_junction") +
      " ON CONFLICT (site, id) DO UPDATE SET channel = excluded.channel, subject = excluded.subject, "
      "person = excluded.person, started = excluded.started, setup_version = excluded.setup_version, "
      "temperature = excluded.temperature, humidity = excluded.humidity, conditions_note = "
      "excluded.conditions_note, "
      "cautions_confirmed = excluded.cautions_confirmed, adjusted = excluded.adjusted, repaired = "
      "excluded.repaired, "
      "adjustment = excluded.adjustment, remarks = excluded.remarks, reference_junction = "
      "excluded.reference_junction";
  static const std::string kStandard = insertInto("draft_standard", "site, draft, id, standard");
  const bool isNew = draft.id == 0;
  if (!isNew) {
    needDraft(connection, site, draft.id);
    connection.query("DELETE FROM draft_standard WHERE site = $1 AND draft = $2").run(site, draft.id);
  }
  const std::int64_t id = isNew ? nextDraft(connection, site) : draft.id;
  const Conditions& conditions = draft.conditions;
  const auto person = optionalKeyOf(keys.people, "person", draft.person);
  connection.query(kDraft).run(site, id, keyOf(keys.channels, "channel", draft.channel),
                               stored(draft.subject), person, stored(draft.started), draft.setupVersion,
                               conditions.temperature, conditions.humidity, conditions.note,
                               draft.cautionsConfirmed, draft.adjustment.adjusted, draft.adjustment.repaired,
                               draft.adjustment.text, draft.remarks, conditions.referenceJunction);
  std::int64_t position = 0;
  for (const std::string& serial : draft.standards) {
    connection.query(kStandard).run(site, id, ++position, keyOf(keys.standards, "standard", serial));
  }
  return id;
}

void writeDraftValue(Connection& connection, std::string_view site, std::int64_t draft,
                     const DraftValue& value) {
  needDraft(connection, site, draft);
  connection
      .query(
          "INSERT INTO draft_value (site, draft, phase, sequence, applied_text, indicated_text, skip_reason) "
          "VALUES ($1, $2, $3, $4, $5, $6, $7) ON CONFLICT (site, draft, phase, sequence) DO UPDATE SET "
          "applied_text = excluded.applied_text, indicated_text = excluded.indicated_text, "
          "skip_reason = excluded.skip_reason")
      .run(site, draft, stored(value.phase), value.sequence, value.appliedText, value.indicatedText,
           value.skipReason);
}

std::vector<Draft> readDrafts(Connection& connection, std::string_view site, std::optional<std::int64_t> id) {
  Query row = connection.query(
      "SELECT d.id, h.tag, d.subject, p.login, d.started, d.setup_version, d.temperature, d.humidity, "
      "d.conditions_note, d.cautions_confirmed, d.adjusted, d.repaired, d.adjustment, d.remarks, "
      "d.reference_junction FROM draft d "
      "JOIN channel h ON h.site = d.site AND h.id = d.channel "
      "LEFT JOIN person p ON p.site = d.site AND p.id = d.person "
      "WHERE d.site = $1 AND d.id = coalesce($2, d.id) ORDER BY d.id");
  row.bind(site, id);
  std::vector<Draft> drafts;
  while (row.step()) {
    Draft d;
    d.id = row.integer(0);
    d.channel = row.text(1);
    d.subject = subjectAt(row, 2);
    d.person = row.text(3);
    d.started = momentAt(row, 4);
    d.setupVersion = row.smallInteger(5);
    d.conditions = {row.optionalReal(6), row.optionalReal(7), row.text(8), row.optionalReal(14)};
    d.cautionsConfirmed = row.flag(9);
    d.adjustment = {row.flag(10), row.flag(11), row.text(12)};
    d.remarks = row.text(13);
    readDraftParts(connection, site, d);
    drafts.push_back(std::move(d));
  }
  return drafts;
}

void deleteDraft(Connection& connection, std::string_view site, std::int64_t id) {
  connection.query("DELETE FROM draft WHERE site = $1 AND id = $2").run(site, id);  // its parts go with it
}

}  // namespace spanwright
