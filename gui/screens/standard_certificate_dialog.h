// SPDX-License-Identifier: GPL-3.0-or-later
//
// A standard's new certificate, by form.
#pragma once

#include <QDialog>

#include "core/tasks/standard_certificate.h"

class QComboBox;
class QDateEdit;
class QLineEdit;

namespace spanwright {

class PointTable;
class RefusalLine;
class Session;

class StandardCertificateDialog : public QDialog {
  Q_OBJECT
 public:
  StandardCertificateDialog(Session& session, const QString& serial, QWidget* parent = nullptr);
  PointTable* table() const { return table_; }
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 signals:
  /// It is in the record; one sentence of what.
  void added(const QString& sentence);

 private:
  TypedCertificate typed() const;
  void add();

  Session& session_;
  QString serial_;
  QLineEdit *number_, *issuer_, *traceability_, *factor_;
  QDateEdit *issued_, *from_, *until_;
  QComboBox* person_;
  PointTable* table_;
  RefusalLine* refusal_;
};

}  // namespace spanwright
