// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window: screens, the way between them, and what concerns the record as a whole.
#pragma once

#include <QMainWindow>
#include <map>
#include <optional>

#include "core/metrology/test_points.h"
#include "core/record/calibration.h"
#include "core/store/store.h"
#include "core/tasks/register_changes.h"
#include "gui/actions/commands.h"
#include "gui/models/today_model.h"
#include "gui/screens/reach_screen.h"
#include "gui/settings/language.h"
#include "gui/settings/look.h"

class QDialog;
class QLabel;
class QMenu;
class QProgressBar;
class QPushButton;
class QStackedWidget;

namespace spanwright {

class CertificateScreen;
class ChannelScreen;
class DueScreen;
class FleetScreen;
class IntervalsScreen;
class JournalScreen;
class MessageBar;
class NumbersPanel;
class PlanScreen;
class RegisterForm;
class ReviewScreen;
class RoundsScreen;
class Session;
class SiteScreen;
class StandardsScreen;
class StartScreen;
class TodayScreen;
class TraceScreen;
class VisitScreen;

/// Where a window was left, for the next one to go on there.
struct LeftOff {
  std::optional<int> page;  ///< in the menu of places; nothing when what is shown is not in it
  QString channel;
  std::optional<CalibrationId> calibration;  ///< chosen on the channel's page
  std::optional<CalibrationId> certificate;
  std::optional<CalibrationId> trace;
  std::optional<ReachPlace> reach;
  std::optional<Draft> visit;  ///< id 0 when nothing is typed yet
};

class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  explicit MainWindow(Session& session, QWidget* parent = nullptr);

  /// Shows a screen by its name on the command line, about `channel` (empty: one with a history). False when
  /// there is no such channel.
  bool showScreen(const QString& name, const QString& channel, std::optional<Subject> subject = std::nullopt);
  void showStart();
  void showToday();
  void showSite();
  void showDue();
  /// What waits for a signature.
  void showReview();
  /// All channels by drift.
  void showDrift();
  /// Visits fitted into weeks.
  void showPlan();
  /// What the policies propose.
  void showIntervals();
  void showStandards();
  void showRounds();
  void showJournal();
  /// The visit of the next channel to do of the round chosen.
  void goToNextStop();
  void showChannel(const QString& tag, std::optional<Subject> subject = std::nullopt);
  void showVisit(const QString& tag, std::optional<Subject> subject);
  void showCertificate(CalibrationId calibration);
  /// What this standard reached when it was found out of tolerance.
  void showReach(const QString& serial);
  /// It with the origin of every number.
  void showTrace(CalibrationId calibration);
  /// Asks for a signature under it.
  void signCalibration(CalibrationId calibration);
  void resumeDraft(std::int64_t draft);
  /// Opens your own copy of the sample record; a sentence in the bar when there is none.
  void openSample();

  MessageBar* bar() const { return bar_; }
  VisitScreen* visitScreen() const { return visit_; }
  ChannelScreen* channelScreen() const { return channel_; }
  CertificateScreen* certificateScreen() const { return certificate_; }
  SiteScreen* siteScreen() const { return site_; }
  DueScreen* dueScreen() const { return due_; }
  ReviewScreen* reviewScreen() const { return review_; }
  FleetScreen* fleetScreen() const { return fleet_; }
  PlanScreen* planScreen() const { return plan_; }
  IntervalsScreen* intervalsScreen() const { return intervals_; }
  TodayScreen* todayScreen() const { return today_; }
  StandardsScreen* standardsScreen() const { return standards_; }
  RoundsScreen* roundsScreen() const { return rounds_; }
  JournalScreen* journalScreen() const { return journal_; }
  ReachScreen* reachScreen() const { return reach_; }
  TraceScreen* traceScreen() const { return trace_; }
  QWidget* currentScreen() const;

  /// Puts everything typed on disk and answers where this window was; it is of no use afterwards. Nothing
  /// when what was typed cannot be put on disk and must not be lost.
  std::optional<LeftOff> leaveOff();
  /// The record that is open already, at this place.
  void goOn(const LeftOff& place);

 signals:
  void languageAsked(spanwright::Language language);
  void lookAsked(spanwright::Look look);
  /// In percent.
  void textSizeAsked(int textSize);

 protected:
  void closeEvent(QCloseEvent* event) override;
  /// Enter presses the button that has the keys, as in a dialog.
  void keyPressEvent(QKeyEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  /// Makes and connects the screens of main_window_places.cpp.
  void addPlaces();
  void makeActions();
  void makeMenus();
  void makeStatus();
  void addLanguages(QMenu* menu);
  void addLooks(QMenu* menu);
  void addTextSizes(QMenu* menu);
  void goOnWithVisit(const Draft& visit);
  void connectScreens();
  void connectSession();
  void goTo(QWidget* screen);
  void goBack();
  void enableActions();
  /// What enableActions does for the screens of main_window_places.cpp.
  void enablePlaces();
  /// Reads the record again for that of these screens that is shown, if one is.
  void refreshShown();
  /// Shows one of them by its name on the command line; false when none has it.
  bool showPlace(const QString& name);
  /// Shows a dialog that deletes itself; its news goes into the bar.
  void openDialog(QDialog* dialog);
  void openEvidence();
  void openPassphrase();
  void openFiles();
  void connectStandards();
  void connectReach();
  /// One just made, with its news in the bar.
  void showRound(std::int64_t round, const QString& sentence);
  void connectRounds();
  void openLabels(const std::vector<RoundStop>& stops);
  /// Reads the record again and switches to the place.
  template <typename Screen>
  void goToPlace(Screen* screen);
  void showCalibration(const QString& tag, CalibrationId calibration);
  void takeNews(const QString& sentence);
  void followToday(const TodayTarget& target);
  /// Connects what main_window_register.cpp does to the register.
  void connectRegister();
  void enableRegister();
  void openNewSite();
  void openRegisterForm(RegisterForm* form);
  void changeChosen();
  void openNewSetup();
  void openFitting();
  void openRegister(RegisterKind kind);
  /// Shows everywhere what was changed of the register.
  void takeRegister(const QString& sentence);
  /// The channel shown or chosen; empty when there is none.
  QString channelAtHand() const;
  void askOpen();
  void askNew();
  void closeRecord();
  void takeRecord();
  void dropRecord();
  void offerDrafts();
  void showWaiting(bool waits);
  void enterVisit();
  void issueCertificate();
  bool showsCalibrations() const;
  /// Of the page shown; nothing when it has none.
  std::optional<CalibrationId> chosenCalibration() const;
  void signChosen();
  void traceChosen();
  void connectTrace();
  void takeSignature(const QString& sentence);
  void checkRecord();
  void showKeys();
  /// Beside the page, at the number chosen in the table that has the keys.
  void explainNumbers();
  void showAbout();
  QString channelWithHistory() const;
  QAction* action(CommandId id) const { return actions_.at(id); }

  Session& session_;
  std::map<CommandId, QAction*> actions_;
  QMenu* places_ = nullptr;
  QMenu* edit_ = nullptr;
  QStackedWidget* stack_;
  MessageBar* bar_;
  StartScreen* start_;
  SiteScreen* site_;
  DueScreen* due_;
  ReviewScreen* review_;
  FleetScreen* fleet_;
  PlanScreen* plan_;
  IntervalsScreen* intervals_;
  ChannelScreen* channel_;
  VisitScreen* visit_;
  CertificateScreen* certificate_;
  TodayScreen* today_ = nullptr;
  StandardsScreen* standards_ = nullptr;
  RoundsScreen* rounds_ = nullptr;
  JournalScreen* journal_ = nullptr;
  TraceScreen* trace_ = nullptr;
  ReachScreen* reach_ = nullptr;
  NumbersPanel* numbers_ = nullptr;
  QLabel* busyText_ = nullptr;
  QProgressBar* busy_ = nullptr;
  QPushButton* cancel_ = nullptr;
  QList<QWidget*> past_;
};

/// The sample record beside the program, or an empty text when it was not built.
QString sampleRecord();

}  // namespace spanwright
