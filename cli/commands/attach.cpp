// SPDX-License-Identifier: GPL-3.0-or-later
//
// attach and attachments: files into the record and out again.
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/store/store.h"
#include "core/tasks/attachments.h"

namespace spanwright {

namespace {

std::string subjectOf(const Attachment& attachment) {
  if (!attachment.standard.empty()) {
    return fmt::format("standard {}, certificate {}", attachment.standard, attachment.certificate);
  }
  return attachment.channel.empty() ? fmt::format("calibration {}", attachment.calibration)
                                    : "channel " + attachment.channel;
}

Json textOrNull(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

Json document(const Attachment& a) {
  return {{"attachment", a.id},
          {"standard", textOrNull(a.standard)},
          {"certificate", textOrNull(a.certificate)},
          {"calibration", a.calibration == 0 ? Json(nullptr) : Json(a.calibration)},
          {"channel", textOrNull(a.channel)},
          {"name", a.name},
          {"media_type", a.mediaType},
          {"bytes", a.size},
          {"sha256", hex(a.sha256)},
          {"note", a.note},
          {"person", textOrNull(a.person)},
          {"added", formatMoment(a.addedUtc) + "Z"}};
}

class Attach : public Command {
 public:
  std::string name() const override { return "attach"; }
  std::string description() const override { return "keep a file in the record, about one thing in it"; }
  bool writes() const override { return true; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("FILE", file_, "the file to keep; it is copied")->required();
    auto* standard = app.add_option("--standard", about_.standard, "about a certificate of this standard");
    app.add_option("--certificate", about_.certificate, "number of the standard's certificate")
        ->needs(standard);
    app.add_option("--calibration", about_.calibration, "about this calibration")->check(CLI::PositiveNumber);
    app.add_option("--channel", about_.channel, "about this channel (tag)");
    app.add_option("--note", about_.note, "what it is");
    app.add_option("--person", about_.person, "who attaches it (login)");
    app.add_flag("--json", json_, "print one JSON document");
    app.callback([this] {
      if (int{!about_.standard.empty()} + int{about_.calibration != 0} + int{!about_.channel.empty()} != 1 ||
          about_.standard.empty() != about_.certificate.empty()) {
        throw CLI::ValidationError(
            "attach",
            "say what the file is about: --standard with --certificate, --calibration, or --channel");
      }
    });
  }
  int execute(const Surroundings& surroundings) override {
    Store store = Store::open(record_, Store::Mode::readWrite, surroundings.clock);
    const std::int64_t id = attachFile(store, file_, about_);
    for (const Attachment& attachment : store.attachments()) {
      if (attachment.id != id) {
        continue;
      }
      json_ ? printJson(surroundings, document(attachment))
            : void(surroundings.out << fmt::format(
                       "Attachment {} about {}: {} ({}, {} bytes)\nSHA-256: {}\n", id, subjectOf(attachment),
                       attachment.name, attachment.mediaType, attachment.size, hex(attachment.sha256)));
    }
    return kDone;
  }

 private:
  std::string record_, file_;
  Attachment about_;
  bool json_ = false;
};

class Attachments : public Command {
 public:
  std::string name() const override { return "attachments"; }
  std::string description() const override { return "files kept in the record; --out writes them out"; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--out", folder_, "write them into this folder, each checked against its digest");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    Json list = Json::array();
    Table table({{"no.", Table::Align::right},
                 {"about"},
                 {"name"},
                 {"type"},
                 {"bytes", Table::Align::right},
                 {"added (UTC)"},
                 {"by"},
                 {"note"}});
    for (const Attachment& a : store.attachments()) {
      Json one = document(a);
      if (!folder_.empty()) {
        one["file"] = writeAttachment(store, a, folder_).string();
      }
      list.push_back(std::move(one));
      table.add({std::to_string(a.id), subjectOf(a), a.name, a.mediaType, std::to_string(a.size),
                 formatMoment(a.addedUtc), a.person, a.note});
    }
    if (json_) {
      printJson(surroundings, list);
    } else if (list.empty()) {
      surroundings.out << "No file is kept in the record.\n";
    } else {
      table.print(surroundings.out);
      surroundings.out << (folder_.empty() ? ""
                                           : fmt::format("{} files written into {}, digests checked.\n",
                                                         list.size(), folder_));
    }
    return kDone;
  }

 private:
  std::string record_, folder_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> attachCommand() {
  return std::make_unique<Attach>();
}

std::unique_ptr<Command> attachmentsCommand() {
  return std::make_unique<Attachments>();
}

}  // namespace spanwright
