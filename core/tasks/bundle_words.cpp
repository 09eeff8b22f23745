// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/bundle_words.h"

#include <fmt/format.h>

#include "core/tasks/bundle_files.h"
#include "core/tasks/bundle_units.h"

namespace spanwright {
namespace {

std::string numbers(const std::vector<CalibrationId>& ids) {
  return fmt::format("{}", fmt::join(ids, ", "));
}

constexpr std::string_view kHow = R"(
HOW TO CHECK IT WITH THE PROGRAM

    spanwright verify-bundle FOLDER_OR_ZIP

needs nothing but these files. It recomputes every digest, the journal's chain and every signature, and names
what does not hold by file and row. When the entry and hash of the journal are known from elsewhere (printed
on a certificate, or told by "spanwright journal RECORD --head" earlier), give them with --head ENTRY:HASH:
a history that was rewritten as a whole is only found so.

HOW TO CHECK IT WITHOUT THE PROGRAM

1. Files:  sha256sum -c SHA256SUMS
   Whoever changes a file can change the list too. Ask the sender by another way for the SHA-256 of the file
   SHA256SUMS itself, which was shown when the bundle was made; then every file here is known to be the one
   that was sent.
2. Rows: each file of record/ holds the rows of one thing as they stood in the record, table by table in the
   order in which they are digested, the columns in that order too. A row is written as the text

       <table>, line feed, then for every column:  <column>:<value>, line feed

   where a value is  n  for null;  i and the decimal number for a whole number;  r and the shortest decimal
   that reads back the same for a number with a point or an exponent: without an exponent from 1e-6 to below
   1e15 (4.0 is r4, 0.00001 is r0.00001), else with one of a sign and two digits at least (r2.5e-07), zero as
   r0;  t, the number of bytes in UTF-8, a colon and the text;  b, the number of bytes, a colon and the bytes
   themselves for raw bytes (given here as hexadecimal under "bytes"). The content of an attachment is raw
   bytes: those of the file that stands there under "file". The digest of a row is the SHA-256 of that text.
   The digest of the thing is the SHA-256 of its rows' digests, 32 bytes each, one after the other.
3. Entries: journal.jsonl has a line for each entry of the record's journal, in order. An entry is digested
   like a row, of a table called journal with the columns site, entry, at_utc, person, act, unit, unit_key,
   digest, row_digests, detail; "site" is the code in record/site.json, digest and row_digests are raw bytes,
   and both are null together. "content" is that digest, for entries that are not shown. The hash is

       SHA-256( hash of the entry before, 32 bytes, followed by the digest of this entry, 32 bytes )

   with 32 zero bytes before the first. "digest" is the digest of the thing named by unit and unit_key after
   what the entry tells: the last one shown about a thing must be the digest of its rows here. "row_digests"
   are the first 8 bytes of each row's digest, by which a changed row is found.
4. Signatures are Ed25519 (RFC 8032), over the text

       spanwright signature 1
       site:<bytes>:<code>
       calibration:<number>
       meaning:<bytes>:<act>
       person:<bytes>:<login>
       at:<bytes>:<at_utc>
       reason:<bytes>:<reason>
       digest:32:<digest of the calibration, raw>
       key:32:<public key, raw>

   with a line feed after each line, where <bytes> is the number of bytes that follow the next colon. The
   public key is in record/key-<person>-<key>.json.
5. Certificates: certificates/NUMBER.json names under "journal" the entry that issued it with its hash, and
   under "record_digest" the digest of the calibration.

WHAT IT SHOWS, AND WHAT IT DOES NOT

- What is under record/ stood so in a record whose journal ends as journal.jsonl does, and was signed with the
  keys that are here. That a key is a person's is known to the site that keeps the record.
- Entries about what was not asked for are given by their digest only. They could be about more than is said:
  that nothing about these calibrations was left out (a later withdrawal, say) is known to whoever checks the
  whole record with "spanwright verify", and asked of them.
- README.txt, summary.html, the words of certificates and their PDFs are for reading, and bundle.json only says
  what was asked for. Against a changed text in them there is SHA256SUMS, as said under 1, and the record: "spanwright verify RECORD --certificate FILE"
  compares a certificate with it.
- It is not a certificate by itself, not an accredited one, and no proof test of a safety function.
)";

}  // namespace

std::string bundleReadme(const BundleFacts& facts, const EvidenceMade& made) {
  std::string text = fmt::format(
      "EVIDENCE FROM A CALIBRATION RECORD\n\nSite:       {} ({})\n{}Covers:     {}\nMade:       {} UTC by "
      "spanwright {}\nJournal:    ends at entry {}, hash {}\n\n",
      facts.siteName, facts.siteCode, facts.siteNote.empty() ? "" : "            " + facts.siteNote + "\n",
      facts.scope, formatMoment(facts.madeUtc), SPANWRIGHT_VERSION, made.head.entry, hex(made.head.hash));
  text += fmt::format("{} calibrations: {}\n", made.calibrations.size(), numbers(made.calibrations));
  if (!made.also.empty()) {
    text += fmt::format("{} more that they correct, or that took their place: {}\n", made.also.size(),
                        numbers(made.also));
  }
  text += fmt::format(
      "{} of them have a certificate.{}\n", made.certificates,
      made.notIssued.empty() ? std::string() : " None was issued for: " + numbers(made.notIssued));
  if (!facts.drawn && made.certificates > 0) {
    text += "The program that made this cannot draw: certificates are here as data, without PDFs.\n";
  }
  text += fmt::format(
      "\n  summary.html    the page to read first\n  certificates/   as they were issued: {}data (JSON)\n"
      "  standards/      files kept with the standards' certificates, byte for byte ({} files here and in\n"
      "  attachments/    files kept with the calibrations and channels)\n"
      "  record/         the rows of the record, one file for each thing ({})\n"
      "  journal.jsonl   the record's journal: {} entries, {} of them in full\n"
      "  bundle.json     what the bundle was made for\n"
      "  SHA256SUMS      digest of every file\n",
      facts.drawn ? "PDF and " : "", made.attachments, made.units, made.entries, made.entriesShown);
  return text.append(kHow);
}

std::string bundleManifest(const BundleFacts& facts, const EvidenceMade& made) {
  const BundleJson json{{"form", kBundleForm},
                        {"site", facts.siteCode},
                        {"scope", facts.scope},
                        {"made_utc", formatMoment(facts.madeUtc) + "Z"},
                        {"program", SPANWRIGHT_VERSION},
                        {"journal_head", headText(made.head)},
                        {"calibrations", made.calibrations},
                        {"also", made.also},
                        {"certificates_drawn", facts.drawn}};
  return json.dump(1, ' ', false, BundleJson::error_handler_t::replace) + "\n";
}

}  // namespace spanwright
