// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "core/store/store_impl.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

/// The fittings of this channel or this sensor that still hold at `from`.
std::vector<UnitKey> fittingsEnding(Connection& connection, std::string_view site, std::int64_t channel,
                                    std::int64_t sensor, Moment from) {
  Query row = connection.query(
      "SELECT channel, id FROM fitting WHERE site = $1 AND (channel = $2 OR sensor = $3) AND fitted_from < "
      "$4 AND "
      "(fitted_until IS NULL OR fitted_until > $4)");
  row.bind(site, channel, sensor, stored(from));
  std::vector<UnitKey> found;
  while (row.step()) {
    found.push_back({"fitting", {row.integer(0), row.integer(1)}});
  }
  return found;
}

}  // namespace

void Store::addSetup(std::string_view channel, const SetupVersion& setup) {
  Impl& impl = *impl_;
  if (const auto faults = setupFaults(setup.setup); !faults.empty()) {
    throw InputError(problemsOf(faults));
  }
  SetupVersion added = setup;
  added.inForceFrom = wholeSeconds(setup.inForceFrom);
  impl.changeRegister(
      [&] {
        const auto& setups = impl.channel(channel).setups;
        if (added.inForceFrom.is_special()) {
          throw InputError(
              fmt::format("the new setup of {} has no moment from which it is in force", channel),
              "give the moment");
        }
        if (!setups.empty() && added.inForceFrom <= setups.back().inForceFrom) {
          throw InputError(
              fmt::format("the new setup of {} would be in force from {}, not later than the newest one ({})",
                          channel, formatMoment(added.inForceFrom), formatMoment(setups.back().inForceFrom)),
              "give a later moment, a setup is only followed by another");
        }
        added.version = setups.empty() ? 1 : setups.back().version + 1;
        const std::int64_t key = keyOrNone(impl.loaded.keys.channels, channel);
        writeSetup(*impl.connection, impl.code(), key, added);
        impl.enter({acts::kAdded, {"setup", {key, added.version}}, added.remark});
      },
      [&] { impl.channel(channel).setups.push_back(added); });
}

void Store::addFitting(std::string_view channel, const Fitting& fitting) {
  Impl& impl = *impl_;
  Fitting added = fitting;
  added.from = wholeSeconds(fitting.from);
  const auto endsAtNew = [&added](const Fitting& f) {
    return f.from < added.from && (!f.until || *f.until > added.from);
  };
  impl.changeRegister(
      [&] {
        const std::int64_t key = keyOf(impl.loaded.keys.channels, "channel", std::string(channel));
        const std::int64_t sensor = keyOf(impl.loaded.keys.sensors, "sensor", added.sensor);
        const auto& fittings = impl.channel(channel).fittings;
        if (added.from.is_special() || (added.until && *added.until <= added.from)) {
          throw InputError(
              fmt::format("the fitting of {} on {} does not end after it begins", added.sensor, channel),
              "correct its moments");
        }
        if (!fittings.empty() && added.from <= fittings.back().from) {
          throw InputError(
              fmt::format("the fitting of {} on {} would begin at {}, not later than the newest one ({})",
                          added.sensor, channel, formatMoment(added.from),
                          formatMoment(fittings.back().from)),
              "give a later moment");
        }
        // What sat on the channel comes off, and the sensor leaves where it sat.
        for (const UnitKey& ended : fittingsEnding(*impl.connection, impl.code(), key, sensor, added.from)) {
          impl.enterChange(ended, [&] {
            impl.connection
                ->query("UPDATE fitting SET fitted_until = $1 WHERE site = $2 AND channel = $3 AND id = $4")
                .run(stored(added.from), impl.code(), ended.numbers[0], ended.numbers[1]);
          });
        }
        writeFitting(*impl.connection, impl.code(), key, std::ssize(fittings) + 1, sensor, added);
        impl.enter({acts::kAdded, {"fitting", {key, std::ssize(fittings) + 1}}, added.sensor});
      },
      [&] {
        for (Channel& c : impl.loaded.site.channels) {
          for (Fitting& f : c.fittings) {
            if ((c.tag == channel || f.sensor == added.sensor) && endsAtNew(f)) {
              f.until = added.from;
            }
          }
        }
        impl.channel(channel).fittings.push_back(added);
      });
}

void Store::acceptInterval(std::string_view channel, const AcceptedInterval& accepted) {
  Impl& impl = *impl_;
  AcceptedInterval added = accepted;
  added.atUtc = wholeSeconds(accepted.atUtc);
  impl.changeRegister(
      [&] {
        const Channel& on = impl.channel(channel);
        if (routineFor(on, added.subject) == nullptr) {
          throw InputError(fmt::format("{} has no routine for the subject {}", channel, text(added.subject)),
                           "name a subject that is calibrated there");
        }
        if ((added.days > 0) == (added.months > 0) || added.fromDay.is_special() || added.reason.empty()) {
          throw InputError(
              fmt::format("the interval accepted for {} has no length, no day or no reason", channel),
              "give days or months, the day from which it holds, and why");
        }
        const auto& known = on.acceptedIntervals;
        const auto last = std::find_if(known.rbegin(), known.rend(),
                                       [&](const AcceptedInterval& a) { return a.subject == added.subject; });
        if (last != known.rend() && added.fromDay < last->fromDay) {
          throw InputError(
              fmt::format(
                  "the interval accepted for {} would hold from {}, before the one accepted last ({})",
                  channel, formatDate(added.fromDay), formatDate(last->fromDay)),
              "give a later day, an accepted interval is only followed by another");
        }
        added.id = writeAcceptedInterval(*impl.connection, impl.code(), impl.loaded.keys, channel, added);
        impl.enter({acts::kAccepted, {"accepted interval", {added.id}}, added.reason}, added.person);
      },
      [&] { impl.channel(channel).acceptedIntervals.push_back(added); });
}

void Store::addStandardCertificate(std::string_view serial, const StandardCertificate& certificate) {
  Impl& impl = *impl_;
  const auto standard = [&]() -> Standard& {
    for (Standard& s : impl.loaded.site.standards) {
      if (s.serial == serial) {
        return s;
      }
    }
    throw InputError(fmt::format("there is no standard \"{}\" in the record", serial),
                     "check the serial number");
  };
  impl.changeRegister(
      [&] {
        const auto& known = standard().certificates;
        for (const StandardCertificate& c : known) {
          if (c.number == certificate.number) {
            throw InputError(
                fmt::format("standard {} has a certificate {} already", serial, certificate.number),
                "check the number, a certificate is never replaced");
          }
        }
        const std::int64_t key = keyOrNone(impl.loaded.keys.standards, serial);
        writeStandardCertificate(*impl.connection, impl.code(), key, std::ssize(known) + 1, certificate);
        impl.enter(
            {acts::kAdded, {"standard certificate", {key, std::ssize(known) + 1}}, certificate.number});
      },
      [&] {
        auto& list = standard().certificates;
        const auto later = std::find_if(list.begin(), list.end(), [&](const StandardCertificate& c) {
          return c.validFrom > certificate.validFrom;
        });
        list.insert(later, certificate);
      });
}

}  // namespace spanwright
