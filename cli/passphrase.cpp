// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/passphrase.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <termios.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>

#include "core/record/problem.h"

namespace spanwright {
namespace {

/// The terminal itself, whatever standard input is, with nothing of what is typed shown.
class UnseenTerminal {
 public:
  UnseenTerminal() : handle_(::open("/dev/tty", O_RDWR | O_CLOEXEC)) {
    if (handle_ < 0 || ::tcgetattr(handle_, &before_) != 0) {
      if (handle_ >= 0) {
        ::close(handle_);
      }
      throw InputError("there is no terminal to type the passphrase at", "give it with --passphrase-file");
    }
    termios unseen = before_;
    unseen.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    ::tcsetattr(handle_, TCSAFLUSH, &unseen);
  }
  UnseenTerminal(const UnseenTerminal&) = delete;
  UnseenTerminal& operator=(const UnseenTerminal&) = delete;
  ~UnseenTerminal() {
    ::tcsetattr(handle_, TCSAFLUSH, &before_);
    ::close(handle_);
  }

  std::string ask(const std::string& prompt) {
    write(prompt);
    std::string line;
    char c = 0;
    ssize_t got = 0;
    while ((got = ::read(handle_, &c, 1)) == 1 && c != '\n') {
      line += c;
    }
    write("\n");
    if (got != 1) {
      throw InputError("no passphrase was typed", "try again");
    }
    return line;
  }

 private:
  void write(std::string_view text) {
    while (!text.empty()) {
      const ssize_t done = ::write(handle_, text.data(), text.size());
      if (done <= 0 && errno != EINTR) {
        return;  // the question is then not seen; what is typed is read all the same
      }
      text.remove_prefix(done > 0 ? static_cast<std::size_t>(done) : 0);
    }
  }

  int handle_;
  termios before_{};
};

}  // namespace

std::string passphraseFrom(const std::string& file, const std::string& prompt, bool isNew) {
  if (!file.empty()) {
    std::ifstream in(file);
    std::string line;
    if (!std::getline(in, line)) {
      throw InputError(fmt::format("no passphrase can be read from {}", file),
                       "name a file whose first line is the passphrase");
    }
    if (line.ends_with('\r')) {
      line.pop_back();
    }
    return line;
  }
  UnseenTerminal terminal;
  std::string typed = terminal.ask(prompt);
  if (isNew && terminal.ask("Once more: ") != typed) {
    throw InputError("the two passphrases differ", "type the same one twice");
  }
  return typed;
}

Signer signerFrom(const Store& store, const std::string& person, const std::string& file) {
  const bool isNew = store.site().person(person) != nullptr && !store.personKey(person);
  const std::string prompt =
      isNew ? fmt::format("{} has no passphrase yet; choose one of at least {} characters: ", person,
                          kShortestPassphrase)
            : fmt::format("Passphrase of {}: ", person);
  return {person, passphraseFrom(file, prompt, isNew)};
}

}  // namespace spanwright
