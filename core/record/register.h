// SPDX-License-Identifier: GPL-3.0-or-later
//
// A site's register: everything that is described rather than measured. The same structure is what a site
// file says, what the store keeps and what every task is handed. Things refer to each other by the names
// people use (tag, serial, code, login); the store turns those into keys.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/metrology/decision.h"
#include "core/metrology/test_points.h"
#include "core/metrology/tolerance.h"
#include "core/record/problem.h"
#include "core/signal/setup.h"
#include "core/units/time.h"

namespace spanwright {

struct SiteInfo {
  std::string code;  ///< short, used in certificate numbers
  std::string name;
  std::vector<std::string> address;
  std::string issuer;  ///< who issues the certificates
  std::vector<std::string> issuerAddress;
  std::string customer;  ///< for whom
  std::string customerContact;
  std::string note;            ///< for instance that the site is invented; printed on every certificate
  bool dueDateAgreed = false;  ///< due date may be printed on certificates (ISO/IEC 17025 7.8.4.3)
};

/// A node of the tree area / cabinet / station. `path` is its full name, parts joined by " / ".
struct Place {
  std::string path;
  std::string name;        ///< last part
  std::string parentPath;  ///< empty for a root
  int order = 0;           ///< walking order within the parent
};

/// First and last day, both in it.
struct DayRange {
  Date first;
  Date last;
  std::string name;
};

enum class Role { technician, planner, reviewer, administrator };
struct Person {
  std::string login;
  std::string name;
  std::vector<Role> roles;
  std::optional<Date> leftOn;
  /// For calibrations, in a week without days off; nothing: visits are not planned for them. Technicians
  /// only.
  std::optional<double> hoursPerWeek = {};
  std::vector<DayRange> away = {};  ///< beside the site's closed days
};

struct CertificatePoint {
  double nominal = 0.0;
  double error = 0.0;        ///< standard's indication (or output) minus true value, in the range's unit
  double uncertainty = 0.0;  ///< expanded, in the range's unit
};
/// One range of a standard's certificate.
struct CertificateRange {
  Unit unit = Unit::none;
  double resolution = 0.0;
  std::vector<CertificatePoint> points;  ///< ascending nominal
};
struct StandardCertificate {
  std::string number;
  std::string issuer;
  std::string traceability;  ///< "to the SI through ..." in words
  Date issued;
  Date validFrom;
  Date validUntil;  ///< last day it may be used
  double coverageFactor = 2.0;
  std::vector<CertificateRange> ranges;
};
enum class StandardAct { outOfService, backInService, useAllowed };
/// What was decided about a standard, signed by a person (ISO/IEC 17025:2017 6.4.9).
struct StandardEvent {
  std::int64_t id = 0;   ///< 0 until stored
  std::string standard;  ///< serial
  StandardAct act = StandardAct::outOfService;
  Date firstDay;
  Date lastDay;  ///< useAllowed: the last day on which it may be used without a valid certificate
  std::string person;
  Moment atUtc;  ///< whole seconds
  std::string reason;
  std::int64_t key = 0;
  std::string signature;
};
struct Standard {
  std::string serial;
  std::string maker, model, description;
  std::string location;
  std::vector<StandardCertificate> certificates;  ///< by validFrom
  std::vector<StandardEvent> events = {};         ///< in the order they were decided
};

struct Sensor {
  std::string serial;
  std::string maker, model, description;
  SensorRange range;
};

struct Plan {
  std::string code;
  std::string revision;
  std::string title;
  std::string procedure;  ///< the method and its revision, printed on the certificate
  TestScheme scheme;
  Tolerance tolerance;
  double adjustLimit = 0.7;   ///< fraction of tolerance above which adjusting is advised
  DecisionRule decisionRule;  ///< one that planRuleFault takes
  std::vector<std::string> cautions;
  double settleSeconds = 0.0;
  double minutes = 30.0;  ///< working time of one visit
  /// Expanded uncertainty (k = 2) of the temperature that the reference junction is taken to have when mV are
  /// applied or measured, K; nothing: not stated, and not in the budget.
  std::optional<double> junctionUncertainty{};
  /// Half-width of what leads may add to a resistance applied or measured, after any correction, ohm;
  /// rectangular (GUM 4.3.7). Nothing: not stated.
  std::optional<double> leadHalfWidth{};
};

/// What makes a policy propose another interval (core/schedule/proposal.h says how).
enum class PolicyKind { fixed, staircase, reliability, forecast };

/// How often: the interval to start with, `months` when positive, else `days`, and how another is proposed.
struct IntervalPolicy {
  std::string code;
  PolicyKind kind = PolicyKind::fixed;
  int days = 0;
  int months = 0;
  /// Of what is proposed and accepted; 0: none, which only a fixed policy may have.
  int minimumDays = 0, maximumDays = 0;
  double lengthen = 0.0, shorten = 0.0;  ///< staircase: factors of a step up (above 1) and down (below 1)
  double target = 0.0;                   ///< reliability: probability to be found in tolerance, below 1
  double confidence = 0.0;               ///< reliability: of the limits of the estimate
  int leastOutcomes = 0;                 ///< reliability: with fewer outcomes nothing is proposed
};

/// An interval that a person accepted for one subject of a channel; in force from its day on instead of the
/// policy's own, until the next.
struct AcceptedInterval {
  std::int64_t id = 0;  ///< 0 until stored
  Subject subject = Subject::channel;
  int days = 0;    ///< this or `months`
  int months = 0;  ///< same day of the month
  Date fromDay;
  std::string policy;               ///< code of the policy in force then
  std::optional<int> proposedDays;  ///< what it proposed; nothing when it had no proposal
  std::string evidence;             ///< its words then
  std::string person;               ///< login
  Moment atUtc;                     ///< whole seconds
  std::string reason;
};

struct SetupVersion {
  int version = 0;  ///< 1.. per channel
  Moment inForceFrom;
  ChannelSetup setup;
  std::string remark;  ///< why it was changed
};
struct Fitting {
  std::string sensor;  ///< serial
  Moment from;
  std::optional<Moment> until;
};
/// What is calibrated on a channel, by which plan, how often.
struct Routine {
  Subject subject = Subject::channel;
  std::string plan;
  std::string interval;
};
struct Channel {
  std::string tag;
  std::string place;  ///< path
  std::string terminal;
  std::string title;
  std::vector<SetupVersion> setups;  ///< by inForceFrom
  std::vector<Fitting> fittings;
  std::vector<Routine> routines;  ///< at most one per subject
  bool retired = false;
  std::vector<AcceptedInterval> acceptedIntervals = {};  ///< in the order accepted, each from a day not
                                                         ///< before the last one's of the same subject
};

/// Weekdays as site files, forms' fields and commands name them; 0 Sunday .. 6 Saturday.
inline constexpr std::array<std::string_view, 7> kWeekdayCodes{"sun", "mon", "tue", "wed",
                                                               "thu", "fri", "sat"};

struct CalendarRules {
  std::vector<int> workingWeekdays{1, 2, 3, 4, 5};  ///< 0 Sunday .. 6 Saturday
  std::vector<DayRange> closed;                     ///< holidays and shutdowns
  int dueSoonDays = 30;
  int graceDays = 14;  ///< after the due day: late, not yet overdue
  int earlyDays = 30;  ///< before the due day: so early a visit may be planned. It counts from the day it is
                       ///< made, so that no proof ever lasts longer than its interval
};

struct Register {
  SiteInfo site;
  CalendarRules calendar;
  std::vector<Place> places;
  std::vector<Person> people;
  std::vector<Standard> standards;
  std::vector<Sensor> sensors;
  std::vector<Plan> plans;
  std::vector<IntervalPolicy> intervals;
  std::vector<Channel> channels;

  const Channel* channel(std::string_view tag) const;
  const Sensor* sensor(std::string_view serial) const;
  const Standard* standard(std::string_view serial) const;
  const Plan* plan(std::string_view code) const;
  const IntervalPolicy* interval(std::string_view code) const;
  const Person* person(std::string_view login) const;

  /// Builds the look-up tables; call after filling or changing the lists. Without it look-ups search
  /// linearly.
  void index();

 private:
  struct Index;
  std::shared_ptr<const Index> index_;
};

/// The setup in force on the channel at `when`, or nullptr before its first.
const SetupVersion* setupInForce(const Channel& channel, Moment when);
/// The sensor's fitting on the channel at `when`, or nullptr.
const Fitting* fittingAt(const Channel& channel, Moment when);
const Routine* routineFor(const Channel& channel, Subject subject);
/// The interval accepted last for the subject that is in force on `day`, or nullptr: the policy's holds.
const AcceptedInterval* acceptedInterval(const Channel& channel, Subject subject, Date day);
/// The certificate valid on `day` (the newest of several), or nullptr.
const StandardCertificate* certificateOn(const Standard& standard, Date day);

/// The certificate that vouches for the standard on `day`: valid that day, or the last one before when a
/// reviewer allowed its use; nullptr when there is none. Whether the standard was in service is not asked:
/// what was measured with it is recomputed all the same.
const StandardCertificate* vouchingCertificate(const Standard& standard, Date day);

/// May the standard be used on `day`, and on the strength of which certificate?
struct StandardUse {
  const StandardCertificate* certificate = nullptr;  ///< valid that day, or the last one before when allowed
  bool allowed = false;                  ///< not valid that day, but a reviewer allowed it: see `event`
  const StandardEvent* event = nullptr;  ///< what takes it out of service, or allows its use
  bool usable() const { return certificate != nullptr; }
};
/// Out of service: not usable, whatever its certificates say. Without a valid certificate: usable only on
/// days a reviewer allowed, with the last certificate that was valid before.
StandardUse standardUse(const Standard& standard, Date day);

/// The longest step a staircase may take; anything more is a slip.
inline constexpr double kLongestStep = 4.0;
/// Why the policy's limits and numbers cannot be used, or nothing.
std::optional<std::string> policyFault(const IntervalPolicy& policy);

/// Everything that is wrong with the register as a whole: references to what is not there, names used twice,
/// setups out of order or impossible, overlapping fittings, tolerances that cannot be used. `where` of each
/// problem is empty; the site-file importer has its own positions.
std::vector<std::string> registerFaults(const Register& site);

/// The text that is signed, as of a LifeEvent.
std::string signedText(std::string_view site, const StandardEvent& event, std::string_view publicKey);

std::string_view text(StandardAct act);  // "out of service", "back in service", "use allowed"
std::optional<StandardAct> parseStandardAct(std::string_view text);
std::string_view text(PolicyKind kind);  // "fixed", "staircase", "reliability", "forecast"
std::optional<PolicyKind> parsePolicyKind(std::string_view text);
std::string_view text(Role role);
std::optional<Role> parseRole(std::string_view text);

}  // namespace spanwright
