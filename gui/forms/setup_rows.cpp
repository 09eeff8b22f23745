// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/forms/setup_rows.h"

#include <QComboBox>
#include <QLabel>
#include <utility>

#include "core/tasks/register_changes.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr auto kThreshold = "threshold-input";
constexpr auto kInput = "analog-input";
constexpr auto kCouple = "thermocouple-input";
constexpr auto kRtd = "rtd-input";
constexpr auto kOutput = "analog-output";
constexpr auto kDiscrete = "discrete-output";

QStringList unitsOf(std::initializer_list<Dimension> dimensions) {
  QStringList units;
  for (const Unit unit : allUnits()) {
    for (const Dimension each : dimensions) {
      if (dimension(unit) == each && unit != Unit::microvolt && unit != Unit::microampere) {
        units << shownUnit(unit);
      }
    }
  }
  return units;
}

QStringList measuredUnits() {
  QStringList units{shownUnit(Unit::celsius), shownUnit(Unit::bar), shownUnit(Unit::percent)};
  for (const Unit unit : allUnits()) {
    const QString shown = shownUnit(unit);
    if (unit != Unit::none && unit != Unit::count && !units.contains(shown)) {
      units << shown;
    }
  }
  return units;
}

}  // namespace

void SetupForm::row(const std::string& field, std::set<std::string> kinds) {
  rowsOf_.emplace_back(at(field), std::move(kinds));
}

void SetupForm::addSetup(const std::string& prefix, Moment from) {
  prefix_ = prefix;
  std::vector<Option> kinds;
  for (const SetupKind& kind :
       {SetupKind(AnalogInputSetup()), SetupKind(ThermocoupleSetup()), SetupKind(RtdSetup()),
        SetupKind(ThresholdSetup()), SetupKind(AnalogOutputSetup()), SetupKind(DiscreteOutputSetup())}) {
    const ChannelSetup setup{kind, 0.0};
    kinds.push_back({std::string(kindName(setup)), asSentence(kindWord(setup)).chopped(1)});
  }
  kind_ = addChoice(at("kind"), tr("&Kind"), kinds);
  addMoment(at("from"), tr("In &force from"), from);
  addSignals();
  addTemperatures();
  addDiscretes();
  addNumber(at("filter_seconds"), tr("Filter [s]"), tr("none"));
  addNumbers(at("alarms"), tr("&Alarms"),
             {{at("alarms.low_low"), tr("low-low")},
              {at("alarms.low"), tr("low")},
              {at("alarms.high"), tr("high")},
              {at("alarms.high_high"), tr("high-high")},
              {at("alarms.dead_band"), tr("dead band")}});
  row("alarms", {kInput, kCouple, kRtd});
  addLine(at("remark"), tr("R&emark"), tr("Why, for instance commissioning"));
  meaning_ = addText();
  meaning_->setAccessibleName(tr("What the setup means"));
  connect(kind_, &QComboBox::currentIndexChanged, this, [this] {
    propose();
    showKind();
  });
  connect(this, &FormDialog::edited, this, &SetupForm::showMeaning);
}

void SetupForm::addSignals() {
  addSpan(at("signal"), tr("&Signal"), unitsOf({Dimension::current, Dimension::voltage}));
  row("signal", {kInput, kOutput});
  addSpan(at("units"), tr("Ran&ge"), measuredUnits());
  row("units", {kInput, kOutput});
  addSpan(at("counts"), tr("Co&unts"), {});
  row("counts", {kInput, kOutput});
  addNumber(at("bits"), tr("Converter [bit]"), tr("not known"));
  row("bits", {kInput, kOutput});
  addChoice(at("reads_as"), tr("Read as"), {{"units", tr("engineering units")}, {"counts", tr("counts")}});
  row("reads_as", {kInput});
  addChoice(at("commanded_as"), tr("Commanded as"),
            {{"units", tr("engineering units")}, {"counts", tr("counts")}});
  row("commanded_as", {kOutput});
  addChoice(at("transfer"), tr("Transfer"), {{"linear", tr("linear")}, {"square-root", tr("square root")}});
  row("transfer", {kInput});
  addNumber(at("cut_off_percent"), tr("Cut-off [%]"), tr("of the square root; none"));
  row("cut_off_percent", {kInput});
}

void SetupForm::addTemperatures() {
  std::vector<Option> couples;
  for (const char* type : {"K", "J", "T", "N", "E", "S", "R", "B", "C"}) {
    couples.push_back({type, tr("type %1").arg(QLatin1String(type))});
  }
  addChoice(at("couple"), tr("Thermocouple"), couples);
  row("couple", {kCouple});
  addChoice(at("element"), tr("Element"),
            {{"pt100", QStringLiteral("Pt100")}, {"pt1000", QStringLiteral("Pt1000")}});
  row("element", {kRtd});
  addChoice(at("wires"), tr("Wires"),
            {{"2", QStringLiteral("2")}, {"3", QStringLiteral("3")}, {"4", QStringLiteral("4")}});
  row("wires", {kRtd});
  addSpan(at("range"), tr("Ran&ge"), unitsOf({Dimension::temperature}));
  row("range", {kCouple, kRtd});
  addNumber(at("resolution"), tr("Smallest step shown"), tr("not known: the digits typed count"));
  row("resolution", {kInput, kCouple, kRtd});
  addCheck(at("reads_tenths"), tr("Arrives as whole tenths"));
  row("reads_tenths", {kCouple, kRtd});
}

void SetupForm::addDiscretes() {
  addNumber(at("rated_volts"), tr("Rated voltage [V]"));
  row("rated_volts", {kThreshold});
  addNumber(at("on_level"), tr("On at or above [V]"));
  row("on_level", {kThreshold});
  addNumber(at("off_level"), tr("Off at or below [V]"));
  row("off_level", {kThreshold});
  addChoice(at("input_type"), tr("Claims IEC 61131-2"),
            {{"0", tr("no")}, {"1", tr("type 1")}, {"2", tr("type 2")}, {"3", tr("type 3")}});
  row("input_type", {kThreshold});
  addNumber(at("supply_volts"), tr("Supply [V]"));
  row("supply_volts", {kDiscrete});
  addNumber(at("max_drop_volts"), tr("On: drop at most [V]"));
  row("max_drop_volts", {kDiscrete});
  addNumber(at("max_off_volts"), tr("Off: at most [V]"));
  row("max_off_volts", {kDiscrete});
  addChoice(at("on_loss"), tr("On loss of communication"),
            {{"hold", tr("holds")}, {"minimum", tr("goes to its minimum")}, {"off", tr("goes off")}});
  row("on_loss", {kOutput, kDiscrete});
}

void SetupForm::showKind() {
  const std::string kind = toCore(kind_->currentData().toString());
  for (const auto& [field, kinds] : rowsOf_) {
    showRow(field, kinds.contains(kind));
  }
  showMeaning();
}

void SetupForm::propose() {
  static const std::map<std::string, TypedFields> kUsual{
      {kInput, {{"signal.low", "4"}, {"signal.high", "20"}, {"signal.unit", "mA"}, {"reads_as", "units"}}},
      {kOutput, {{"signal.low", "4"}, {"signal.high", "20"}, {"signal.unit", "mA"}, {"on_loss", "minimum"}}},
      {kCouple, {{"couple", "K"}, {"range.unit", "degC"}, {"resolution", "0.1"}}},
      {kRtd, {{"element", "pt100"}, {"wires", "3"}, {"range.unit", "degC"}, {"resolution", "0.1"}}},
      {kThreshold, {{"rated_volts", "24"}, {"on_level", "15"}, {"off_level", "5"}}},
      {kDiscrete,
       {{"supply_volts", "24"}, {"max_drop_volts", "2"}, {"max_off_volts", "1"}, {"on_loss", "off"}}}};
  TypedFields usual;
  for (const auto& [field, text] : kUsual.at(toCore(kind_->currentData().toString()))) {
    usual[at(field)] = text;
  }
  fill(usual);
}

void SetupForm::showMeaning() {
  const std::string line = setupPreview(fields(), prefix_);
  meaning_->setText(line.empty() ? tr("What it means is shown here as soon as it is complete.")
                                 : shownDescription(line));
}

}  // namespace spanwright
