// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/forms/register_form.h"

#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QString changeTitle(RegisterKind kind, const QString& name) {
  switch (kind) {
    case RegisterKind::site:
      return RegisterForm::tr("The site");
    case RegisterKind::place:
      return RegisterForm::tr("Place %1").arg(name);
    case RegisterKind::person:
      return RegisterForm::tr("Person %1").arg(name);
    case RegisterKind::standard:
      return RegisterForm::tr("Standard %1").arg(name);
    case RegisterKind::sensor:
      return RegisterForm::tr("Sensor %1").arg(name);
    case RegisterKind::plan:
      return RegisterForm::tr("Plan %1").arg(name);
    case RegisterKind::interval:
      return RegisterForm::tr("Interval policy %1").arg(name);
    case RegisterKind::channel:
      break;
  }
  return RegisterForm::tr("Channel %1").arg(name);
}

}  // namespace

QString newTitle(RegisterKind kind) {
  switch (kind) {
    case RegisterKind::site:
      return RegisterForm::tr("New site");
    case RegisterKind::place:
      return RegisterForm::tr("New place");
    case RegisterKind::person:
      return RegisterForm::tr("New person");
    case RegisterKind::standard:
      return RegisterForm::tr("New standard");
    case RegisterKind::sensor:
      return RegisterForm::tr("New sensor");
    case RegisterKind::plan:
      return RegisterForm::tr("New plan");
    case RegisterKind::interval:
      return RegisterForm::tr("New interval policy");
    case RegisterKind::channel:
      break;
  }
  return RegisterForm::tr("New channel");
}

RegisterForm::RegisterForm(Session& session, RegisterKind kind, const TypedFields& preset, QWidget* parent)
    : RegisterForm(session, kind, {}, true, preset, parent) {}

RegisterForm::RegisterForm(Session& session, RegisterKind kind, const QString& name, QWidget* parent)
    : RegisterForm(session, kind, name, false, {}, parent) {}

RegisterForm::RegisterForm(Session& session, RegisterKind kind, const QString& name, bool isNew,
                           const TypedFields& preset, QWidget* parent)
    : SetupForm(isNew ? newTitle(kind) : changeTitle(kind, name), isNew ? tr("Add") : tr("Save"), parent),
      session_(session),
      kind_(kind),
      name_(name),
      new_(isNew) {
  addRows();
  addBy();
  fill(isNew ? preset : fieldsFor(session.site(), kind, toCore(name)).value_or(TypedFields()));
  if (!isNew && kind != RegisterKind::place) {
    setReadOnly(std::string(nameField(kind)));
  }
  if (kind == RegisterKind::interval) {
    showPolicy();
  } else if (kind == RegisterKind::plan) {
    showRule();
  } else if (kind == RegisterKind::channel && isNew) {
    showKind();
  }
  save = [this](const TypedFields& fields) { return keep(fields); };
  adjustSize();
  if (QWidget* first = widget(firstField())) {
    first->setFocus(Qt::OtherFocusReason);
  }
}

/// What is typed first: the name of a new one, else the first that may be changed.
std::string RegisterForm::firstField() const {
  if (new_ || kind_ == RegisterKind::place) {
    return std::string(nameField(kind_));
  }
  switch (kind_) {
    case RegisterKind::channel:
      return "title";
    case RegisterKind::plan:
      return "revision";
    case RegisterKind::interval:
      return "policy";
    case RegisterKind::standard:
    case RegisterKind::sensor:
      return "description";
    case RegisterKind::site:
    case RegisterKind::place:
    case RegisterKind::person:
      break;
  }
  return "name";
}

void RegisterForm::addRows() {
  switch (kind_) {
    case RegisterKind::site:
      return addSite();
    case RegisterKind::place:
      return addPlace();
    case RegisterKind::person:
      return addPerson();
    case RegisterKind::standard:
      return addStandard();
    case RegisterKind::sensor:
      return addSensor();
    case RegisterKind::plan:
      return addPlan();
    case RegisterKind::interval:
      return addInterval();
    case RegisterKind::channel:
      return addChannel();
  }
}

FormDialog::Saved RegisterForm::keep(const TypedFields& fields) {
  const std::string by = typedText(fields, "by");
  const std::string name = new_ ? addToRegister(session_.store(), kind_, fields, by)
                                : changeInRegister(session_.store(), kind_, toCore(name_), fields, by);
  session_.setLastSigner(fromCore(by));
  const QString title = changeTitle(kind_, fromCore(name));
  return {new_ ? tr("%1 is in the record.").arg(title) : tr("%1 is changed.").arg(title), fromCore(name)};
}

}  // namespace spanwright
