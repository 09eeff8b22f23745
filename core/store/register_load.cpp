// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <map>

#include "core/store/register_rows.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

/// Reads the lists in the order they were written. Rows of a list come before the rows that belong to them.
class RegisterLoader {
 public:
  explicit RegisterLoader(Connection& connection) : connection_(connection) {}

  LoadedRegister load() {
    // One query stays open from first to last, so that all of them see the record at the same moment.
    Query moment = connection_.query("SELECT register_revision FROM site");
    if (!moment.bind().step()) {
      moment.damaged("it describes no site");
    }
    loaded_.revision = moment.integer(0);
    loadSite();
    loadPlaces();
    loadPeople();
    loadStandards();
    loadRanges();
    loadStandardEvents();
    loadSensors();
    loadPlans();
    loadIntervals();
    loadChannels();
    loadSetups();
    loadFittings();
    loadRoutines();
    loadAcceptedIntervals();
    loaded_.site.index();
    return std::move(loaded_);
  }

 private:
  using Names = std::unordered_map<std::int64_t, std::string>;

  void loadSite() {
    Query row = connection_.query(
        "SELECT name, address, issuer, issuer_address, customer, customer_contact, note, due_date_agreed, "
        "working_weekdays, due_soon_days, grace_days, code, early_days FROM site");
    if (!row.bind().step()) {
      row.damaged("it describes no site");
    }
    SiteInfo& s = site().site;
    s.name = row.text(0);
    s.address = linesAt(row, 1);
    s.issuer = row.text(2);
    s.issuerAddress = linesAt(row, 3);
    s.customer = row.text(4);
    s.customerContact = row.text(5);
    s.note = row.text(6);
    s.dueDateAgreed = row.flag(7);
    site().calendar.workingWeekdays = numbersAt(row, 8);
    site().calendar.dueSoonDays = row.smallInteger(9);
    site().calendar.graceDays = row.smallInteger(10);
    s.code = row.text(11);
    site().calendar.earlyDays = row.smallInteger(12);
    if (row.step()) {
      row.damaged("it describes more than one site");
    }
    Query closed =
        connection_.query("SELECT first_day, last_day, name FROM closed_days WHERE site = $1 ORDER BY id");
    closed.bind(code());
    while (closed.step()) {
      site().calendar.closed.push_back({dateAt(closed, 0), dateAt(closed, 1), closed.text(2)});
    }
  }

  void loadPlaces() {
    Query row = connection_.query(
        "SELECT p.id, p.path, p.name, q.path, p.walking_order FROM place p "
        "LEFT JOIN place q ON q.site = p.site AND q.id = p.parent WHERE p.site = $1 ORDER BY p.id");
    row.bind(code());
    while (row.step()) {
      places_.emplace(row.integer(0), row.text(1));
      site().places.push_back({row.text(1), row.text(2), row.text(3), row.smallInteger(4)});
    }
  }

  void loadPeople() {
    std::unordered_map<std::int64_t, std::size_t> people;
    Query row = connection_.query(
        "SELECT id, login, name, roles, left_on, hours_per_week FROM person WHERE site = $1 ORDER BY id");
    row.bind(code());
    while (row.step()) {
      Person person{row.text(1), row.text(2), rolesAt(row, 3), {}, row.optionalReal(5)};
      if (!row.isNull(4)) {
        person.leftOn = dateAt(row, 4);
      }
      loaded_.keys.people.emplace(person.login, row.integer(0));
      people.emplace(row.integer(0), site().people.size());
      site().people.push_back(std::move(person));
    }
    Query away = connection_.query(
        "SELECT person, first_day, last_day, name FROM person_away WHERE site = $1 ORDER BY person, id");
    away.bind(code());
    while (away.step()) {
      const auto person = people.find(away.integer(0));
      if (person == people.end()) {
        away.damaged("days away belong to no person");
      }
      site().people[person->second].away.push_back({dateAt(away, 1), dateAt(away, 2), away.text(3)});
    }
  }

  void loadStandards() {
    Query row = connection_.query(
        "SELECT id, serial, maker, model, description, location FROM standard WHERE site = $1 ORDER BY id");
    row.bind(code());
    while (row.step()) {
      loaded_.keys.standards.emplace(row.text(1), row.integer(0));
      standards_.emplace(row.integer(0), site().standards.size());
      site().standards.push_back({row.text(1), row.text(2), row.text(3), row.text(4), row.text(5), {}, {}});
    }
    Query certificates = connection_.query(
        "SELECT standard, id, number, issuer, traceability, issued, valid_from, valid_until, coverage_factor "
        "FROM standard_certificate WHERE site = $1 ORDER BY standard, valid_from, id");
    certificates.bind(code());
    while (certificates.step()) {
      auto& list = standardOf(certificates, certificates.integer(0)).certificates;
      certificates_[{certificates.integer(0), certificates.integer(1)}] = list.size();
      list.push_back({certificates.text(2),
                      certificates.text(3),
                      certificates.text(4),
                      dateAt(certificates, 5),
                      dateAt(certificates, 6),
                      dateAt(certificates, 7),
                      certificates.real(8),
                      {}});
    }
  }

  void loadStandardEvents() {
    Query row = connection_.query(
        "SELECT e.standard, e.id, e.act, e.first_day, e.last_day, p.login, e.at_utc, e.reason, e.key, "
        "e.signature "
        "FROM standard_event e JOIN person p ON p.site = e.site AND p.id = e.person WHERE e.site = $1 ORDER "
        "BY e.id");
    row.bind(code());
    while (row.step()) {
      Standard& standard = standardOf(row, row.integer(0));
      const auto act = parseStandardAct(row.textView(2));
      if (!act) {
        row.damaged(fmt::format("\"{}\" happens to no standard", row.text(2)));
      }
      standard.events.push_back({row.integer(1), standard.serial, *act, dateAt(row, 3), dateAt(row, 4),
                                 row.text(5), utcAt(row, 6), row.text(7), row.integer(8), row.bytes(9)});
    }
  }

  void loadRanges() {
    Query row = connection_.query(
        "SELECT r.standard, r.certificate, r.id, r.unit, r.resolution, p.nominal, p.error, p.uncertainty "
        "FROM standard_range r LEFT JOIN standard_point p ON p.site = r.site AND p.standard = r.standard AND "
        "p.certificate = r.certificate AND p.range = r.id WHERE r.site = $1 "
        "ORDER BY r.standard, r.certificate, r.id, p.id");
    row.bind(code());
    while (row.step()) {
      Standard& standard = standardOf(row, row.integer(0));
      const auto found = certificates_.find({row.integer(0), row.integer(1)});
      if (found == certificates_.end()) {
        row.damaged("a range belongs to no certificate");
      }
      auto& ranges = standard.certificates[found->second].ranges;
      if (static_cast<std::int64_t>(ranges.size()) < row.integer(2)) {
        ranges.push_back({unitAt(row, 3), row.real(4), {}});
      }
      if (!row.isNull(5)) {
        ranges.back().points.push_back({row.real(5), row.real(6), row.real(7)});
      }
    }
  }

  void loadSensors() {
    const auto count = static_cast<std::size_t>(connection_.integer("SELECT count(*) FROM sensor"));
    site().sensors.reserve(count);
    loaded_.keys.sensors.reserve(count);
    sensors_.reserve(count);
    Query row = connection_.query(
        "SELECT id, serial, maker, model, description, range FROM sensor WHERE site = $1 ORDER BY id");
    row.bind(code());
    while (row.step()) {
      loaded_.keys.sensors.emplace(row.text(1), row.integer(0));
      sensors_.emplace(row.integer(0), row.text(1));
      auto known = ranges_.find(row.textView(5));
      if (known == ranges_.end()) {
        known = ranges_.emplace(row.text(5), sensorRangeAt(row, 5)).first;
      }
      site().sensors.push_back({row.text(1), row.text(2), row.text(3), row.text(4), known->second});
    }
  }

  void loadPlans() {
    Query row = connection_.query(
        "SELECT id, code, revision, title, procedure, scheme, tolerance, adjust_limit, decision_rule, "
        "cautions, "
        "settle_seconds, minutes, junction_uncertainty, lead_half_width FROM plan WHERE site = $1 ORDER BY "
        "id");
    row.bind(code());
    while (row.step()) {
      plans_.emplace(row.integer(0), row.text(1));
      site().plans.push_back({row.text(1), row.text(2), row.text(3), row.text(4), testSchemeAt(row, 5),
                              toleranceAt(row, 6), row.real(7), decisionRuleAt(row, 8), linesAt(row, 9),
                              row.real(10), row.real(11), row.optionalReal(12), row.optionalReal(13)});
    }
  }

  void loadIntervals() {
    Query row = connection_.query(
        "SELECT id, code, policy, days, months, minimum_days, maximum_days, lengthen, shorten, target, "
        "confidence, least_outcomes FROM interval_policy WHERE site = $1 ORDER BY id");
    row.bind(code());
    while (row.step()) {
      const auto kind = parsePolicyKind(row.textView(2));
      if (!kind) {
        row.damaged(fmt::format("\"{}\" is no policy for intervals", row.text(2)));
      }
      intervals_.emplace(row.integer(0), row.text(1));
      loaded_.keys.intervals.emplace(row.text(1), row.integer(0));
      site().intervals.push_back({row.text(1), *kind, row.smallInteger(3), row.smallInteger(4),
                                  row.smallInteger(5), row.smallInteger(6), row.real(7), row.real(8),
                                  row.real(9), row.real(10), row.smallInteger(11)});
    }
  }

  void loadChannels() {
    const auto count = static_cast<std::size_t>(connection_.integer("SELECT count(*) FROM channel"));
    site().channels.reserve(count);
    loaded_.keys.channels.reserve(count);
    channels_.reserve(count);
    Query row = connection_.query(
        "SELECT id, tag, place, terminal, title, retired FROM channel WHERE site = $1 ORDER BY id");
    row.bind(code());
    while (row.step()) {
      loaded_.keys.channels.emplace(row.text(1), row.integer(0));
      channels_.emplace(row.integer(0), site().channels.size());
      Channel channel;
      channel.tag = row.text(1);
      channel.place = nameOf(row, 2, places_);
      channel.terminal = row.text(3);
      channel.title = row.text(4);
      channel.retired = row.flag(5);
      site().channels.push_back(std::move(channel));
    }
  }

  void loadSetups() {
    Query row = connection_.query(
        "SELECT channel, version, in_force_from, kind, parameters, filter_seconds, remark FROM channel_setup "
        "WHERE site = $1 ORDER BY channel, version");
    row.bind(code());
    while (row.step()) {
      // The kind is the first word, so that no parameters of another kind can be taken for these.
      std::string written = fmt::format("{} {}", row.textView(3), row.textView(4));
      auto known = setups_.find(written);
      if (known == setups_.end()) {
        known = setups_.emplace(std::move(written), setupAt(row, 3, 4)).first;
      }
      channelOf(row).setups.push_back(
          {row.smallInteger(1), momentAt(row, 2), {known->second, row.real(5)}, row.text(6)});
    }
  }

  void loadFittings() {
    Query row = connection_.query(
        "SELECT channel, sensor, fitted_from, fitted_until FROM fitting WHERE site = $1 "
        "ORDER BY channel, fitted_from, id");
    row.bind(code());
    while (row.step()) {
      Fitting fitting{nameOf(row, 1, sensors_), momentAt(row, 2), {}};
      if (!row.isNull(3)) {
        fitting.until = momentAt(row, 3);
      }
      channelOf(row).fittings.push_back(std::move(fitting));
    }
  }

  void loadRoutines() {
    Query row = connection_.query(
        "SELECT channel, subject, plan, interval_policy FROM routine WHERE site = $1 ORDER BY channel, id");
    row.bind(code());
    while (row.step()) {
      channelOf(row).routines.push_back(
          {subjectAt(row, 1), nameOf(row, 2, plans_), nameOf(row, 3, intervals_)});
    }
  }

  void loadAcceptedIntervals() {
    Query row = connection_.query(
        "SELECT a.channel, a.id, a.subject, a.days, a.months, a.from_day, a.interval_policy, "
        "a.proposed_days, a.evidence, p.login, a.at_utc, a.reason FROM accepted_interval a JOIN person p ON "
        "p.site = a.site AND p.id = a.person WHERE a.site = $1 ORDER BY a.id");
    row.bind(code());
    while (row.step()) {
      AcceptedInterval accepted{row.integer(1),
                                subjectAt(row, 2),
                                row.smallInteger(3),
                                row.smallInteger(4),
                                dateAt(row, 5),
                                nameOf(row, 6, intervals_),
                                {},
                                row.text(8),
                                row.text(9),
                                utcAt(row, 10),
                                row.text(11)};
      if (!row.isNull(7)) {
        accepted.proposedDays = row.smallInteger(7);
      }
      channelOf(row).acceptedIntervals.push_back(std::move(accepted));
    }
  }

  Register& site() { return loaded_.site; }
  const std::string& code() const { return loaded_.site.site.code; }

  Channel& channelOf(const Query& row) {
    const auto found = channels_.find(row.integer(0));
    if (found == channels_.end()) {
      row.damaged("a row belongs to no channel");
    }
    return site().channels[found->second];
  }

  Standard& standardOf(const Query& row, std::int64_t id) {
    const auto found = standards_.find(id);
    if (found == standards_.end()) {
      row.damaged("a certificate belongs to no standard");
    }
    return site().standards[found->second];
  }

  /// "" for NULL.
  static std::string nameOf(const Query& row, int column, const Names& names) {
    if (row.isNull(column)) {
      return {};
    }
    const auto found = names.find(row.integer(column));
    if (found == names.end()) {
      row.damaged("a row refers to one that is not there");
    }
    return found->second;
  }

  Connection& connection_;
  LoadedRegister loaded_;
  Names places_, sensors_, plans_, intervals_;
  // Setups and ranges as they are written, each read once: a site has many channels and few kinds of them.
  std::map<std::string, SetupKind, std::less<>> setups_;
  std::map<std::string, SensorRange, std::less<>> ranges_;
  std::unordered_map<std::int64_t, std::size_t> channels_, standards_;
  std::map<std::pair<std::int64_t, std::int64_t>, std::size_t> certificates_;
};

}  // namespace

LoadedRegister loadRegister(Connection& connection) {
  return RegisterLoader(connection).load();
}

std::int64_t registerRevision(Connection& connection) {
  return connection.integer("SELECT register_revision FROM site");
}

}  // namespace spanwright
