// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/explanations.h"

#include <QCoreApplication>

namespace spanwright {
namespace {

struct Entry {
  Explained what;
  const char *title, *formula, *words, *source;
};

// Formulas are the same in every language but for their words.
const Entry kEntries[] = {
    {Explained::expected, QT_TRANSLATE_NOOP("Explanations", "Expected reading"),
     QT_TRANSLATE_NOOP("Explanations",
                       "expected = reading low + (applied − input low) / (input span) × reading span"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "What a faultless channel, configured as its setup says, reads for what was applied. The line "
         "stands for a linear setup; square root, thermocouple, resistance thermometer and "
         "characterised inputs use their own function."),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Thermocouples: IEC 60584-1 and the NIST ITS-90 tables; resistance thermometers: IEC 60751; "
         "the rest follows from the setup itself")},
    {Explained::error, QT_TRANSLATE_NOOP("Explanations", "Error"),
     QT_TRANSLATE_NOOP("Explanations",
                       "error = reading − expected\nin % of span: 100 × error / reading span"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Positive: it reads too high. As found is before anything was touched, as left is after."),
     QT_TRANSLATE_NOOP("Explanations", "JCGM 200:2012 (VIM) 2.16; ANSI/ISA-51.1, “error”")},
    {Explained::limits, QT_TRANSLATE_NOOP("Explanations", "Tolerance"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "limit = absolute + % of reading × |expected| + % of span × |span| + counts × one count"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "All terms of the plan are added. A limit finer than one step of the reading cannot be shown, "
         "so it is widened to one step, and that is said beside it."),
     QT_TRANSLATE_NOOP("Explanations",
                       "The plan of the channel; the rule of one step is this program's own")},
    {Explained::usedTolerance, QT_TRANSLATE_NOOP("Explanations", "Share of tolerance used"),
     QT_TRANSLATE_NOOP("Explanations", "used = |error| / limit on its side"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "100 % lies on the limit and is still inside. Above the plan's adjust limit (often 70 %) the "
         "channel is adjusted although it passed."),
     QT_TRANSLATE_NOOP("Explanations", "Common practice, no source")},
    {Explained::verdict, QT_TRANSLATE_NOOP("Explanations", "Verdict"),
     QT_TRANSLATE_NOOP("Explanations", "pass: lower limit ≤ error ≤ upper limit"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "A run passes when at least one reading passed and none failed; with nothing judged it is "
         "“not judged”, which proves nothing."),
     QT_TRANSLATE_NOOP("Explanations", "ILAC-G8:09/2019, 4.2.1 (simple acceptance)")},
    {Explained::decision, QT_TRANSLATE_NOOP("Explanations", "Decision rule and guard band"),
     QT_TRANSLATE_NOOP("Explanations",
                       "w = r × U\npass: inside the limits by w or more\nconditional: within w of a limit"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "With a guard band w the limits are drawn in, so that what is accepted is inside with the "
         "probability the rule promises. The width can also follow from a risk."),
     QT_TRANSLATE_NOOP("Explanations", "ILAC-G8:09/2019, 4.2.2 and 4.2.3; JCGM 106:2012, clauses 8 and 9")},
    {Explained::uncertainty, QT_TRANSLATE_NOOP("Explanations", "Expanded uncertainty U"),
     QT_TRANSLATE_NOOP("Explanations", "u² = Σ (cᵢ uᵢ)²\nU = k × u, k from Student's t for 95.45 %"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "The standard's certificate, its drift since, its step and that of the reading, repeats and, where "
         "the plan states them, reference junction and leads. The budget lists every line."),
     QT_TRANSLATE_NOOP("Explanations", "JCGM 100:2008 (GUM), 5.1.2, 6.2, G.4 and G.6.4")},
    {Explained::uncertaintyRatio, QT_TRANSLATE_NOOP("Explanations", "Test uncertainty ratio"),
     QT_TRANSLATE_NOOP("Explanations", "ratio = half the distance of the limits / U"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "How much finer the test is than what it judges. Under 4 a pass near the limit is worth less; "
         "a guard band says by how much."),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "JCGM 106:2012, 7.6 (the same as C with U = 2 u); 4 to 1 is common practice, no source")},
    {Explained::advice, QT_TRANSLATE_NOOP("Explanations", "Advice to adjust"),
     QT_TRANSLATE_NOOP("Explanations", "least over (zero, span) of the largest |error after| / limit"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Of all settings of zero and span the one that leaves the worst point with the least share of "
         "its tolerance. Where scatter or the range of the trim allows no gain, that is said instead."),
     QT_TRANSLATE_NOOP("Explanations", "This program's own method (a linear program, solved exactly)")},
    {Explained::rate, QT_TRANSLATE_NOOP("Explanations", "Drift per year"),
     QT_TRANSLATE_NOOP("Explanations", "rate = Σ (t − t̄)(e − ē) / Σ (t − t̄)²"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "One rate for all segments, each about its own mean. A segment ends with an adjustment, a new "
         "setup, another sensor or a repair; it begins with the reading as left."),
     QT_TRANSLATE_NOOP("Explanations",
                       "Least squares; NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1")},
    {Explained::robustRate, QT_TRANSLATE_NOOP("Explanations", "Robust rate"),
     QT_TRANSLATE_NOOP("Explanations", "median of (e₂ − e₁) / (t₂ − t₁)"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Over all pairs of readings of one segment. One wild reading cannot move it; where it is far "
         "from the fitted rate, look at the readings."),
     QT_TRANSLATE_NOOP("Explanations", "P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379")},
    {Explained::pooledRate, QT_TRANSLATE_NOOP("Explanations", "Rate leaning on like subjects"),
     QT_TRANSLATE_NOOP("Explanations", "rate' = mean + B × (rate − mean)\nB = τ² / (τ² + v)"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Few calibrations say little, so a rate is drawn towards the mean of like subjects: the more, "
         "the larger its own variance v is beside the variance τ² between them. What is not known of τ "
         "is averaged over."),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Empirical Bayes with restricted maximum likelihood (D. A. Harville, J. Am. Stat. Assoc. 72 "
         "(1977) 320)")},
    {Explained::band, QT_TRANSLATE_NOOP("Explanations", "95 % band"),
     QT_TRANSLATE_NOOP("Explanations", "line ± t × √( s² (1 + 1/n) + v (t − t̄)² )"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Holds the next reading as found in 95 of 100 cases. It widens with the time since the last "
         "visits, and faster where the error is seen to wander. “Told from” says whose readings it "
         "rests on."),
     QT_TRANSLATE_NOOP("Explanations",
                       "Prediction interval of least squares; how often it holds is measured by simulation")},
    {Explained::leavesOn, QT_TRANSLATE_NOOP("Explanations", "Day of leaving tolerance"),
     QT_TRANSLATE_NOOP("Explanations", "first day with line ± band outside the limits"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "The band leaves first: until that day a reading as found is expected inside. The line leaves "
         "when it is as likely as not."),
     QT_TRANSLATE_NOOP("Explanations", "Follows from line and band")},
    {Explained::inTolerance, QT_TRANSLATE_NOOP("Explanations", "Probability of being in tolerance"),
     QT_TRANSLATE_NOOP("Explanations", "P(lower limit ≤ next reading ≤ upper limit)"),
     QT_TRANSLATE_NOOP("Explanations", "For a reading taken on the day shown, from the same line and band."),
     QT_TRANSLATE_NOOP("Explanations",
                       "Follows from line and band; what is said and what happens is compared by "
                       "simulation")},
    {Explained::finding, QT_TRANSLATE_NOOP("Explanations", "Found in the history"),
     QT_TRANSLATE_NOOP("Explanations", "named when p < 1 / 5000"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "A step, a loose contact, drift unlike the group's, growing scatter, or rates that disagree. p "
         "is the probability of something so clear in a quiet point."),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Cumulative sums: E. S. Page, Biometrika 41 (1954) 100; the limit is this program's own")},
    {Explained::dueOn, QT_TRANSLATE_NOOP("Explanations", "Due on"),
     QT_TRANSLATE_NOOP("Explanations", "due = day of the last passing as left + interval"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Moved to the working day on or before. Only a visit under the setup and sensor in force "
         "counts; without one the channel is unproven and due at once."),
     QT_TRANSLATE_NOOP("Explanations", "The channel's interval policy; common practice, no source")},
    {Explained::proposedInterval, QT_TRANSLATE_NOOP("Explanations", "Proposed interval"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "staircase: one step longer or shorter\nreliability: −ln(target) / λ\nforecast: until the band "
         "leaves"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "By the policy of the channel, within its limits. λ is the rate of leaving tolerance of like "
         "subjects, from what visits found at unequal intervals. Nothing holds until a person accepts "
         "it."),
     QT_TRANSLATE_NOOP("Explanations", "ILAC-G24:2022 / OIML D 10:2022, clause 6")},
    {Explained::outcomes,
     QT_TRANSLATE_NOOP("Explanations", "Visits counted"),
     {},
     QT_TRANSLATE_NOOP(
         "Explanations",
         "A visit tells whether the interval before it was short enough when it was judged as found and "
         "the visit before left the same subject passing, at least a day earlier."),
     QT_TRANSLATE_NOOP("Explanations", "This program's own rule")},
    {Explained::standardUse,
     QT_TRANSLATE_NOOP("Explanations", "Standard usable until"),
     {},
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Until the last day of its certificate, unless it is out of service or a person allowed more. "
         "The plan uses a standard only on days on which it is valid."),
     QT_TRANSLATE_NOOP("Explanations", "ISO/IEC 17025:2017, 6.4 (from memory)")},
    {Explained::controlChart, QT_TRANSLATE_NOOP("Explanations", "Control chart of a standard"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "single values: mean ± 3 σ\nmoving average: z = λ x + (1 − λ) z, limits ± L σ √(λ / (2 − λ))"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "A value outside its limits asks for a look at the standard before it is used again. Limits "
         "from few values are provisional."),
     QT_TRANSLATE_NOOP("Explanations",
                       "NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 and 6.3.2.4")},
    {Explained::planned, QT_TRANSLATE_NOOP("Explanations", "Hours and days of the plan"),
     QT_TRANSLATE_NOOP("Explanations", "minutes of a day = Σ visits, one cabinet's together"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "Earliest due first, within the weekly hours of each person, on working days, with standards "
         "valid that day. What does not fit is listed with the reason."),
     QT_TRANSLATE_NOOP("Explanations", "This program's own rule")},
    {Explained::digest, QT_TRANSLATE_NOOP("Explanations", "Digest"),
     QT_TRANSLATE_NOOP("Explanations", "SHA-256 of the rows"),
     QT_TRANSLATE_NOOP(
         "Explanations",
         "A fingerprint of a calibration with its readings and standards. Signatures, the journal and "
         "certificates hold it: a change afterwards is found by checking the record."),
     QT_TRANSLATE_NOOP("Explanations", "FIPS 180-4")},
};

QString translated(const char* text) {
  return text == nullptr ? QString() : QCoreApplication::translate("Explanations", text);
}

QString lines(const QString& text) {
  return text.toHtmlEscaped().replace(QLatin1Char('\n'), QStringLiteral("<br>"));
}

}  // namespace

const std::vector<Explained>& allExplained() {
  static const std::vector<Explained> kAll = [] {
    std::vector<Explained> all;
    for (const Entry& entry : kEntries) {
      all.push_back(entry.what);
    }
    return all;
  }();
  return kAll;
}

Explanation explanation(Explained what) {
  const Entry& entry = kEntries[static_cast<std::size_t>(what)];
  return {translated(entry.title), translated(entry.formula), translated(entry.words),
          translated(entry.source)};
}

QString shortExplanation(Explained what) {
  const Explanation about = explanation(what);
  const QString formula = about.formula.isEmpty() ? about.words : about.formula;
  return QStringLiteral("<p><b>%1</b></p><p>%2</p><p><i>%3</i></p>")
      .arg(about.title.toHtmlEscaped(), lines(formula), about.source.toHtmlEscaped());
}

QString explanationAnchor(Explained what) {
  return QStringLiteral("e%1").arg(static_cast<int>(what));
}

QString explanationsPage() {
  QString page;
  for (const Explained what : allExplained()) {
    const Explanation about = explanation(what);
    page += QStringLiteral("<h3><a name='%1'></a>%2</h3>")
                .arg(explanationAnchor(what), about.title.toHtmlEscaped());
    if (!about.formula.isEmpty()) {
      page += QStringLiteral("<p style='margin-left:12px'><b>%1</b></p>").arg(lines(about.formula));
    }
    page += QStringLiteral("<p>%1</p><p><i>%2</i></p>")
                .arg(about.words.toHtmlEscaped(), about.source.toHtmlEscaped());
  }
  return page;
}

}  // namespace spanwright
