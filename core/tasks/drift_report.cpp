// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <unordered_map>
#include <utility>

#include "core/metrology/evaluate.h"
#include "core/tasks/drift_backtest.h"
#include "core/tasks/drift_findings.h"
#include "core/tasks/drift_history.h"
#include "core/tasks/drift_parts.h"
#include "core/tasks/drift_pool.h"
#include "core/tasks/in_force.h"
#include "core/tasks/status.h"

namespace spanwright {

namespace {

constexpr int kForecastMonths = 120;

using SensorTable = std::unordered_map<std::string_view, const Sensor*>;

/// One routine of one channel as it stands now: what its points are and how they are judged.
struct SubjectNow {
  Subject subject = Subject::channel;
  InForce inForce;
  std::string sensor;  ///< as VisitMeans::sensor
  const SensorRange* range = nullptr;
  const Plan* plan = nullptr;
  PointModelPtr model;            ///< nullptr when there is no setup or sensor in force
  std::vector<TestPoint> points;  ///< one per key, in the plan's order
  std::string family;
};

PointModelPtr modelOf(const SubjectNow& now) {
  if (now.inForce.setup == nullptr || (now.subject != Subject::channel && now.range == nullptr)) {
    return nullptr;
  }
  switch (now.subject) {
    case Subject::channel:
      return channelModel(now.inForce.setup->setup);
    case Subject::sensor:
      return sensorModel(*now.range);
    case Subject::loop:
      return loopModel(now.inForce.setup->setup, *now.range);
  }
  return nullptr;
}

SubjectNow subjectNow(const Register& site, const SensorTable& sensors, const Channel& channel,
                      const Routine& routine, Date today) {
  SubjectNow now;
  now.subject = routine.subject;
  now.inForce = inForceOn(channel, routine.subject, today);
  now.plan = site.plan(routine.plan);
  if (now.inForce.fitting != nullptr) {
    now.sensor = now.inForce.fitting->sensor;
    const auto at = sensors.find(now.sensor);
    now.range = at == sensors.end() ? nullptr : &at->second->range;
  }
  now.model = modelOf(now);
  if (now.model == nullptr) {
    return now;
  }
  const ChannelSetup& setup = now.inForce.setup->setup;
  now.family = subjectFamily(now.subject, setup, now.range);
  if (now.plan == nullptr) {
    return now;
  }
  std::set<std::string> seen;
  for (TestPoint& point : layOutPoints(now.plan->scheme, *now.model,
                                       now.subject == Subject::sensor ? nullptr : &setup, now.subject)) {
    if (seen.insert(pointKey(point)).second) {
      now.points.push_back(std::move(point));
    }
  }
  return now;
}

/// A point that has history: by the plan in force, or else as it was last read.
struct FollowedPoint {
  std::string key;
  PointRole role = PointRole::value;
  double percent = 0.0;
  Unit unit = Unit::none;
  ErrorLimits limits;
};

const PointMean* lastMean(const std::vector<VisitMeans>& visits, std::string_view key) {
  for (auto visit = visits.rbegin(); visit != visits.rend(); ++visit) {
    const PointMean* mean = meanAt(visit->found, key);
    if (mean == nullptr) {
      mean = meanAt(visit->left, key);
    }
    if (mean != nullptr) {
      return mean;
    }
  }
  return nullptr;
}

FollowedPoint followed(const SubjectNow& now, const TestPoint& point, const PointMean& last) {
  FollowedPoint out{pointKey(point), point.role, point.percent, point.readingUnit, last.limits};
  const ChannelSetup* setup = now.subject == Subject::sensor ? nullptr : &now.inForce.setup->setup;
  const Evaluation expected =
      expectPoint(point, *now.model, setup, now.plan->tolerance, point.nominalApplied);
  if (const auto* result = std::get_if<PointResult>(&expected)) {
    out.limits = result->limits;
  }
  return out;
}

/// Points of the plan in force first, in its order, then those only the history knows.
std::vector<FollowedPoint> followedPoints(const SubjectNow& now, const std::vector<VisitMeans>& visits) {
  std::vector<FollowedPoint> out;
  std::set<std::string, std::less<>> seen;
  for (const TestPoint& point : now.points) {
    if (const PointMean* last = lastMean(visits, pointKey(point))) {
      out.push_back(followed(now, point, *last));
      seen.insert(out.back().key);
    }
  }
  for (auto visit = visits.rbegin(); visit != visits.rend(); ++visit) {  // the latest unit and limits win
    for (const auto* means : {&visit->found, &visit->left}) {
      for (const PointMean& mean : *means) {
        if (seen.insert(mean.key).second) {
          out.push_back({mean.key, mean.role, mean.percent, mean.unit, mean.limits});
        }
      }
    }
  }
  return out;
}

std::vector<Segment> segmentsInForce(const std::vector<Segment>& segments, const SubjectNow& now) {
  if (now.inForce.setup == nullptr) {
    return {};
  }
  auto first = segments.end();
  while (first != segments.begin() && std::prev(first)->setup == now.inForce.setup->version &&
         std::prev(first)->sensor == now.sensor) {
    --first;
  }
  return {first, segments.end()};
}

int visitsIn(const std::vector<Segment>& segments) {
  std::set<double> times;  // an adjusting visit stands at the end of one segment and the start of the next
  for (const Segment& segment : segments) {
    for (const DriftReading& reading : segment.readings) {
      times.insert(reading.time);
    }
  }
  return static_cast<int>(times.size());
}

Date dayAt(const DriftItem& item, double years, Date today) {
  return std::max(today, momentOf(item, years).date());
}

/// When line and band leave the tolerance, and how probable it is that they have not on the day asked.
void forecast(DriftItem& item, Date today) {
  if (!(item.limits.low <= item.limits.high) || (!item.band && !item.fit)) {
    return;
  }
  const DriftBand band = item.band ? *item.band : bandOf(*item.fit);
  const double lastRead = item.fitted.back().readings.back().time;
  const double from = std::max(yearsBetween(item.origin, Moment(today)), lastRead);
  const double until = yearsBetween(item.origin, Moment(addMonths(today, kForecastMonths)));
  if (const auto at = bandLeaves(band, item.limits.low, item.limits.high, from, until)) {
    item.bandOutOn = dayAt(item, *at, today);
  }
  if (const auto at = lineLeaves(band, item.limits.low, item.limits.high, from, until)) {
    item.lineOutOn = dayAt(item, *at, today);
  }
  item.inTolerance = probabilityWithin(band, from, item.limits.low, item.limits.high);
}

std::string areaOf(const Channel& channel) {
  const std::string area = channel.place.substr(0, channel.place.find('/'));
  return area.substr(0, area.find_last_not_of(' ') + 1);
}

/// Linear from end to end: then an error is the same part of every span it passes.
bool linear(const SubjectNow& now) {
  const auto* input = std::get_if<AnalogInputSetup>(&now.inForce.setup->setup.kind);
  const bool channel = input != nullptr && input->transfer == TransferKind::linear;
  const bool sensor =
      now.range != nullptr && now.range->output && now.range->transfer == TransferKind::linear;
  return (now.subject == Subject::sensor || channel) && (now.subject == Subject::channel || sensor);
}

PoolEntry entryAt(const Channel& channel, const SubjectNow& now, const std::vector<VisitMeans>& visits,
                  const FollowedPoint& point) {
  PoolEntry entry;
  DriftItem& item = entry.item;
  item.channel = channel.tag;
  item.subject = now.subject;
  item.point = point.key;
  item.unit = point.unit;
  item.limits = point.limits;
  if (point.role == PointRole::value) {
    item.pointPercent = point.percent;
  }
  PlanPoints plan;
  for (const TestPoint& planned : now.points) {
    if (planned.role == PointRole::value) {
      plan.emplace(pointKey(planned), planned.percent);
    }
  }
  PointHistory history = pointHistory(visits, point.key, point.unit, plan);
  if (history.segments.empty()) {
    // Read only in another unit, under an earlier setup: told in that one rather than not at all.
    item.unit = lastMean(visits, point.key)->unit;
    history = pointHistory(visits, point.key, item.unit, plan);
  }
  item.origin = history.origin;
  item.segments = std::move(history.segments);
  item.otherUnitVisits = history.otherUnitVisits;
  item.otherPlanVisits = history.otherPlanVisits;
  item.fitted = segmentsInForce(item.segments, now);
  item.calibrations = visitsIn(item.fitted);
  item.fit = fitDrift(item.fitted);
  if (item.fit) {
    item.rateTest = rateTest(*item.fit);
    item.influence = mostInfluential(item.fitted, *item.fit);
    item.growth = scatterGrowth(item.fitted);
  }
  entry.area = areaOf(channel);
  if (now.model != nullptr) {
    entry.family = now.family;
    entry.step = now.model->step();
    const double width = std::abs(now.model->readingSpan().width());
    const bool spanned = point.role == PointRole::value || point.role == PointRole::alarmTrip ||
                         point.role == PointRole::alarmReset;
    entry.spansCompared = spanned && width > 0.0;
    entry.scale = entry.spansCompared ? width : 1.0;
    entry.spanned = point.role == PointRole::value && width > 0.0 && linear(now);
  }
  return entry;
}

/// Goes through histories, channel by channel, and keeps only what comes of them.
class Report {
 public:
  Report(const Store& store, Date today, VisitEdit edit = {}, Progress progress = {})
      : site_(store.site()), today_(today), edit_(std::move(edit)), progress_(std::move(progress)) {
    for (const Sensor& sensor : site_.sensors) {
      sensors_.emplace(sensor.serial, &sensor);
    }
    for (std::size_t i = 0; i < site_.channels.size(); ++i) {
      order_.emplace(site_.channels[i].tag, i);
    }
  }

  std::set<std::string> families(const Channel& channel) const {
    std::set<std::string> out;
    for (const Routine& routine : channel.routines) {
      out.insert(subjectNow(site_, sensors_, channel, routine, today_).family);
    }
    out.erase("");
    return out;
  }

  void add(const Channel& channel, ChannelHistory& history) {
    for (const Routine& routine : channel.routines) {
      const auto visits = history.find(routine.subject);
      if (visits == history.end()) {
        continue;
      }
      if (edit_) {
        edit_(channel.tag, routine.subject, visits->second);
      }
      const SubjectNow now = subjectNow(site_, sensors_, channel, routine, today_);
      for (const FollowedPoint& point : followedPoints(now, visits->second)) {
        entries_.push_back(entryAt(channel, now, visits->second, point));
      }
    }
  }

  void addFrom(const Store& store, const Channel& channel) {
    ChannelHistory history;
    for (const Calibration& calibration : store.history(channel.tag)) {
      keep(history, calibration);
    }
    add(channel, history);
  }

  void addAll(const Store& store) {
    const double all =
        progress_ ? static_cast<double>(std::max<std::int64_t>(1, store.calibrationCount())) : 1.0;
    std::int64_t read = 0;
    std::string tag;
    ChannelHistory history;
    const auto close = [&] {
      const Channel* channel = history.empty() ? nullptr : site_.channel(tag);
      if (channel != nullptr && !channel->retired) {
        add(*channel, history);
      }
      history.clear();
    };
    store.forEachCalibration([&](const Calibration& calibration) {
      if (calibration.channel != tag) {
        close();
        tag = calibration.channel;
      }
      keep(history, calibration);
      if (++read % kProgressEvery == 0) {
        advance(kReadingShare * static_cast<double>(read) / all);
      }
      return true;
    });
    close();
  }

  std::vector<DriftItem> take(Pooling pooling, std::string_view only) {
    poolLikeSubjects(entries_, pooling);
    compareParts(entries_);
    std::size_t done = 0;
    for (PoolEntry& entry : entries_) {
      forecast(entry.item, today_);
      entry.item.findings = findingsOf(entry);
      if (++done % kProgressEvery == 0) {
        advance(kReadingShare +
                (1.0 - kReadingShare) * static_cast<double>(done) / static_cast<double>(entries_.size()));
      }
    }
    std::vector<DriftItem> items;
    for (PoolEntry& entry : entries_) {
      if (only.empty() || entry.item.channel == only) {
        items.push_back(std::move(entry.item));
      }
    }
    std::stable_sort(items.begin(), items.end(), [&](const DriftItem& a, const DriftItem& b) {
      return order_.at(a.channel) < order_.at(b.channel);
    });
    return items;
  }

  void advance(double share) const {
    if (progress_ && !progress_(share)) {
      throw InputError("cancelled", "start again for the whole of it");
    }
  }

 private:
  static constexpr int kProgressEvery = 500;
  static constexpr double kReadingShare = 0.7;

  void keep(ChannelHistory& history, const Calibration& calibration) const {
    if (calibration.performed.date() <= today_) {
      history[calibration.subject].push_back(visitMeans(calibration));
    }
  }

  const Register& site_;
  Date today_;
  VisitEdit edit_;
  Progress progress_;
  SensorTable sensors_;
  std::unordered_map<std::string_view, std::size_t> order_;
  std::vector<PoolEntry> entries_;
};

bool shareAny(const std::set<std::string>& a, const std::set<std::string>& b) {
  return std::any_of(a.begin(), a.end(), [&](const std::string& name) { return b.contains(name); });
}

}  // namespace

std::vector<DriftItem> driftReport(const Store& store, std::string_view channel, Date today, Pooling pooling,
                                   const Progress& progress) {
  const Register& site = store.site();
  Report report(store, today, {}, progress);
  if (channel.empty()) {
    report.addAll(store);
    return report.take(pooling, channel);
  }
  const Channel* asked = site.channel(channel);
  if (asked == nullptr) {
    throw InputError(fmt::format("there is no channel \"{}\" in the record", channel), "check the tag");
  }
  report.addFrom(store, *asked);
  if (pooling == Pooling::likeSubjects) {
    const std::set<std::string> families = report.families(*asked);
    double looked = 0.0;
    for (const Channel& other : site.channels) {
      report.advance(looked++ / static_cast<double>(site.channels.size()));
      if (&other != asked && !other.retired && shareAny(families, report.families(other))) {
        report.addFrom(store, other);
      }
    }
  }
  return report.take(pooling, channel);
}

std::vector<DriftItem> driftReportOf(const Store& store, Date today, const VisitEdit& edit) {
  Report report(store, today, edit);
  report.addAll(store);
  return report.take(Pooling::likeSubjects, {});
}

}  // namespace spanwright
