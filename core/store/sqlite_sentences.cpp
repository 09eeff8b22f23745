// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite_sentences.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cerrno>

namespace spanwright {

namespace {

Sentence cannotOpen(int systemError) {
  switch (systemError) {
    case ENOENT:
      return {"is not there", "check the name and the folder"};
    case EACCES:
    case EPERM:
      return {"may not be opened by you", "ask for permission to read and write the file and its folder"};
    case EISDIR:
      return {"is a folder", "name the record's file"};
    case EROFS:
      return {"lies on a disk that is read-only",
              "open it for reading only, or copy it to a disk that can be written"};
    case EMFILE:
    case ENFILE:
      return {"cannot be opened because too many files are open", "close other programs and try again"};
    default:
      return {"cannot be opened", "check that the file and its folder can be read and written"};
  }
}

Sentence readOnly(int code) {
  switch (code) {
    case SQLITE_READONLY_DBMOVED:
      return {"was moved or deleted while it was open", "close it and open it again where it is now"};
    case SQLITE_READONLY_CANTINIT:
    case SQLITE_READONLY_DIRECTORY:
      return {"cannot be used because its folder is read-only",
              "ask for permission to write in the folder, or copy the record elsewhere"};
    default:
      return {"cannot be written because it is read-only or was opened for reading only",
              "open it for writing, or ask for permission to write the file"};
  }
}

Sentence inputOutput(int code, int systemError) {
  if (systemError == ENOSPC || systemError == EDQUOT) {
    return {"could not be written because the disk is full",
            "free some space and try again; nothing was changed"};
  }
  if (code == SQLITE_IOERR_SHORT_READ || code == SQLITE_IOERR_CORRUPTFS) {
    return {"is damaged (it ends too early)", "restore it from a backup"};
  }
  return {fmt::format("could not be read or written: the disk reported an error ({})", sqlite3_errstr(code)),
          "check the disk or the network drive and try again"};
}

}  // namespace

Sentence explain(int code, int systemError, std::string_view message) {
  switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {"is in use: another program is writing to it", "wait until that has finished and try again"};
    case SQLITE_FULL:
      return {"could not be written because the disk is full",
              "free some space and try again; nothing was changed"};
    case SQLITE_READONLY:
      return readOnly(code);
    case SQLITE_CANTOPEN:
      return cannotOpen(systemError);
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return cannotOpen(EACCES);
    case SQLITE_NOTADB:
      return {"is not a record of this program", "choose another file"};
    case SQLITE_CORRUPT:
      return {"is damaged", "restore it from a backup"};
    case SQLITE_IOERR:
      return inputOutput(code, systemError);
    case SQLITE_PROTOCOL:
    case SQLITE_NOLFS:
      return {"lies on a disk that cannot lock files", "move it to a disk of this machine"};
    case SQLITE_NOMEM:
      return {"could not be used because memory ran out", "close other programs and try again"};
    case SQLITE_TOOBIG:
      return {"cannot take a text as long as this", "shorten it"};
    case SQLITE_CONSTRAINT:
      return {fmt::format("refused the change: {}", message), "nothing was changed"};
    default:
      return {fmt::format("could not be used: {}", message),
              "restore it from a backup if this happens again"};
  }
}

}  // namespace spanwright
