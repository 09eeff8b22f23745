// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every setting the window keeps, with its default, in one table.
#pragma once

#include <QByteArray>
#include <QSettings>
#include <QStringList>
#include <QVariant>

namespace spanwright {

template <typename T>
struct Setting {
  const char* key;
  T fallback;

  T get() const {
    return QSettings().value(QLatin1String(key), QVariant::fromValue(fallback)).template value<T>();
  }
  void set(const T& value) const { QSettings().setValue(QLatin1String(key), QVariant::fromValue(value)); }
};

inline const Setting<QString> kLook{"look/colours", QStringLiteral("light")};
inline const Setting<int> kTextSize{"look/text-size", 100};
inline const Setting<QString> kLanguage{"look/language", QStringLiteral("system")};
inline const Setting<QByteArray> kWindowGeometry{"window/geometry", {}};
inline const Setting<QStringList> kRecentRecords{"record/recent", {}};
inline const Setting<QString> kLastFolder{"record/folder", {}};
inline const Setting<QString> kLastPerson{"visit/person", {}};
inline const Setting<QStringList> kLastStandards{"visit/standards", {}};
inline const Setting<QByteArray> kSiteSplit{"site/split", {}};
inline const Setting<QByteArray> kVisitSplit{"visit/split", {}};
inline const Setting<int> kSettleSeconds{"visit/settle", 10};
inline const Setting<int> kDueWithinDays{"due/within", 60};
inline const Setting<bool> kLetterPaper{"certificate/letter", false};

/// Of a sheet of blank labels, mm.
inline const Setting<double> kLabelWidth{"labels/width", 70.0};
inline const Setting<double> kLabelHeight{"labels/height", 30.0};
inline const Setting<double> kLabelLeft{"labels/left", 0.0};
inline const Setting<double> kLabelTop{"labels/top", 13.5};
inline const Setting<double> kLabelGapAcross{"labels/across", 0.0};
inline const Setting<double> kLabelGapDown{"labels/down", 0.0};

inline constexpr int kRecentMost = 8;

}  // namespace spanwright
