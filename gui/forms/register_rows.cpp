// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows of each form about the register.
#include <QComboBox>
#include <QLineEdit>
#include <QLocale>
#include <QPushButton>
#include <algorithm>

#include "gui/forms/register_form.h"
#include "gui/screens/signer_fields.h"
#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QStringList shownUnits() {
  QStringList units{shownUnit(Unit::celsius), shownUnit(Unit::milliampere), shownUnit(Unit::bar)};
  for (const Unit unit : allUnits()) {
    const QString shown = shownUnit(unit);
    if (unit != Unit::none && unit != Unit::count && !units.contains(shown)) {
      units << shown;
    }
  }
  return units;
}

std::vector<std::pair<std::string, QString>> namesOf(const Register& site, RegisterKind kind) {
  std::vector<std::pair<std::string, QString>> names;
  const auto add = [&names](const std::string& name, const QString& about) {
    names.emplace_back(
        name, about.isEmpty() ? fromCore(name) : QStringLiteral("%1  %2").arg(fromCore(name), about));
  };
  if (kind == RegisterKind::place) {
    for (const Place& each : site.places) {
      add(each.path, {});
    }
  } else if (kind == RegisterKind::plan) {
    for (const Plan& each : site.plans) {
      add(each.code, fromCore(each.title));
    }
  } else if (kind == RegisterKind::interval) {
    for (const IntervalPolicy& each : site.intervals) {
      add(each.code, {});
    }
  } else {
    for (const Sensor& each : site.sensors) {
      add(each.serial, shownDescription(describe(each.range)));
    }
  }
  return names;
}

}  // namespace

void RegisterForm::addBy() {
  addBox("by", tr("Entered &by"), makePersonBox(session_, tr("Entered by"), this));
}

void RegisterForm::fillNamed(const NamedBox& named) const {
  const QVariant chosen = named.box->currentData();
  named.box->clear();
  if (named.mayBeEmpty) {
    named.box->addItem(QStringLiteral("–"), QString());
  }
  for (const auto& [name, text] : namesOf(session_.site(), named.kind)) {
    named.box->addItem(text, fromCore(name));
  }
  named.box->setCurrentIndex(std::max(0, named.box->findData(chosen)));
}

void RegisterForm::addNamed(const std::string& field, const QString& label, RegisterKind kind,
                            bool mayBeEmpty) {
  auto* box = new QComboBox(this);
  box->setMinimumContentsLength(18);
  box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  named_.push_back({box, kind, mayBeEmpty});
  fillNamed(named_.back());
  addBox(field, label, box);
  auto* more = new QPushButton(tr("New…"), this);
  more->setAutoDefault(false);
  more->setAccessibleName(newTitle(kind));
  more->setToolTip(newTitle(kind));
  addBeside(field, more);
  connect(more, &QPushButton::clicked, this, [this, box, kind] {
    auto* form = new RegisterForm(session_, kind, TypedFields(), this);
    form->setAttribute(Qt::WA_DeleteOnClose);
    connect(form, &RegisterForm::added, this, &RegisterForm::added);
    connect(form, &FormDialog::saved, this, [this, box, kind](const QString& sentence, const QString& name) {
      for (const NamedBox& each : named_) {
        if (each.kind == kind) {
          fillNamed(each);
        }
      }
      box->setCurrentIndex(box->findData(name));
      box->setFocus();
      emit added(sentence);
    });
    form->open();
  });
}

void RegisterForm::addSite() {
  addLine("code", tr("&Code"), tr("2 to 8 capital letters and digits"));
  addLine("name", tr("&Name"));
  addLines("address", tr("&Address"));
  addLine("customer", tr("C&ustomer"), tr("For whom the certificates are, which need it"));
  addLine("customer_contact", tr("Con&tact"), tr("Whom to ask there"));
  addLine("issuer", tr("&Issuer"), tr("Who issues the certificates, which need it"));
  addLines("issuer_address", tr("Issuer's a&ddress"));
  addLine("note", tr("N&ote"), tr("Printed on every certificate"));
  addCheck("due_date_agreed", tr("The customer &wants due dates on certificates"));
  std::vector<Part> days;
  for (int day = 0; day < static_cast<int>(kWeekdayCodes.size()); ++day) {
    const int from = (day + 1) % static_cast<int>(kWeekdayCodes.size());  // Monday first
    days.push_back({"working." + std::string(kWeekdayCodes.at(static_cast<std::size_t>(from))),
                    QLocale().standaloneDayName(from == 0 ? Qt::Sunday : from, QLocale::ShortFormat)});
  }
  addChecks("working_days", tr("Working days"), days);
  addLines("closed", tr("C&losed"), tr("2026-12-24 to 2027-01-02 winter shutdown"));
  addNumber("due_soon_days", tr("Due &soon [days]"), tr("before the due day"));
  addNumber("grace_days", tr("&Grace [days]"), tr("after the due day, before it is overdue"));
  addNumber("early_days", tr("&Early [days]"), tr("before the due day a visit may be planned"));
}

void RegisterForm::addPlace() {
  addLine("name", tr("&Name"), tr("Hall, cabinet or station"));
  std::vector<Option> places{{"", tr("nothing: it is a place of its own")}};
  for (const auto& [path, text] : namesOf(session_.site(), RegisterKind::place)) {
    if (new_ || path != toCore(name_)) {
      places.push_back({path, text});
    }
  }
  addChoice("within", tr("&Within"), places);
  addNumber("order", tr("Walking &order"), tr("after those that are there"));
}

void RegisterForm::addPerson() {
  addLine("login", tr("&Login"), tr("Short name by which signatures are told"));
  addLine("name", tr("&Name"));
  addChecks("role", tr("Roles"), {{"role.technician", tr("&technician")}, {"role.planner", tr("&planner")}});
  addChecks("role2", {}, {{"role.reviewer", tr("&reviewer")}, {"role.administrator", tr("&administrator")}});
  addNumber("hours_per_week", tr("&Hours per week"), tr("for calibrations; visits are planned for them"));
  addLines("away", tr("&Days away"), tr("2026-07-01 to 2026-07-14 holidays"));
}

void RegisterForm::addStandard() {
  addLine("serial", tr("&Serial number"));
  addLine("description", tr("&Description"), tr("For instance mA source"));
  addLine("maker", tr("&Maker"));
  addLine("model", tr("M&odel"));
  addLine("location", tr("Kept a&t"));
}

void RegisterForm::addSensor() {
  addLine("serial", tr("&Serial number"));
  addLine("description", tr("&Description"));
  addLine("maker", tr("&Maker"));
  addLine("model", tr("M&odel"));
  addSpan("process", tr("M&easures"), shownUnits());
  addSpan("output", tr("&Gives"), shownUnits());
  std::vector<Option> elements{{"", tr("none: it gives what stands above")},
                               {"pt100", QStringLiteral("Pt100")},
                               {"pt1000", QStringLiteral("Pt1000")}};
  for (const char* type : {"K", "J", "T", "N", "E", "S", "R", "B", "C"}) {
    elements.push_back({type, tr("thermocouple type %1").arg(QLatin1String(type))});
  }
  addChoice("element", tr("E&lement"), elements);
  alias("thermocouple", "element");
  addChoice("transfer", tr("T&ransfer"), {{"linear", tr("linear")}, {"square-root", tr("square root")}});
  fill({{"output.unit", "mA"}});
}

void RegisterForm::addPlan() {
  addLine("code", tr("&Code"));
  addLine("revision", tr("&Revision"));
  addLine("title", tr("&Title"));
  addLine("procedure", tr("&Procedure"), tr("The method and its revision"));
  addNumber("points", tr("P&oints [%]"), tr("for instance 0, 25, 50, 75, 100; none for levels and states"));
  addChoice("order", tr("Or&der"),
            {{"up", tr("rising")},
             {"up-down", tr("rising, then falling")},
             {"down", tr("falling")},
             {"down-up", tr("falling, then rising")}});
  addNumber("repeats", tr("Repeats"), QStringLiteral("1"));
  addChecks("alarms", tr("Also"),
            {{"alarms", tr("trip and reset of a&larms")}, {"loss", tr("loss of comm&unication")}});
  const auto side = [](const std::string& prefix) {
    return std::vector<Part>{{prefix + ".absolute", tr("in the unit read")},
                             {prefix + ".percent_of_reading", tr("% of reading")},
                             {prefix + ".percent_of_span", tr("% of span")},
                             {prefix + ".counts", tr("counts")}};
  };
  addNumbers("tolerance", tr("Tolera&nce ±"), side("tolerance"));
  addCheck("minus", tr("Below, the tolerance differ&s"));
  addNumbers("minus_side", tr("Tolerance −"), side("minus"));
  nextColumn();
  addNumber("adjust_limit", tr("Ad&just above [tolerance]"), tr("0.7 of the tolerance"));
  addChoice("rule", tr("Decision rule"),
            {{"simple", tr("simple acceptance")},
             {"guard-band", tr("guard band by the uncertainty")},
             {"false-accept", tr("guard band by false acceptance")}});
  alias("decision_rule", "rule");
  addNumber("factor", tr("Guard band [U]"));
  addNumber("limit", tr("False acceptance"), QStringLiteral("0.02"));
  addCheck("any_spread", tr("Whatever the spread of the subjects"));
  addNumber("minutes", tr("Minutes of a visit"));
  addNumber("settle_seconds", tr("Settling [s]"), tr("none"));
  addNumber("reference_junction_uncertainty", tr("Reference junction, U [K]"), tr("not stated"));
  addNumber("lead_resistance_half_width", tr("Lead resistance ± [Ω]"), tr("not stated"));
  addLines("cautions", tr("Cautions"), tr("One a line; confirmed before readings are typed"));
  connect(this, &FormDialog::edited, this, &RegisterForm::showRule);
  if (new_) {
    fill({{"revision", "1"}, {"repeats", "1"}, {"minutes", "30"}, {"adjust_limit", "0.7"}});
  }
}

void RegisterForm::showRule() {
  const TypedFields typed = fields();
  const std::string rule = typedText(typed, "rule");
  showRow("factor", rule == "guard-band");
  showRow("limit", rule == "false-accept");
  showRow("any_spread", rule == "false-accept");
  showRow("minus_side", typedText(typed, "minus") == "yes");
}

void RegisterForm::addInterval() {
  addLine("code", tr("&Code"), tr("For instance yearly"));
  addChoice("policy", tr("&Policy"),
            {{"fixed", tr("fixed")},
             {"staircase", tr("staircase: a step up or down after each visit")},
             {"reliability", tr("reliability: found in tolerance often enough")},
             {"forecast", tr("forecast: before the drift leaves the tolerance")}});
  addNumber("months", tr("&Months"), tr("this or days"));
  addNumber("days", tr("&Days"));
  addNumber("minimum_days", tr("At &least [days]"));
  addNumber("maximum_days", tr("At m&ost [days]"));
  addNumber("lengthen", tr("Step &up, factor"), QStringLiteral("1.25"));
  addNumber("shorten", tr("Step do&wn, factor"), QStringLiteral("0.5"));
  addNumber("target", tr("&Target"), QStringLiteral("0.9"));
  addNumber("confidence", tr("Con&fidence"), QStringLiteral("0.95"));
  addNumber("least_outcomes", tr("Least outcom&es"), QStringLiteral("10"));
  connect(this, &FormDialog::edited, this, &RegisterForm::showPolicy);
}

void RegisterForm::showPolicy() {
  const std::string policy = toCore(qobject_cast<QComboBox*>(widget("policy"))->currentData().toString());
  for (const char* field : {"lengthen", "shorten"}) {
    showRow(field, policy == "staircase");
  }
  for (const char* field : {"target", "confidence", "least_outcomes"}) {
    showRow(field, policy == "reliability");
  }
}

void RegisterForm::addRoutine(Subject subject, const QString& label) {
  const std::string field = "routine." + std::string(text(subject));
  const bool mayBeEmpty = subject != Subject::channel || !new_;
  addNamed(field + ".plan", label, RegisterKind::plan, mayBeEmpty);
  addNamed(field + ".interval", tr("How often"), RegisterKind::interval, mayBeEmpty);
  alias(field, field + ".plan");
}

void RegisterForm::addChannel() {
  addLine("tag", tr("&Tag"));
  addLine("title", tr("T&itle"), tr("What it measures, for instance tank temperature"));
  addNamed("place", tr("&Place"), RegisterKind::place, false);
  addLine("terminal", tr("Te&rminal"));
  addRoutine(Subject::channel, tr("Ca&libration plan"));
  if (new_) {
    addNamed("fitting.sensor", tr("Sens&or fitted"), RegisterKind::sensor, true);
  }
  addRoutine(Subject::sensor, tr("Plan of the sensor"));
  addRoutine(Subject::loop, tr("Plan of the loop"));
  if (new_) {
    alias("fitting", "fitting.sensor");
    nextColumn();
    // From the morning on: what was calibrated before it was typed in counts.
    addSetup("setup.", Moment(session_.today(), boost::posix_time::time_duration()));
    propose();
  } else {
    addCheck("retired", tr("No longer &calibrated"));
  }
}

}  // namespace spanwright
