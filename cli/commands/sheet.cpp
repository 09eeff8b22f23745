// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/drawing.h"
#include "core/tasks/plan.h"
#include "core/tasks/round_sheet.h"
#include "gui/certificate/draw.h"

namespace spanwright {

namespace {

class SheetCommand : public Command {
 public:
  std::string name() const override { return "sheet"; }
  std::string description() const override { return "sheets to print and fill in by hand on a round (PDF)"; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    auto* what = app.add_option_group("what", "exactly one of");
    what->add_option("--round", round_, "what is left of the round of this number")
        ->check(CLI::PositiveNumber);
    what->add_option("--channel", channels_, "tags of channels")->expected(1, -1);
    auto* from = what->add_option("--from", from_, "first day of the plan's days");
    what->require_option(1);
    app.add_option("--days", days_, "of the plan: how many days")
        ->check(CLI::Range(1, 31))
        ->needs(from)
        ->capture_default_str();
    app.add_option("--weeks", weeks_,
                   "of the plan: over how many weeks it is made, as in \"spanwright plan\"")
        ->check(CLI::Range(1, 520))
        ->needs(from)
        ->capture_default_str();
    app.add_option("--out", file_, "the PDF to write")->required();
    app.add_option("--paper", paper_, "a4 or letter")
        ->check(CLI::IsMember({"a4", "letter"}))
        ->capture_default_str();
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    const std::vector<RoundSheet> sheets = made(store, surroundings);
    if (sheets.empty()) {
      throw InputError(fmt::format("nothing is planned for {} and the {} days after it", from_, days_ - 1),
                       "see \"spanwright plan\" for the days with visits, and --weeks");
    }
    const DrawingSession session;
    const Paper paper = paper_ == "letter" ? Paper::letter : Paper::a4;
    const int pages = writeRoundSheetsPdf(sheets, QString::fromStdString(file_), paper);
    print(surroundings, sheets, pages);
    return kDone;
  }

 private:
  std::vector<RoundSheet> made(const Store& store, const Surroundings& surroundings) const {
    const Date today = surroundings.clock.localNow().date();
    if (round_ > 0) {
      return {sheetOfRound(store, round_, today)};
    }
    if (!channels_.empty()) {
      return {sheetOfChannels(store, channels_, today)};
    }
    PlanQuestion question;
    question.from = dayOf(from_, surroundings, "--from");
    question.weeks = weeks_;
    return sheetsOfPlan(store, sitePlan(store, question), days_);
  }

  void print(const Surroundings& surroundings, const std::vector<RoundSheet>& sheets, int pages) const {
    Json list = Json::array();
    for (const RoundSheet& sheet : sheets) {
      Json channels = Json::array();
      for (const RoundSheetItem& item : sheet.items) {
        channels.push_back({{"channel", item.tag},
                            {"subject", item.subject},
                            {"points", item.points.size()},
                            {"problem", item.problem.empty() ? Json(nullptr) : Json(item.problem)}});
      }
      list.push_back({{"title", sheet.title},
                      {"date", sheet.day.empty() ? Json(nullptr) : Json(sheet.day)},
                      {"technician", sheet.technician.empty() ? Json(nullptr) : Json(sheet.technician)},
                      {"channels", channels}});
      if (!json_) {
        surroundings.out << fmt::format("{}{}: {} to fill in\n", sheet.title,
                                        sheet.technician.empty() ? "" : ", " + sheet.technician,
                                        sheet.items.size());
      }
    }
    if (json_) {
      printJson(surroundings, {{"file", file_}, {"pages", pages}, {"sheets", list}});
    } else {
      surroundings.out << fmt::format("{} pages: {}\n", pages, file_);
    }
  }

  std::string record_, from_, file_, paper_ = "a4";
  std::int64_t round_ = 0;
  std::vector<std::string> channels_;
  int days_ = 1, weeks_ = 4;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> sheetCommand() {
  return std::make_unique<SheetCommand>();
}

}  // namespace spanwright
