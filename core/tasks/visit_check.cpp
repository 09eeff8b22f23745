// SPDX-License-Identifier: GPL-3.0-or-later
//
// A proposed visit held against the register: every problem at once, or the calibration it amounts to.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <utility>

#include "core/record/reference_junction.h"
#include "core/tasks/place_readings.h"
#include "core/tasks/point_uncertainty.h"
#include "core/tasks/visit.h"

namespace spanwright {
namespace {

class VisitCheck {
 public:
  VisitCheck(const Register& site, const ProposedVisit& visit, Moment now, bool historic)
      : site_(site), visit_(visit), now_(now), historic_(historic), dated_(!visit.performed.is_special()) {}

  CheckedVisit run() {
    checkDate();
    checkPerson();
    checkStandards();
    checkConditions();
    checkAdjustment();
    openOwnSheet();
    if (sheet_) {
      checkCautions();
      checkOrder();
    }
    if (sheet_ && takeJunction()) {
      found_ = placed(visit_.asFound, Phase::asFound);
      left_ = placed(visit_.asLeft, Phase::asLeft);
      checkCoverage();
      addUncertainty(found_);
      addUncertainty(left_);
    }
    CheckedVisit result;
    if (problems_.empty()) {
      result.calibration = calibration();
    }
    result.problems = std::move(problems_);
    return result;
  }

 private:
  void add(std::string what, std::string todo, const Where& where = {}) {
    const bool known = !where.file.empty() || where.line > 0 || !where.columnName.empty();
    problems_.push_back({known ? where : visit_.where, std::move(what), std::move(todo)});
  }

  void checkDate() {
    if (!dated_) {
      add("the visit has no date", "give the date and time it was made");
    } else if (visit_.performed > now_) {
      add(fmt::format("the visit's date {} lies in the future", formatMoment(visit_.performed)),
          "correct the date and time");
    }
  }

  void checkPerson() {
    if (visit_.person.empty()) {
      add("nobody is named as having made the visit", "name the technician");
      return;
    }
    const Person* person = site_.person(visit_.person);
    if (person == nullptr) {
      add(fmt::format("there is no person \"{}\" in the register", visit_.person),
          "correct the name, or add the person first");
      return;
    }
    if (std::find(person->roles.begin(), person->roles.end(), Role::technician) == person->roles.end()) {
      add(fmt::format("{} is not a technician", person->login), "name the technician who made the visit");
    }
    if (person->leftOn && dated_ && visit_.performed.date() > *person->leftOn) {
      add(fmt::format("{} left on {}, before the visit", person->login, formatDate(*person->leftOn)),
          "correct the person or the date");
    }
  }

  void checkStandards() {
    if (visit_.standards.empty() && !historic_) {
      add("no standard is named", "name the reference standards the readings were taken with");
    }
    std::set<std::string_view> seen;
    for (const std::string& serial : visit_.standards) {
      if (!seen.insert(serial).second) {
        add(fmt::format("standard {} is named twice", serial), "name it once");
        continue;
      }
      const Standard* standard = site_.standard(serial);
      if (standard == nullptr) {
        add(fmt::format("there is no standard \"{}\" in the register", serial),
            "correct the serial number, or add the standard first");
        standardsUsable_ = false;
      } else if (dated_) {
        checkCertificate(*standard);
      }
    }
  }

  void checkCertificate(const Standard& standard) {
    const Date day = visit_.performed.date();
    const StandardUse use = standardUse(standard, day);
    if (use.usable()) {
      standards_.push_back(&standard);
      return;
    }
    standardsUsable_ = false;
    if (use.event != nullptr) {
      add(fmt::format("standard {} is out of service from {}: {}", standard.serial,
                      formatDate(use.event->firstDay), use.event->reason),
          "use another standard; it comes back into service by a reviewer's signature");
      return;
    }
    std::string known = "it has none at all";
    const auto newest =
        std::max_element(standard.certificates.begin(), standard.certificates.end(),
                         [](const auto& a, const auto& b) { return a.validUntil < b.validUntil; });
    if (newest != standard.certificates.end()) {
      known = fmt::format("its last, {}, was valid from {} to {}", newest->number,
                          formatDate(newest->validFrom), formatDate(newest->validUntil));
    }
    add(fmt::format("standard {} has no certificate valid on {}: {}", standard.serial, formatDate(day),
                    known),
        "use a standard that is valid, enter the certificate that covers the day, or ask a reviewer to allow "
        "its use");
  }

  void checkConditions() {
    const auto& [temperature, humidity, note, junction] = visit_.conditions;  // junction: with its sheet
    if (temperature && !(*temperature >= -60.0 && *temperature <= 80.0)) {
      add("the ambient temperature is not between -60 and 80 degC", "correct it, or leave it out");
    }
    if (humidity && !(*humidity >= 0.0 && *humidity <= 100.0)) {
      add("the relative humidity is not between 0 and 100 %", "correct it, or leave it out");
    }
  }

  void checkAdjustment() {
    const Adjustment& adjustment = visit_.adjustment;
    if ((adjustment.adjusted || adjustment.repaired) && visit_.asLeft.empty()) {
      add(fmt::format("{} {} but there are no as-left readings", visit_.channel,
                      adjustment.repaired ? "was repaired" : "was adjusted"),
          "enter the as-left readings taken afterwards, or take the adjustment back if nothing was changed");
    }
  }

  void openOwnSheet() {
    if (!dated_) {
      if (site_.channel(visit_.channel) == nullptr) {
        addProblemOf(openSheet(site_, visit_.channel, visit_.subject, now_));
      }
      return;
    }
    auto opened = openSheet(site_, visit_.channel, visit_.subject, visit_.performed);
    addProblemOf(opened);
    if (auto* sheet = std::get_if<VisitSheet>(&opened)) {
      sheet_ = std::move(*sheet);
      if (sheet_->channel->retired && !historic_) {
        add(fmt::format("{} is retired", sheet_->channel->tag),
            "correct the tag, or bring the channel back first");
      }
    }
  }

  void addProblemOf(const std::variant<VisitSheet, Problem>& opened) {
    if (const auto* missing = std::get_if<Problem>(&opened)) {
      add(missing->what, missing->todo);
    }
  }

  /// False when the visit cannot have the reference junction it gives: no mV can then be judged.
  bool takeJunction() {
    const auto& junction = visit_.conditions.referenceJunction;
    const auto fault = junction ? junctionFault(*junction, sheet_->couple()) : std::nullopt;
    if (fault) {
      add(fault->what, fault->todo);
      return false;
    }
    sheet_->referenceJunction = junction;
    return true;
  }

  void checkCautions() {
    if (!historic_ && !visit_.cautionsConfirmed && !sheet_->plan->cautions.empty()) {
      add(fmt::format("the cautions of plan {} are not confirmed", sheet_->plan->code),
          "read and confirm them before the first as-found value");
    }
  }

  /// As left means after; without a before it proves nothing about what was found.
  void checkOrder() {
    if (!visit_.asFound.empty()) {
      return;
    }
    if (visit_.asLeft.empty()) {
      add("the visit has no readings", historic_ ? "leave it out" : "enter the as-found readings");
    } else {
      add("there are as-left readings but no as-found ones",
          "give the as-found readings, or a reason for skipping each of them");
    }
  }

  std::vector<Reading> placed(const std::vector<ProposedReading>& proposed, Phase phase) {
    PlacedReadings result = placeReadings(*sheet_, proposed, phase, visit_.sign, historic_);
    for (Problem& trouble : result.problems) {
      add(std::move(trouble.what), std::move(trouble.todo), trouble.where);
    }
    return std::move(result.readings);
  }

  void checkCoverage() {
    if (!standardsUsable_ || standards_.empty()) {
      return;
    }
    struct Gap {
      MeasuredValue value;
      std::vector<std::string> labels;
      bool unitCovered = false;
    };
    std::vector<Gap> gaps;
    for (const std::vector<Reading>* readings : {&found_, &left_}) {
      for (const Reading& reading : *readings) {
        if (reading.skipped()) {
          continue;
        }
        for (MeasuredValue value : measuredValues(*sheet_, reading)) {
          if (!value.applied) {
            // A standard is chosen for what should be observed. What a dead output shows instead may lie
            // outside its certificate; that must be recordable, and then has no uncertainty.
            value.value += reading.expected - reading.indicated;
          }
          const bool unitCovered = covered(value, coversUnit);
          if ((unitCovered && historic_) || covered(value, coversValue)) {
            continue;
          }
          auto gap = std::find_if(gaps.begin(), gaps.end(), [&](const Gap& other) {
            return other.value.unit == value.unit && other.value.applied == value.applied;
          });
          if (gap == gaps.end()) {
            gap = gaps.insert(gaps.end(), Gap{value, {}, unitCovered});
          }
          if (std::find(gap->labels.begin(), gap->labels.end(), reading.point.label) == gap->labels.end()) {
            gap->labels.push_back(reading.point.label);
          }
        }
      }
    }
    for (const Gap& gap : gaps) {
      addGap(gap.value, gap.labels, gap.unitCovered);
    }
  }

  bool covered(const MeasuredValue& value,
               bool (*covers)(const VisitSheet&, const StandardCertificate&, const MeasuredValue&)) const {
    return std::any_of(standards_.begin(), standards_.end(), [&](const Standard* standard) {
      const StandardCertificate* certificate = standardUse(*standard, visit_.performed.date()).certificate;
      return certificate != nullptr && covers(*sheet_, *certificate, value);
    });
  }

  void addGap(const MeasuredValue& value, const std::vector<std::string>& labels, bool unitCovered) {
    const std::string_view unit = symbol(value.unit);
    std::vector<std::string> others;
    for (const Standard* standard : standardsFor(site_, visit_.performed.date(), value.unit)) {
      if (std::find(standards_.begin(), standards_.end(), standard) == standards_.end()) {
        others.push_back(standard->serial);
      }
    }
    const std::string todo =
        others.empty()
            ? "use a standard whose certificate does; none in the register has one valid on the day"
            : fmt::format("name the one that was used; valid for {} on the day: {}", unit,
                          fmt::join(others, ", "));
    if (unitCovered) {
      add(fmt::format("no named standard's certificate reaches the values {} at {}, in {}",
                      value.applied ? "applied" : "observed", fmt::join(labels, ", "), unit),
          todo);
    } else {
      add(fmt::format("no named standard has a certificate for what is {}, in {}",
                      value.applied ? "applied" : "observed", unit),
          todo);
    }
  }

  void addUncertainty(std::vector<Reading>& readings) const {
    const Repeatability repeated = repeatability(readings);
    for (Reading& reading : readings) {
      fillUncertainty(*sheet_, reading, standards_, repeated);
      judgeByRule(*sheet_, reading);
    }
  }

  Calibration calibration() {
    Calibration made;
    made.channel = sheet_->channel->tag;
    made.subject = visit_.subject;
    made.setupVersion = sheet_->setup->version;
    if (visit_.subject != Subject::channel) {
      made.sensor = sheet_->sensor->serial;
    }
    made.plan = sheet_->plan->code;
    made.planRevision = sheet_->plan->revision;
    made.performed = visit_.performed;
    made.person = visit_.person;
    for (const Standard* standard : standards_) {
      made.standards.push_back(
          {standard->serial, standardUse(*standard, visit_.performed.date()).certificate->number});
    }
    made.conditions = visit_.conditions;
    made.cautionsConfirmed = visit_.cautionsConfirmed;
    made.adjustment = visit_.adjustment;
    made.asFound = std::move(found_);
    made.asLeft = std::move(left_);
    made.foundVerdict = overall(made.asFound);
    made.leftVerdict = overall(made.standingAsLeft());
    made.remarks = visit_.remarks;
    made.source = visit_.source;
    made.corrects = visit_.corrects;
    made.correctionReason = visit_.correctionReason;
    return made;
  }

  const Register& site_;
  const ProposedVisit& visit_;
  const Moment now_;
  const bool historic_;
  const bool dated_;
  std::optional<VisitSheet> sheet_;
  std::vector<const Standard*> standards_;  ///< named, known and valid on the day, in the order named
  bool standardsUsable_ = true;             ///< all that were named
  std::vector<Reading> found_, left_;
  std::vector<Problem> problems_;
};

}  // namespace

CheckedVisit checkVisit(const Register& site, const ProposedVisit& visit, Moment now, bool historic) {
  return VisitCheck(site, visit, now, historic).run();
}

}  // namespace spanwright
