// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>
#include <type_traits>

#include "samples.h"

namespace spanwright::test {

namespace {

/// Writes values one after another, each on a line.
class Listing {
 public:
  std::string take() { return std::move(text_); }

  void put(const std::string& value) { text_ += '"' + value + "\"\n"; }
  void put(double value) {
    char buffer[64];
    std::snprintf(buffer, sizeof buffer, "%a\n", value);
    text_ += buffer;
  }
  void put(bool value) { text_ += value ? "yes\n" : "no\n"; }
  void put(int value) { text_ += std::to_string(value) + "\n"; }
  void put(std::int64_t value) { text_ += std::to_string(value) + "\n"; }
  void put(Date value) { put(formatDate(value)); }
  void put(Moment value) { put(formatMoment(value)); }
  template <class E>
  requires std::is_enum_v<E>
  void put(E value) { put(static_cast<int>(value)); }
  template <class T>
  void put(const std::optional<T>& value) {
    value ? put(*value) : put(std::string("(none)"));
  }
  template <class T>
  void put(const std::vector<T>& values) {
    text_ += "[" + std::to_string(values.size()) + "]\n";
    for (const T& value : values) {
      put(value);
    }
  }
  template <class... Values>
  void all(const Values&... values) {
    (put(values), ...);
  }

  void put(const Span& v) {
    const auto& [low, high, unit] = v;
    all(low, high, unit);
  }
  void put(const ToleranceSide& v) {
    const auto& [a, b, c, d] = v;
    all(a, b, c, d);
  }
  void put(const Tolerance& v) {
    const auto& [plus, minus] = v;
    all(plus, minus);
  }
  void put(const AlarmLevels& v) {
    const auto& [a, b, c, d, e] = v;
    all(a, b, c, d, e);
  }
  void put(const ThresholdSetup& v) {
    const auto& [a, b, c, d] = v;
    all(a, b, c, d);
  }
  void put(const AnalogInputSetup& v) {
    const auto& [a, b, c, d, e, f, g, h, i] = v;
    all(a, b, c, d, e, f, g, h, i);
  }
  void put(const ThermocoupleSetup& v) {
    const auto& [a, b, c, d, e] = v;
    all(a, b, c, d, e);
  }
  void put(const RtdSetup& v) {
    const auto& [a, b, c, d, e, f] = v;
    all(a, b, c, d, e, f);
  }
  void put(const AnalogOutputSetup& v) {
    const auto& [a, b, c, d, e, f] = v;
    all(a, b, c, d, e, f);
  }
  void put(const DiscreteOutputSetup& v) {
    const auto& [a, b, c, d] = v;
    all(a, b, c, d);
  }
  void put(const ChannelSetup& v) {
    const auto& [kind, filter] = v;
    put(static_cast<int>(kind.index()));
    std::visit([this](const auto& k) { put(k); }, kind);
    put(filter);
  }
  void put(const SensorRange& v) {
    const auto& [a, b, c, d, e] = v;
    all(a, b, c, d, e);
  }
  void put(const TestScheme& v) {
    const auto& [a, b, c, d, e] = v;
    all(a, b, c, d, e);
  }
  void put(const SiteInfo& v) {
    const auto& [a, b, c, d, e, f, g, h, i] = v;
    all(a, b, c, d, e, f, g, h, i);
  }
  void put(const DayRange& v) {
    const auto& [a, b, c] = v;
    all(a, b, c);
  }
  void put(const CalendarRules& v) {
    const auto& [a, b, c, d, e] = v;
    all(a, b, c, d, e);
  }
  void put(const Place& v) {
    const auto& [a, b, c, d] = v;
    all(a, b, c, d);
  }
  void put(const Person& v) {
    const auto& [a, b, c, d, e, f] = v;
    all(a, b, c, d, e, f);
  }
  void put(const CertificatePoint& v) {
    const auto& [a, b, c] = v;
    all(a, b, c);
  }
  void put(const CertificateRange& v) {
    const auto& [a, b, c] = v;
    all(a, b, c);
  }
  void put(const StandardCertificate& v) {
    const auto& [a, b, c, d, e, f, g, h] = v;
    all(a, b, c, d, e, f, g, h);
  }
  void put(const StandardEvent& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j] = v;
    all(a, b, c, d, e, f, g, h, i, j);
  }
  void put(const Standard& v) {
    const auto& [a, b, c, d, e, f, g] = v;
    all(a, b, c, d, e, f, g);
  }
  void put(const Sensor& v) {
    const auto& [a, b, c, d, e] = v;
    all(a, b, c, d, e);
  }
  void put(const Population& v) {
    const auto& [a, b] = v;
    all(a, b);
  }
  void put(const DecisionRule& v) {
    const auto& [a, b, c, d, e] = v;
    all(a, b, c, d, e);
  }
  void put(const Plan& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m] = v;
    all(a, b, c, d, e, f, g, h, i, j, k, l, m);
  }
  void put(const IntervalPolicy& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j, k] = v;
    all(a, b, c, d, e, f, g, h, i, j, k);
  }
  void put(const SetupVersion& v) {
    const auto& [a, b, c, d] = v;
    all(a, b, c, d);
  }
  void put(const Fitting& v) {
    const auto& [a, b, c] = v;
    all(a, b, c);
  }
  void put(const Routine& v) {
    const auto& [a, b, c] = v;
    all(a, b, c);
  }
  void put(const AcceptedInterval& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j, k] = v;
    all(a, b, c, d, e, f, g, h, i, j, k);
  }
  void put(const Channel& v) {
    const auto& [a, b, c, d, e, f, g, h, i] = v;
    all(a, b, c, d, e, f, g, h, i);
  }
  void put(const TestPoint& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j] = v;
    all(a, b, c, d, e, f, g, h, i, j);
  }
  void put(const ErrorLimits& v) {
    const auto& [a, b] = v;
    all(a, b);
  }
  void put(const Reading& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m] = v;
    all(a, b, c, d, e, f, g, h, i, j, k, l, m);
  }
  void put(const UsedStandard& v) {
    const auto& [a, b] = v;
    all(a, b);
  }
  void put(const Conditions& v) {
    const auto& [a, b, c, d] = v;
    all(a, b, c, d);
  }
  void put(const Adjustment& v) {
    const auto& [a, b, c] = v;
    all(a, b, c);
  }
  void put(const Calibration& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, w] = v;
    all(a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, w);
  }
  void put(const CalibrationSummary& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m] = v;
    all(a, b, c, d, e, f, g, h, i, j, k, l, m);
  }
  void put(const DraftValue& v) {
    const auto& [a, b, c, d, e] = v;
    all(a, b, c, d, e);
  }
  void put(const Draft& v) {
    const auto& [a, b, c, d, e, f, g, h, i, j, k, l] = v;
    all(a, b, c, d, e, f, g, h, i, j, k, l);
  }

 private:
  std::string text_;
};

template <class T>
std::string listed(const T& value) {
  Listing listing;
  listing.put(value);
  return listing.take();
}

}  // namespace

std::string everything(const Register& site) {
  Listing listing;
  listing.all(site.site, site.calendar, site.places, site.people, site.standards, site.sensors, site.plans,
              site.intervals, site.channels);
  return listing.take();
}
std::string everything(const Calibration& calibration) {
  return listed(calibration);
}
std::string everything(const CalibrationSummary& summary) {
  return listed(summary);
}
std::string everything(const Draft& draft) {
  return listed(draft);
}

}  // namespace spanwright::test
