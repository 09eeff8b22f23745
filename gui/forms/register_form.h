// SPDX-License-Identifier: GPL-3.0-or-later
//
// One thing of the register by form, a new one or one that is there.
#pragma once

#include "core/tasks/register_changes.h"
#include "gui/forms/setup_rows.h"

namespace spanwright {

class Session;

class RegisterForm : public SetupForm {
  Q_OBJECT
 public:
  /// A new one; `preset` stands in its fields.
  RegisterForm(Session& session, RegisterKind kind, const TypedFields& preset = {},
               QWidget* parent = nullptr);
  /// The one of this name.
  RegisterForm(Session& session, RegisterKind kind, const QString& name, QWidget* parent = nullptr);

 signals:
  /// Something the form refers to was added from within it, whatever becomes of the form.
  void added(const QString& sentence);

 private:
  RegisterForm(Session& session, RegisterKind kind, const QString& name, bool isNew,
               const TypedFields& preset, QWidget* parent);
  void addRows();
  void addSite();
  void addPlace();
  void addPerson();
  void addStandard();
  void addSensor();
  void addPlan();
  void addInterval();
  void addChannel();
  void addRoutine(Subject subject, const QString& label);
  /// A box of the register's names, with a button that adds one.
  void addNamed(const std::string& field, const QString& label, RegisterKind kind, bool mayBeEmpty);
  struct NamedBox {
    QComboBox* box;
    RegisterKind kind;
    bool mayBeEmpty;
  };
  void fillNamed(const NamedBox& named) const;
  void addBy();
  void showPolicy();
  void showRule();
  std::string firstField() const;
  Saved keep(const TypedFields& fields);

  Session& session_;
  RegisterKind kind_;
  QString name_;
  bool new_;
  std::vector<NamedBox> named_;
};

/// "New person", "New channel" and so on.
QString newTitle(RegisterKind kind);

}  // namespace spanwright
