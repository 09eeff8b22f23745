// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/signal/setup.h"
#include "core/tasks/bundle_words.h"

namespace spanwright {
namespace {

constexpr std::string_view kHead = R"(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>Evidence from a calibration record</title>
<style>
body { font: 15px/1.45 "DejaVu Sans", Verdana, sans-serif; color: #1c2326; max-width: 62rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.15rem; margin-top: 2.2rem; border-top: 1px solid #b9c2c4; padding-top: 1rem; }
h3 { font-size: 1rem; margin: 1rem 0 .3rem; }
table { border-collapse: collapse; width: 100%; margin: .4rem 0; }
th, td { text-align: left; vertical-align: top; padding: .25rem .6rem .25rem 0; border-bottom: 1px solid #dde3e4; }
th { font-weight: 600; color: #46555a; }
.number { text-align: right; } .hash { font-family: "DejaVu Sans Mono", monospace; font-size: .8rem; overflow-wrap: anywhere; }
.fail, .gap { color: #9c1f1f; font-weight: 600; } .quiet { color: #5a686c; }
@media print { h2 { break-after: avoid; } table { break-inside: avoid; } }
</style>
</head>
<body>
)";

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      default:
        // Control characters are no part of HTML.
        safe += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return safe;
}

std::string row(const std::vector<std::string>& texts, const char* cell = "td") {
  std::string html = "<tr>";
  for (const std::string& text : texts) {
    html += fmt::format("<{0}>{1}</{0}>", cell, text);
  }
  return html + "</tr>\n";
}

/// A verdict's cell; texts of this file are HTML already.
std::string verdict(Verdict value) {
  const std::string word = escaped(text(value));
  return value == Verdict::fail ? "<span class=\"fail\">" + word + "</span>" : word;
}

std::string anchor(CalibrationId id) {
  return fmt::format("<a href=\"#c{0}\">{0}</a>", id);
}

std::string personOf(const CalibrationTrace& trace) {
  return trace.personName.empty() ? trace.calibration.person : trace.personName;
}

std::string overview(const std::vector<BundleCalibration>& calibrations) {
  std::string html =
      "<h2>Calibrations</h2>\n<table>\n" + row({"no.", "channel", "subject", "performed", "by", "as found",
                                                "as left", "state", "certificate", "gaps"},
                                               "th");
  for (const BundleCalibration& one : calibrations) {
    const Calibration& c = one.trace.calibration;
    html +=
        row({anchor(c.id) + (one.also ? "*" : ""), escaped(c.channel), escaped(text(c.subject)),
             formatMoment(c.performed), escaped(personOf(one.trace)), verdict(c.foundVerdict),
             verdict(c.leftVerdict), escaped(text(one.state)),
             one.trace.issued ? escaped(one.trace.issued->number) : "not issued",
             one.trace.gaps.empty() ? "none"
                                    : fmt::format("<span class=\"gap\">{}</span>", one.trace.gaps.size())});
  }
  return html +
         "</table>\n<p class=\"quiet\">* not asked for, but corrected by one of the others or in its "
         "place. Gaps are links of the chain of traceability that are missing or were not valid on the "
         "day; each stands with its calibration.</p>\n";
}

std::string facts(const CalibrationTrace& trace) {
  const Calibration& c = trace.calibration;
  std::string html = "<table>\n";
  html += row({"Channel", escaped(c.channel + (trace.title.empty() ? "" : ", " + trace.title))});
  html += row({"Place", escaped(trace.place)});
  html += row({"Performed", formatMoment(c.performed) + " by " + escaped(personOf(trace))});
  if (trace.setup) {
    html += row({"Setup",
                 fmt::format("version {}: {}", trace.setup->version, escaped(describe(trace.setup->setup)))});
  }
  if (trace.sensor) {
    html += row({"Sensor", escaped(trace.sensor->serial + ", " + trace.sensor->model)});
  }
  html += row({"Plan", escaped(c.plan + ", revision " + c.planRevision)});
  html += row({"As found, as left", verdict(c.foundVerdict) + ", " + verdict(c.leftVerdict)});
  if (c.corrects != 0) {
    html += row({"Corrects", fmt::format("calibration {}: {}", c.corrects, escaped(c.correctionReason))});
  }
  html += row({"Certificate", trace.issued ? fmt::format("{}, revision {}", escaped(trace.issued->number),
                                                         trace.issued->revision)
                                           : "not issued"});
  return html + "</table>\n";
}

std::string life(const BundleCalibration& one) {
  if (one.life.empty()) {
    return "<h3>Signatures</h3>\n<p>Nobody has signed it.</p>\n";
  }
  std::string html =
      "<h3>Signatures</h3>\n<table>\n" + row({"meaning", "name", "login", "at (UTC)", "reason", "key"}, "th");
  for (const auto& signed_ : one.life) {
    const LifeEvent& event = signed_.event;
    html +=
        row({escaped(text(event.act)) +
                 (event.correction == 0 ? "" : fmt::format(" by calibration {}", event.correction)),
             escaped(signed_.name), escaped(event.person), formatMoment(event.atUtc), escaped(event.reason),
             event.key == 0 ? "follows from another act" : escaped(signed_.keyMark)});
  }
  return html + "</table>\n";
}

std::string standards(const CalibrationTrace& trace) {
  if (trace.standards.empty()) {
    return {};
  }
  std::string html =
      "<h3>Standards used</h3>\n<table>\n" +
      row({"serial", "what", "certificate", "issuer", "valid", "on the day", "traceable"}, "th");
  for (const TracedStandard& used : trace.standards) {
    const auto& certificate = used.certificate;
    html += row(
        {escaped(used.used.serial), escaped(used.description), escaped(used.used.certificate),
         certificate ? escaped(certificate->issuer) : "",
         certificate ? formatDate(certificate->validFrom) + " to " + formatDate(certificate->validUntil) : "",
         !certificate      ? "<span class=\"gap\">not in the record</span>"
         : used.validOnDay ? "valid"
                           : "<span class=\"gap\">not valid</span>",
         certificate ? escaped(certificate->traceability) : ""});
  }
  return html + "</table>\n";
}

std::string findings(const CalibrationTrace& trace) {
  std::string list;
  for (const std::string& gap : trace.gaps) {
    list += "<li class=\"gap\">Missing: " + escaped(gap) + ".</li>\n";
  }
  for (const std::string& differs : trace.differs) {
    list += "<li class=\"gap\">Differs: " + escaped(differs) + ".</li>\n";
  }
  for (const TracedReading& traced : trace.readings) {
    for (const std::string& differs : traced.differs) {
      list += fmt::format("<li class=\"gap\">Differs: {}, {}: {}.</li>\n", text(traced.phase),
                          escaped(traced.reading.point.label), escaped(differs));
    }
  }
  if (list.empty()) {
    return "<p>Every link of the chain is there and was valid on the day. The stored numbers agree with "
           "those "
           "recomputed from what was typed.</p>\n";
  }
  return "<h3>Found by the trace</h3>\n<ul>\n" + list + "</ul>\n";
}

}  // namespace

std::string bundleSummary(const BundleFacts& f, const EvidenceMade& made,
                          const std::vector<BundleCalibration>& calibrations) {
  std::string html(kHead);
  html += fmt::format("<h1>Evidence from the calibration record of {}</h1>\n", escaped(f.siteName));
  if (!f.siteNote.empty()) {
    html += "<p>" + escaped(f.siteNote) + "</p>\n";
  }
  html += "<table>\n";
  html += row({"Covers", escaped(f.scope)});
  html += row({"Made", formatMoment(f.madeUtc) + " UTC by spanwright " SPANWRIGHT_VERSION});
  html += row({"Calibrations", fmt::format("{} asked for, {} that belong to them", made.calibrations.size(),
                                           made.also.size())});
  html += row(
      {"Certificates", fmt::format("{} issued{}, {} without one", made.certificates,
                                   f.drawn ? "" : " (as data only: the program that made this cannot draw)",
                                   made.notIssued.size())});
  html += row({"Files kept in the record", std::to_string(made.attachments)});
  html +=
      row({"Journal", fmt::format("{} entries, {} of them shown in full, to <span class=\"hash\">{}</span>",
                                  made.entries, made.entriesShown, headText(made.head))});
  html +=
      "</table>\n<p>How to check all this, with and without the program, and what it does not show: "
      "README.txt.</p>\n";
  html += overview(calibrations);
  for (const BundleCalibration& one : calibrations) {
    const Calibration& c = one.trace.calibration;
    html += fmt::format("<h2 id=\"c{0}\">Calibration {0}: {1}, {2}, {3}</h2>\n", c.id, escaped(c.channel),
                        formatDate(c.performed.date()), escaped(text(one.state)));
    html += facts(one.trace) + life(one) + standards(one.trace) + findings(one.trace);
  }
  html +=
      "<p class=\"quiet\">This page is no certificate, not an accredited one either, and no proof test of a "
      "safety function.</p>\n";
  return html + "</body>\n</html>\n";
}

}  // namespace spanwright
