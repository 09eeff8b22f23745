// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <QGuiApplication>
#include <filesystem>
#include <iostream>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "core/record/problem.h"
#include "core/store/store.h"
#include "core/tasks/issue.h"
#include "gui/certificate/draw.h"

namespace spanwright {

namespace {

// Fonts need a QGuiApplication; a terminal has no display, so the offscreen platform is asked for.
class DrawingSession {
 public:
  DrawingSession() {
    if (!QGuiApplication::instance()) {
      qputenv("QT_QPA_PLATFORM", "offscreen");
      // Notes of the platform about its folders are not for the person who asked for a certificate.
      qInstallMessageHandler([](QtMsgType type, const QMessageLogContext&, const QString& message) {
        if (type == QtCriticalMsg || type == QtFatalMsg) {
          std::cerr << message.toStdString() << '\n';
        }
      });
      application_ = std::make_unique<QGuiApplication>(count_, arguments_);
    }
  }

 private:
  int count_ = 1;
  char name_[11] = "spanwright";
  char* arguments_[2] = {name_, nullptr};
  std::unique_ptr<QGuiApplication> application_;
};

class CertificateCommand : public Command {
 public:
  std::string name() const override { return "certificate"; }
  std::string description() const override { return "write certificates of calibrations"; }
  bool writes() const override { return true; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("CALIBRATION", calibrations_, "numbers of calibrations (see \"spanwright show\")")
        ->required()
        ->expected(1, -1);
    app.add_option("--out", folder_, "folder to write into")->required();
    app.add_option("--form", form_, "pdf")->check(CLI::IsMember({"pdf"}))->capture_default_str();
    app.add_option("--paper", paper_, "a4 or letter")
        ->check(CLI::IsMember({"a4", "letter"}))
        ->capture_default_str();
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    Store store = openRecord(record_, Store::Mode::readWrite, surroundings);
    refuseFaulty(store);
    makeFolder();
    const DrawingSession session;
    const Paper paper = paper_ == "letter" ? Paper::letter : Paper::a4;
    Json written = Json::array();
    for (const CalibrationId id : calibrations_) {
      const Certificate certificate = issueCertificate(store, id);
      const std::filesystem::path file = std::filesystem::path(folder_) / (certificate.number + ".pdf");
      const int pages = writeCertificatePdf(certificate, QString::fromStdString(file.string()), paper);
      written.push_back({{"calibration", id}, {"number", certificate.number}, {"files", {file.string()}}});
      if (!json_) {
        surroundings.out << fmt::format("Certificate {} of calibration {}: {} ({} page{})\n",
                                        certificate.number, id, file.string(), pages, pages == 1 ? "" : "s");
      }
    }
    if (json_) {
      printJson(surroundings, written);
    }
    return kDone;
  }

 private:
  // Every calibration is looked at before the first number is given out: all or none.
  void refuseFaulty(const Store& store) const {
    std::vector<Problem> problems;
    for (const CalibrationId id : calibrations_) {
      for (const std::string& fault : issueFaults(store, id)) {
        Problem& problem = problems.emplace_back();
        problem.what = fmt::format("calibration {}: {}", id, fault);
      }
    }
    if (!problems.empty()) {
      throw InputError(std::move(problems));
    }
  }

  void makeFolder() const {
    std::error_code failed;
    std::filesystem::create_directories(folder_, failed);
    if (failed) {
      throw StorageError(fmt::format("The folder {} cannot be made ({}); give another with --out.", folder_,
                                     failed.message()));
    }
  }

  std::string record_, folder_, form_ = "pdf", paper_ = "a4";
  std::vector<CalibrationId> calibrations_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> certificateCommand() {
  return std::make_unique<CertificateCommand>();
}

}  // namespace spanwright
