// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <unordered_set>

#include "core/metrology/ruling.h"
#include "core/record/certificate_faults.h"
#include "core/record/register.h"

namespace spanwright {

namespace {

// A hundred years; anything longer is a slip, and the calendar ends some centuries on.
constexpr int kLongestMonths = 1200;
constexpr int kLongestDays = 36525;
constexpr int kHoursOfWeek = 168;

using Names = std::unordered_set<std::string_view>;

class Faults {
 public:
  explicit Faults(const Register& site) : site_(site) {}

  std::vector<std::string> all() {
    site();
    plans_ = names(site_.plans, &Plan::code, "plan");
    intervals_ = names(site_.intervals, &IntervalPolicy::code, "interval policy");
    sensors_ = names(site_.sensors, &Sensor::serial, "sensor");
    places_ = names(site_.places, &Place::path, "place");
    names(site_.people, &Person::login, "person");
    names(site_.standards, &Standard::serial, "standard");
    names(site_.channels, &Channel::tag, "channel");
    people();
    places();
    plans();
    intervals();
    sensors();
    standards();
    for (const Channel& channel : site_.channels) {
      this->channel(channel);
    }
    return std::move(faults_);
  }

 private:
  template <class... Args>
  void add(fmt::format_string<Args...> form, Args&&... args) {
    faults_.push_back(fmt::format(form, std::forward<Args>(args)...));
  }

  template <class Item, class Name>
  Names names(const std::vector<Item>& items, Name name, std::string_view kind) {
    Names seen;
    for (const Item& item : items) {
      if ((item.*name).empty()) {
        add("a {} has no name", kind);
      } else if (!seen.insert(item.*name).second) {
        add("the {} \"{}\" stands there twice", kind, item.*name);
      }
    }
    return seen;
  }

  void site() {
    const SiteInfo& info = site_.site;
    if (info.code.empty() || info.name.empty()) {
      add("the site has no code or no name");
    }
    const auto& days = site_.calendar.workingWeekdays;
    if (days.empty() || std::any_of(days.begin(), days.end(), [](int day) { return day < 0 || day > 6; })) {
      add("the calendar needs at least one working weekday, each from Sunday to Saturday");
    }
    for (const DayRange& closed : site_.calendar.closed) {
      if (closed.last < closed.first) {
        add("the closed days \"{}\" end before they begin", closed.name);
      }
    }
    const CalendarRules& calendar = site_.calendar;
    if (calendar.dueSoonDays < 0 || calendar.graceDays < 0 || calendar.earlyDays < 0) {
      add("due-soon, grace and early days must not be negative");
    }
  }

  void people() {
    for (const Person& person : site_.people) {
      if (person.hoursPerWeek) {
        if (!(*person.hoursPerWeek > 0.0 && *person.hoursPerWeek <= kHoursOfWeek)) {
          add("person \"{}\": the hours per week must be above 0 and at most {}", person.login, kHoursOfWeek);
        }
        if (std::find(person.roles.begin(), person.roles.end(), Role::technician) == person.roles.end()) {
          add("person \"{}\": has hours for calibrations and is no technician", person.login);
        }
      }
      for (const DayRange& away : person.away) {
        if (away.last < away.first) {
          add("person \"{}\": the days away \"{}\" end before they begin", person.login, away.name);
        }
      }
    }
  }

  void places() {
    for (const Place& place : site_.places) {
      if (!place.parentPath.empty() && !places_.contains(place.parentPath)) {
        add("the place \"{}\" lies in \"{}\", which is not described", place.path, place.parentPath);
      }
    }
  }

  void plans() {
    for (const Plan& plan : site_.plans) {
      if (const auto fault = toleranceFault(plan.tolerance)) {
        add("plan \"{}\": {}", plan.code, *fault);
      }
      for (std::size_t i = 0; i < plan.scheme.percents.size(); ++i) {
        const double percent = plan.scheme.percents[i];
        if (!std::isfinite(percent) || percent < -5.0 || percent > 105.0) {
          add("plan \"{}\": a test point must lie between -5 and 105 % of span", plan.code);
        }
        if (i > 0 && plan.scheme.percents[i - 1] >= percent) {
          add("plan \"{}\": the test points must rise without repeats", plan.code);
        }
      }
      if (plan.scheme.repeats < 1 || plan.scheme.repeats > 100) {
        add("plan \"{}\": repeats must be from 1 to 100", plan.code);
      }
      if (!(plan.adjustLimit > 0.0 && plan.adjustLimit <= 1.0)) {
        add("plan \"{}\": the adjust limit is a fraction of tolerance above 0, at most 1", plan.code);
      }
      if (const auto fault = planRuleFault(plan.decisionRule)) {
        add("plan \"{}\": {}", plan.code, *fault);
      }
      const auto unusable = [](const std::optional<double>& stated) {
        return stated && !(*stated > 0.0 && std::isfinite(*stated));
      };
      if (unusable(plan.junctionUncertainty)) {
        add("plan \"{}\": the uncertainty of the reference junction must be above zero K, or left out",
            plan.code);
      }
      if (unusable(plan.leadHalfWidth)) {
        add("plan \"{}\": the half-width of the leads must be above zero ohm, or left out", plan.code);
      }
    }
  }

  void intervals() {
    for (const IntervalPolicy& interval : site_.intervals) {
      if (interval.months <= 0 && interval.days <= 0) {
        add("interval policy \"{}\": needs months or days above zero", interval.code);
      }
      if (interval.months > kLongestMonths || interval.days > kLongestDays) {
        add("interval policy \"{}\": is longer than a hundred years", interval.code);
      }
      if (const auto fault = policyFault(interval)) {
        add("interval policy \"{}\": {}", interval.code, *fault);
      }
    }
  }

  void sensors() {
    for (const Sensor& sensor : site_.sensors) {
      for (const std::string& fault : sensorFaults(sensor.range)) {
        add("sensor \"{}\": {}", sensor.serial, fault);
      }
    }
  }

  void standards() {
    for (const Standard& standard : site_.standards) {
      Names numbers;
      for (const StandardCertificate& certificate : standard.certificates) {
        if (certificate.number.empty() || !numbers.insert(certificate.number).second) {
          add("standard \"{}\": a certificate number is missing or stands there twice", standard.serial);
        }
        for (const std::string& fault : certificateFaults(certificate)) {
          add("standard \"{}\", certificate \"{}\": {}", standard.serial, certificate.number, fault);
        }
      }
    }
  }

  void channel(const Channel& channel) {
    if (!places_.contains(channel.place)) {
      add("channel \"{}\": the place \"{}\" is not described", channel.tag, channel.place);
    }
    if (channel.setups.empty()) {
      add("channel \"{}\": has no setup", channel.tag);
    }
    for (std::size_t i = 0; i < channel.setups.size(); ++i) {
      for (const std::string& fault : setupFaults(channel.setups[i].setup)) {
        add("channel \"{}\", setup {}: {}", channel.tag, i + 1, fault);
      }
      if (i > 0 && channel.setups[i].inForceFrom <= channel.setups[i - 1].inForceFrom) {
        add("channel \"{}\", setup {}: is not later than the one before it", channel.tag, i + 1);
      }
    }
    fittings(channel);
    routines(channel);
  }

  void fittings(const Channel& channel) {
    const Fitting* before = nullptr;
    for (const Fitting& fitting : channel.fittings) {
      if (!sensors_.contains(fitting.sensor)) {
        add("channel \"{}\": the sensor \"{}\" is not described", channel.tag, fitting.sensor);
      }
      if (fitting.until && *fitting.until <= fitting.from) {
        add("channel \"{}\": sensor \"{}\" comes off before it is fitted", channel.tag, fitting.sensor);
      }
      if (before && (!before->until || fitting.from < *before->until)) {
        add("channel \"{}\": sensor \"{}\" is fitted while \"{}\" still is", channel.tag, fitting.sensor,
            before->sensor);
      }
      before = &fitting;
    }
  }

  void routines(const Channel& channel) {
    std::set<Subject> seen;
    for (const Routine& routine : channel.routines) {
      if (!seen.insert(routine.subject).second) {
        add("channel \"{}\": two routines for the same subject \"{}\"", channel.tag, text(routine.subject));
      }
      if (!plans_.contains(routine.plan)) {
        add("channel \"{}\": the plan \"{}\" is not described", channel.tag, routine.plan);
      }
      if (!intervals_.contains(routine.interval)) {
        add("channel \"{}\": the interval policy \"{}\" is not described", channel.tag, routine.interval);
      }
      if (routine.subject != Subject::channel && channel.fittings.empty()) {
        add("channel \"{}\": a {} routine needs a sensor fitted", channel.tag, text(routine.subject));
      }
    }
  }

  const Register& site_;
  std::vector<std::string> faults_;
  Names plans_, intervals_, sensors_, places_;
};

}  // namespace

std::vector<std::string> certificateFaults(const StandardCertificate& certificate) {
  std::vector<std::string> faults;
  if (certificate.validUntil < certificate.validFrom) {
    faults.emplace_back("valid until before it is valid from");
  }
  if (!(certificate.coverageFactor >= 1.0)) {
    faults.emplace_back("the coverage factor must be at least 1");
  }
  for (const CertificateRange& range : certificate.ranges) {
    const bool rising = std::is_sorted(range.points.begin(), range.points.end(),
                                       [](const auto& a, const auto& b) { return a.nominal < b.nominal; });
    const bool usable = std::all_of(range.points.begin(), range.points.end(), [](const CertificatePoint& p) {
      return std::isfinite(p.nominal) && std::isfinite(p.error) && std::isfinite(p.uncertainty) &&
             p.uncertainty > 0.0;
    });
    if (range.points.empty() || !rising || !usable) {
      faults.emplace_back("a range needs rising points, each with an uncertainty above zero");
    }
  }
  return faults;
}

std::optional<std::string> policyFault(const IntervalPolicy& policy) {
  const int low = policy.minimumDays, high = policy.maximumDays;
  if (low < 0 || high < 0 || high > kLongestDays || (high > 0 && high < low)) {
    return "its limits are negative, too long, or the upper one is below the lower one";
  }
  if (policy.kind != PolicyKind::fixed && (low == 0 || high == 0)) {
    return fmt::format("a {} policy needs a lower and an upper limit", text(policy.kind));
  }
  // A month has 28 to 31 days; only what no month can meet is refused.
  const double days = policy.months > 0 ? policy.months * (365.25 / 12.0) : policy.days;
  if ((high > 0 && std::floor(days) > high) || std::ceil(days) < low) {
    return "the interval to start with lies outside its limits";
  }
  if (policy.kind == PolicyKind::staircase && !(policy.lengthen > 1.0 && policy.lengthen <= kLongestStep &&
                                                policy.shorten > 0.0 && policy.shorten < 1.0)) {
    return fmt::format("a step up is a factor above 1 and at most {}, a step down one between 0 and 1",
                       kLongestStep);
  }
  if (policy.kind == PolicyKind::reliability &&
      !(policy.target > 0.0 && policy.target < 1.0 && policy.confidence > 0.0 && policy.confidence < 1.0 &&
        policy.leastOutcomes >= 1)) {
    return "target and confidence are probabilities above 0 and below 1, and at least one outcome is needed";
  }
  return std::nullopt;
}

std::vector<std::string> registerFaults(const Register& site) {
  return Faults(site).all();
}

}  // namespace spanwright
