// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/truth.h"

#include <algorithm>

#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

std::string row(const std::vector<std::string>& cells) {
  std::vector<std::string> quotedCells;
  quotedCells.reserve(cells.size());
  for (const std::string& each : cells) {
    quotedCells.push_back(cell(each, ','));
  }
  return joined(quotedCells, ",") + "\n";
}

/// Six significant digits are plenty beside the noise, and short to read.
std::string brief(double value) {
  double scale = 1.0;
  int digits = 0;
  while (digits < 9 && value != 0.0 && (value < 0.0 ? -value : value) * scale < 1e5) {
    scale *= 10.0;
    ++digits;
  }
  return shortest(tidy(value, digits));
}

struct Reach {
  When from, until;
  bool any = false;
};

/// From the last certificate the faulty standard was found good by to the one that found it bad.
Reach reachOf(const SiteSpec& site) {
  Reach reach;
  for (const StandardSpec& standard : site.standards) {
    for (const CertSpec& certificate : standard.certificates) {
      const When from{certificate.validFrom, 0};
      if (standard.serial == site.fault.serial && from <= site.fault.from) {
        reach.from = from;
        reach.any = true;
      } else if (standard.serial == site.fault.serial && reach.until == When{}) {
        reach.until = from;
      }
    }
  }
  return reach;
}

}  // namespace

std::string ratesCsv(const History& history) {
  std::string text = row({"channel", "subject", "setup", "sensor", "point", "unit", "rate_per_year",
                          "noise_sd", "resolution", "hysteresis", "visits", "not_recoverable"});
  for (const TrueRate& rate : history.rates) {
    text += row({rate.channel, rate.subject, std::to_string(rate.setup), rate.sensor, rate.point, rate.unit,
                 brief(rate.ratePerYear), brief(rate.noiseSd), brief(rate.resolution), brief(rate.hysteresis),
                 std::to_string(rate.visits), rate.notRecoverable});
  }
  return text;
}

std::string breaksCsv(const History& history) {
  std::string text = row({"channel", "subject", "at", "cause", "point", "unit", "amount"});
  for (const TrueBreak& each : history.breaks) {
    text += row({each.channel, each.subject, isoTime(each.at), each.cause, each.point, each.unit,
                 each.point.empty() ? "" : brief(each.amount)});
  }
  return text;
}

std::string faultsCsv(const History& history) {
  std::string text = row({"channel", "subject", "kind", "at", "amount"});
  for (const TrueFault& fault : history.faults) {
    text += row({fault.channel, fault.subject, fault.kind, fault.at == When{} ? "" : isoTime(fault.at),
                 fault.amount});
  }
  return text;
}

std::string visitsCsv(const SiteSpec& site, const std::vector<SourceFile>& sources) {
  const Reach reach = reachOf(site);
  std::string text = row({"file", "channel", "subject", "performed", "setup", "sensor", "person", "standards",
                          "readings_found", "readings_left", "skipped", "adjusted", "faulty_standard"});
  for (const SourceFile& source : sources) {
    for (const Visit* visit : source.visits) {
      const bool used = std::find(visit->standards.begin(), visit->standards.end(), site.fault.serial) !=
                        visit->standards.end();
      const bool reached =
          reach.any && used && reach.from <= visit->performed && visit->performed < reach.until;
      text += row({source.name, visit->channel, visit->subject, isoTime(visit->performed),
                   std::to_string(visit->setup), visit->sensor, visit->person, joined(visit->standards, " "),
                   std::to_string(visit->found.size()), std::to_string(visit->left.size()),
                   joined(visit->skipped, " "), visit->adjusted ? "yes" : "no",
                   visit->faultyStandard ? "wrong"
                   : reached             ? "reached"
                                         : ""});
    }
  }
  return text;
}

std::string sourcesCsv(const std::vector<SourceFile>& sources) {
  std::string text = row({"file", "mapping", "calibrations", "readings", "skipped"});
  for (const SourceFile& source : sources) {
    std::size_t readings = 0;
    std::size_t skipped = 0;
    for (const Visit* visit : source.visits) {
      readings += visit->found.size() + visit->left.size();
      skipped += source.tellsSkipped ? visit->skippedDirections.size() * (visit->left.empty() ? 1 : 2) : 0;
    }
    text += row({source.name, source.mapping, std::to_string(source.visits.size()), std::to_string(readings),
                 std::to_string(skipped)});
  }
  return text;
}

std::string faultyStandardCsv(const SiteSpec& site) {
  std::string text = row(
      {"serial", "unit", "bad_from", "last_good_certificate_from", "found_on", "indication_less_true_share"});
  const Reach reach = reachOf(site);
  if (reach.any) {
    text += row({site.fault.serial, "mA", isoTime(site.fault.from), isoDate(reach.from.day),
                 isoDate(reach.until.day), shortest(site.fault.share)});
  }
  return text;
}

}  // namespace spanwright::sample
