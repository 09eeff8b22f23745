// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/standards.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>

namespace spanwright {
namespace {

StandardStatus statusOf(const Standard& standard, const CalendarRules& calendar, Date day) {
  StandardStatus status;
  status.standard = &standard;
  status.certificate = certificateOn(standard, day);
  if (status.certificate != nullptr) {
    const Date end(boost::gregorian::max_date_time);
    Date last = status.certificate->validUntil;
    while (last < end) {
      const StandardCertificate* next = certificateOn(standard, last + boost::gregorian::days(1));
      if (next == nullptr) {
        break;
      }
      last = next->validUntil;
    }
    status.lastDay = last;
    status.daysLeft = static_cast<int>((last - day).days());
    status.state =
        status.daysLeft <= calendar.dueSoonDays ? StandardState::expiresSoon : StandardState::valid;
    return status;
  }
  for (const StandardCertificate& certificate : standard.certificates) {
    if (certificate.validUntil < day && (!status.lastDay || *status.lastDay <= certificate.validUntil)) {
      status.certificate = &certificate;
      status.lastDay = certificate.validUntil;
      status.daysLeft = static_cast<int>((certificate.validUntil - day).days());
      status.state = StandardState::expired;
    }
  }
  return status;
}

}  // namespace

std::string_view text(StandardState state) {
  switch (state) {
    case StandardState::valid:
      return "valid";
    case StandardState::expiresSoon:
      return "expires soon";
    case StandardState::expired:
      return "expired";
    case StandardState::useAllowed:
      return "use allowed";
    case StandardState::outOfService:
      return "out of service";
    case StandardState::noCertificate:
      break;
  }
  return "no certificate yet";
}

std::vector<StandardStatus> standardsOn(const Register& site, Date day) {
  std::vector<StandardStatus> all;
  all.reserve(site.standards.size());
  for (const Standard& standard : site.standards) {
    StandardStatus& status = all.emplace_back(statusOf(standard, site.calendar, day));
    if (const StandardUse use = standardUse(standard, day); use.event != nullptr) {
      status.decision = use.event;
      status.state = use.usable() ? StandardState::useAllowed : StandardState::outOfService;
    }
  }
  std::sort(all.begin(), all.end(), [](const StandardStatus& a, const StandardStatus& b) {
    return a.standard->serial < b.standard->serial;
  });
  return all;
}

std::vector<ChartedValue> certificateCharts(const Standard& standard, Date day) {
  std::vector<const StandardCertificate*> certificates;
  for (const StandardCertificate& certificate : standard.certificates) {
    if (certificate.issued <= day) {
      certificates.push_back(&certificate);
    }
  }
  std::stable_sort(certificates.begin(), certificates.end(),
                   [](const auto* a, const auto* b) { return a->issued < b->issued; });
  std::vector<Unit> units;  // in the order they appear
  std::map<std::pair<std::ptrdiff_t, double>, ChartedValue> inOrder;
  for (const StandardCertificate* certificate : certificates) {
    for (const CertificateRange& range : certificate->ranges) {
      auto unit = std::find(units.begin(), units.end(), range.unit);
      if (unit == units.end()) {
        unit = units.insert(units.end(), range.unit);
      }
      for (const CertificatePoint& point : range.points) {
        ChartedValue& value = inOrder[{unit - units.begin(), point.nominal}];
        value.unit = range.unit;
        value.nominal = point.nominal;
        value.certificates.push_back(certificate);
        value.errors.push_back(point.error);
      }
    }
  }
  std::vector<ChartedValue> charts;
  charts.reserve(inOrder.size());
  for (auto& [place, value] : inOrder) {
    value.chart = controlChart(value.errors);
    charts.push_back(std::move(value));
  }
  return charts;
}

}  // namespace spanwright
