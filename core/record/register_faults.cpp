// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <unordered_set>

#include "core/record/certificate_faults.h"
#include "core/record/register.h"
#include "core/record/register_rules.h"

namespace spanwright {

namespace {

constexpr int kLongestDays = 36525;  // a hundred years

class Faults {
 public:
  explicit Faults(const Register& site) : site_(site) {}

  std::vector<std::string> all() {
    take({}, siteProblems(site_.site));
    take({}, calendarProblems(site_.calendar));
    names(site_.plans, &Plan::code, "plan");
    names(site_.intervals, &IntervalPolicy::code, "interval policy");
    names(site_.sensors, &Sensor::serial, "sensor");
    names(site_.places, &Place::path, "place");
    names(site_.people, &Person::login, "person");
    names(site_.standards, &Standard::serial, "standard");
    names(site_.channels, &Channel::tag, "channel");
    each(site_.people, &Person::login, "person", personProblems);
    places();
    each(site_.plans, &Plan::code, "plan", planProblems);
    each(site_.intervals, &IntervalPolicy::code, "interval policy", intervalProblems);
    each(site_.sensors, &Sensor::serial, "sensor", sensorProblems);
    standards();
    each(site_.channels, &Channel::tag, "channel",
         [this](const Channel& channel) { return channelProblems(channel, names_); });
    return std::move(faults_);
  }

 private:
  template <class... Args>
  void add(fmt::format_string<Args...> form, Args&&... args) {
    faults_.push_back(fmt::format(form, std::forward<Args>(args)...));
  }

  void take(std::string_view whose, const std::vector<Problem>& problems) {
    for (const Problem& problem : problems) {
      faults_.push_back(whose.empty() ? problem.what : fmt::format("{}: {}", whose, problem.what));
    }
  }

  template <class Item, class Name, class Judge>
  void each(const std::vector<Item>& items, Name name, std::string_view kind, Judge judge) {
    for (const Item& item : items) {
      if (!(item.*name).empty()) {  // one without is named by names()
        take(fmt::format("{} \"{}\"", kind, item.*name), judge(item));
      }
    }
  }

  template <class Item, class Name>
  void names(const std::vector<Item>& items, Name name, std::string_view kind) {
    std::unordered_set<std::string_view> seen;
    for (const Item& item : items) {
      if ((item.*name).empty()) {
        add("a {} has no name", kind);
      } else if (!seen.insert(item.*name).second) {
        add("the {} \"{}\" stands there twice", kind, item.*name);
      }
    }
  }

  void places() {
    for (const Place& place : site_.places) {
      take({}, placePathProblems(place.path));
      if (!place.parentPath.empty() && !names_.hasPlace(place.parentPath)) {
        add("the place \"{}\" lies in \"{}\", which is not described", place.path, place.parentPath);
      }
    }
  }

  void standards() {
    for (const Standard& standard : site_.standards) {
      std::unordered_set<std::string_view> numbers;
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

  const Register& site_;
  RegisterNames names_{site_};
  std::vector<std::string> faults_;
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
