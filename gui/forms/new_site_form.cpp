// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/forms/new_site_form.h"

#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStandardPaths>

#include "core/tasks/register_changes.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QString recordFilter() {
  return NewSiteForm::tr("Records (*.spanwright)");
}

}  // namespace

NewSiteForm::NewSiteForm(Session& session, QWidget* parent)
    : FormDialog(tr("New site"), tr("Make the record"), parent), session_(session) {
  addHeading(tr("The site"));
  addLine("code", tr("&Code"), tr("2 to 8 capital letters and digits"));
  addLine("name", tr("&Name"));
  addLines("address", tr("&Address"));
  addLine("place", tr("First &place"), tr("For instance Hall / Cabinet 1"));
  addLine("issuer", tr("&Issuer"), tr("Who issues the certificates, which need it"));
  addLines("issuer_address", tr("Issuer's addre&ss"));
  addLine("customer", tr("C&ustomer"), tr("For whom the certificates are, which need it"));
  addLine("customer_contact", tr("Contact"), tr("Whom to ask there"));
  nextColumn();
  addHeading(tr("The first person"));
  addLine("person.login", tr("&Login"), tr("Short name by which signatures are told"));
  addLine("person.name", tr("Person's na&me"));
  addChecks("roles", tr("Roles"),
            {{"person.role.technician", tr("&technician")}, {"person.role.planner", tr("plann&er")}});
  addChecks("roles2", {},
            {{"person.role.reviewer", tr("&reviewer")}, {"person.role.administrator", tr("a&dministrator")}});
  addNumber("person.hours_per_week", tr("&Hours per week"), tr("for calibrations"));
  addHeading(tr("The record"));
  addLine("file", tr("&File"));
  auto* choose = new QPushButton(tr("Ch&oose…"), this);
  choose->setAutoDefault(false);
  addBeside("file", choose);
  QLabel* about = addText();
  about->setText(
      tr("One file holds all of the site; times in it are those of the clock on the wall. Places, channels, "
         "plans, standards and people are added afterwards, under Manage."));
  fill({{"person.role.technician", "yes"}, {"person.role.administrator", "yes"}});
  proposeFile();
  connect(choose, &QPushButton::clicked, this, &NewSiteForm::askFile);
  connect(qobject_cast<QLineEdit*>(widget("name")), &QLineEdit::textEdited, this, &NewSiteForm::proposeFile);
  save = [this](const TypedFields& fields) -> Saved {
    const QString file = fromCore(typedText(fields, "file"));
    std::vector<Problem> problems;
    Register site;
    try {
      site = newSite(fields);
    } catch (const InputError& refused) {
      problems = refused.problems();
    }
    const auto refuseFile = [&problems](const QString& what, const QString& todo) {
      Problem problem{{}, toCore(what), toCore(todo)};
      problem.where.field = "file";
      problems.push_back(std::move(problem));
    };
    if (file.isEmpty()) {
      refuseFile(tr("the record has no file"), tr("say where it is to be"));
    } else if (QFileInfo::exists(file)) {
      refuseFile(tr("there is a file of this name already"), tr("choose another name"));
    } else if (const QFileInfo folder(QFileInfo(file).absolutePath()); !folder.isDir()) {
      refuseFile(tr("the folder %1 is not there").arg(QDir::toNativeSeparators(folder.filePath())),
                 tr("choose one that is"));
    } else if (!folder.isWritable()) {
      refuseFile(
          tr("nothing can be written into the folder %1").arg(QDir::toNativeSeparators(folder.filePath())),
          tr("choose another one"));
    }
    if (!problems.empty()) {
      throw InputError(std::move(problems));
    }
    session_.create(site, file);
    kLastPerson.set(fromCore(site.people.front().login));
    return {tr("The record of %1 is made.").arg(fromCore(site.site.name)), file};
  };
  adjustSize();
  widget("code")->setFocus(Qt::OtherFocusReason);
}

void NewSiteForm::proposeFile() {
  auto* line = qobject_cast<QLineEdit*>(widget("file"));
  if (line->text() != proposed_) {
    return;  // a person's own stays
  }
  QString name = qobject_cast<QLineEdit*>(widget("name"))->text().trimmed();
  name = name.isEmpty() ? tr("site") : name.replace(u'/', u'-');
  QString folder = kLastFolder.get();
  if (folder.isEmpty() || !QFileInfo(folder).isDir()) {
    folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
  }
  if (!QFileInfo(folder).isDir()) {
    folder = QDir::homePath();
  }
  proposed_ = QDir::toNativeSeparators(QDir(folder).filePath(name + QStringLiteral(".spanwright")));
  line->setText(proposed_);
}

void NewSiteForm::askFile() {
  auto* line = qobject_cast<QLineEdit*>(widget("file"));
  QString file = QFileDialog::getSaveFileName(this, tr("Where the new record is to be"), line->text(),
                                              recordFilter(), nullptr, QFileDialog::DontConfirmOverwrite);
  if (!file.isEmpty()) {
    if (QFileInfo(file).suffix().isEmpty()) {
      file += QStringLiteral(".spanwright");
    }
    line->setText(QDir::toNativeSeparators(file));
  }
}

}  // namespace spanwright
