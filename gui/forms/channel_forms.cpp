// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/forms/channel_forms.h"

#include <QComboBox>
#include <QLabel>
#include <QTimer>
#include <algorithm>

#include "core/tasks/register_changes.h"
#include "gui/screens/signer_fields.h"
#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kQuietMs = 250;  // the due list is looked at once typing rests

QString effectText(const SetupEffect& effect, const QString& channel) {
  QStringList lines;
  for (const LostProof& lost : effect.lost) {
    lines << NewSetupForm::tr("Leaves unproven: %1, proven on %2 (calibration %3), due %4.")
                 .arg(wordInside(lost.subject), shownDate(lost.provenOn))
                 .arg(lost.calibration)
                 .arg(lost.dueOn ? shownDate(*lost.dueOn) : QString());
  }
  if (lines.isEmpty()) {
    lines << NewSetupForm::tr("Leaves nothing unproven: nothing of %1 is proven now.").arg(channel);
  }
  if (effect.judgedBefore > 0) {
    lines << counted(effect.judgedBefore,
                     NewSetupForm::tr("1 calibration since that moment stays under the setup before."),
                     NewSetupForm::tr("%1 calibrations since that moment stay under the setup before."));
  }
  return lines.join(u'\n');
}

}  // namespace

NewSetupForm::NewSetupForm(Session& session, const QString& channel, QWidget* parent)
    : SetupForm(tr("New setup of %1").arg(channel), tr("Put in force"), parent),
      session_(session),
      channel_(channel),
      soon_(new QTimer(this)) {
  addSetup({}, session.now());
  addBox("by", tr("Entered &by"), makePersonBox(session, tr("Entered by"), this));
  effect_ = addText();
  effect_->setAccessibleName(tr("What it costs"));
  const Channel* on = session.site().channel(toCore(channel));
  if (on != nullptr && !on->setups.empty()) {
    fill(fieldsOf(on->setups.back().setup));
  }
  showKind();
  soon_->setSingleShot(true);
  soon_->setInterval(kQuietMs);
  connect(soon_, &QTimer::timeout, this, &NewSetupForm::showEffect);
  connect(this, &FormDialog::edited, soon_, QOverload<>::of(&QTimer::start));
  showEffect();
  save = [this](const TypedFields& fields) -> Saved {
    const std::string by = typedText(fields, "by");
    const SetupEffect done = putSetupInForce(session_.store(), toCore(channel_), fields, by);
    session_.setLastSigner(fromCore(by));
    return {tr("Setup %1 of %2 is in force from %3.")
                .arg(done.setup.version)
                .arg(channel_, shownMoment(done.setup.inForceFrom)),
            channel_};
  };
  adjustSize();
  widget("signal.low")->setFocus(Qt::OtherFocusReason);
}

void NewSetupForm::showEffect() {
  try {
    effect_->setText(effectText(setupEffect(session_.store(), toCore(channel_), fields()), channel_));
  } catch (const InputError&) {
    effect_->setText(tr("What it leaves unproven is shown here as soon as it is complete."));
  } catch (const std::exception& error) {
    effect_->setText(asSentence(QString::fromUtf8(error.what())));
  }
}

QString NewSetupForm::effect() const {
  return effect_->text();
}

FittingForm::FittingForm(Session& session, const QString& channel, QWidget* parent)
    : FormDialog(tr("Fit a sensor to %1").arg(channel), tr("Fit"), parent) {
  std::vector<Option> sensors;
  for (const Sensor& each : session.site().sensors) {
    sensors.push_back({each.serial, QStringLiteral("%1  %2").arg(fromCore(each.serial),
                                                                 shownDescription(describe(each.range)))});
  }
  addChoice("sensor", tr("&Sensor"), sensors);
  addMoment("from", tr("Fitted &from"), session.now());
  addBox("by", tr("Entered &by"), makePersonBox(session, tr("Entered by"), this));
  QLabel* about = addText();
  const Channel* on = session.site().channel(toCore(channel));
  const Fitting* now = on == nullptr ? nullptr : fittingAt(*on, session.now());
  about->setText(now == nullptr ? tr("No sensor is fitted now.")
                                : tr("Sensor %1 is fitted since %2; it comes off at that moment.")
                                      .arg(fromCore(now->sensor), shownMoment(now->from)));
  save = [&session, channel](const TypedFields& fields) -> Saved {
    const std::string by = typedText(fields, "by");
    fitSensor(session.store(), toCore(channel), fields, by);
    session.setLastSigner(fromCore(by));
    return {tr("Sensor %1 is fitted to %2.").arg(fromCore(typedText(fields, "sensor")), channel), channel};
  };
  adjustSize();
}

}  // namespace spanwright
