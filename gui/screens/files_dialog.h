// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files kept in the record about one thing: listed, added from a file or by dropping it here, saved out
// again.
#pragma once

#include <QDialog>
#include <vector>

#include "core/store/store.h"
#include "gui/models/rows_model.h"

class QComboBox;
class QLineEdit;
class QPushButton;

namespace spanwright {

class RefusalLine;
class Session;
class TableView;

class FilesModel : public RowsModel<Attachment> {
  Q_OBJECT
 public:
  enum Columns { kName, kSize, kNote, kBy, kAdded, kDigest };
  explicit FilesModel(QObject* parent = nullptr);
};

class FilesDialog : public QDialog {
  Q_OBJECT
 public:
  /// `about`: what files may be about here, each with its channel, calibration or standard's certificate
  /// filled in; the first is chosen. Not empty.
  FilesDialog(Session& session, std::vector<Attachment> about, QWidget* parent = nullptr);
  /// Keeps these files about what is chosen; stops at the first that is refused.
  void add(const QStringList& files);
  /// Writes the file chosen to this place, which must not be there yet.
  void saveTo(const QString& file);
  int count() const;
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 protected:
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  void refresh();
  const Attachment& chosen() const;

  Session& session_;
  std::vector<Attachment> about_;
  FilesModel* model_;
  QComboBox *what_, *person_;
  TableView* table_;
  QLineEdit* note_;
  QPushButton* save_;
  RefusalLine* refusal_;
};

}  // namespace spanwright
