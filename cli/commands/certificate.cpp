// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/drawing.h"
#include "core/certificate/certificate_data.h"
#include "core/record/problem.h"
#include "core/store/store.h"
#include "core/tasks/issue.h"
#include "gui/certificate/draw.h"

namespace spanwright {

namespace {

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
    app.add_option("--form", forms_,
                   "pdf, json (the same words and numbers as data), or both with a comma between")
        ->delimiter(',')
        ->check(CLI::IsMember({"pdf", "json"}))
        ->capture_default_str();
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
      Json files = Json::array();
      for (const std::string& form : forms_) {
        const std::filesystem::path file =
            std::filesystem::path(folder_) / fmt::format("{}.{}", certificate.number, form);
        form == "pdf" ? void(writeCertificatePdf(certificate, QString::fromStdString(file.string()), paper))
                      : writeData(certificate, file);
        files.push_back(file.string());
        if (!json_) {
          surroundings.out << fmt::format(
              "Certificate {}{} of calibration {}: {}\n", certificate.number,
              certificate.revision > 1 ? fmt::format(", revision {},", certificate.revision) : std::string(),
              id, file.string());
        }
      }
      written.push_back({{"calibration", id},
                         {"number", certificate.number},
                         {"revision", certificate.revision},
                         {"files", files}});
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

  static void writeData(const Certificate& certificate, const std::filesystem::path& file) {
    std::ofstream out(file, std::ios::binary);
    out << certificateData(certificate);
    out.close();
    if (!out) {
      throw StorageError(
          fmt::format("The file {} cannot be written; choose another folder or make room.", file.string()));
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

  std::string record_, folder_, paper_ = "a4";
  std::vector<std::string> forms_{"pdf"};
  std::vector<CalibrationId> calibrations_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> certificateCommand() {
  return std::make_unique<CertificateCommand>();
}

}  // namespace spanwright
