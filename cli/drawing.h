// SPDX-License-Identifier: GPL-3.0-or-later
//
// Drawing from a terminal, where there is no display.
#pragma once

#include <QGuiApplication>
#include <memory>
#include <string>
#include <vector>

#include "core/certificate/certificate.h"
#include "importers/certificate_file.h"

namespace spanwright {

/// While it lives, fonts can be had.
class DrawingSession {
 public:
  DrawingSession();

 private:
  int count_ = 1;
  char name_[11] = "spanwright";
  char* arguments_[2] = {name_, nullptr};
  std::unique_ptr<QGuiApplication> application_;
};

/// Draws what the record says and compares its words with those on the PDF somebody holds.
std::vector<std::string> printDifferences(const HandedOutCertificate& handedOut,
                                          const Certificate& certificate);

}  // namespace spanwright
