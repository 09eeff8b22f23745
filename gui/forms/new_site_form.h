// SPDX-License-Identifier: GPL-3.0-or-later
//
// A new site: what it is called, its first place and person, and where its record is to be.
#pragma once

#include "gui/forms/form_dialog.h"

namespace spanwright {

class Session;

class NewSiteForm : public FormDialog {
  Q_OBJECT
 public:
  explicit NewSiteForm(Session& session, QWidget* parent = nullptr);

 private:
  void askFile();
  void proposeFile();

  Session& session_;
  QString proposed_;
};

}  // namespace spanwright
