// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who may change the register, a new site, and what stands in a form about something that is there.
#include <fmt/format.h>

#include <algorithm>

#include "core/record/register_rules.h"
#include "core/tasks/register_parts.h"

namespace spanwright {

namespace {

bool has(const Person& person, Role role) {
  return std::find(person.roles.begin(), person.roles.end(), role) != person.roles.end();
}

bool present(const Person& person, Date today) {
  return !person.leftOn || *person.leftOn > today;
}

bool mayChange(const Person& person, RegisterKind kind) {
  return has(person, Role::administrator) || (kind != RegisterKind::person && has(person, Role::planner));
}

Problem problemAt(std::string_view field, std::string what, std::string todo) {
  Problem problem{{}, std::move(what), std::move(todo)};
  problem.where.field = field;
  return problem;
}

}  // namespace

bool anybodyMay(const Register& site, RegisterKind kind, Date today) {
  return std::any_of(site.people.begin(), site.people.end(),
                     [&](const Person& person) { return present(person, today) && mayChange(person, kind); });
}

void checkEditor(const Store& store, std::string_view login, RegisterKind kind, FieldReader& reader) {
  if (const auto problem = editorProblem(store.site(), login, kind, store.clock().localNow().date())) {
    reader.problems().push_back(*problem);
  }
}

void throwIfAny(FieldReader& reader) {
  if (!reader.sound()) {
    throw InputError(std::move(reader.problems()));
  }
}

const Channel& channelOf(const Register& site, std::string_view tag) {
  const Channel* channel = site.channel(tag);
  if (channel == nullptr) {
    throw InputError(fmt::format("there is no channel \"{}\" in the record", tag), "check the tag");
  }
  return *channel;
}

const Place* placeOf(const Register& site, std::string_view path) {
  const auto found = std::find_if(site.places.begin(), site.places.end(),
                                  [&](const Place& place) { return place.path == path; });
  return found == site.places.end() ? nullptr : &*found;
}

std::string_view nameField(RegisterKind kind) {
  switch (kind) {
    case RegisterKind::person:
      return "login";
    case RegisterKind::standard:
    case RegisterKind::sensor:
      return "serial";
    case RegisterKind::channel:
      return "tag";
    case RegisterKind::place:
      return "name";
    case RegisterKind::site:
    case RegisterKind::plan:
    case RegisterKind::interval:
      break;
  }
  return "code";
}

std::optional<Problem> editorProblem(const Register& site, std::string_view login, RegisterKind kind,
                                     Date today) {
  const Person* person = site.person(login);
  if (person == nullptr) {
    return problemAt("by",
                     login.empty() ? std::string("nobody is named who enters it")
                                   : fmt::format("there is no person \"{}\" in the record", login),
                     "choose who enters it");
  }
  if (!present(*person, today)) {
    return problemAt("by", fmt::format("{} left on {}", login, formatDate(*person->leftOn)),
                     "let somebody do it who is here");
  }
  if (mayChange(*person, kind)) {
    return std::nullopt;
  }
  const bool people = kind == RegisterKind::person;
  const bool somebody = anybodyMay(site, kind, today);
  if (people && !somebody) {
    return std::nullopt;
  }
  const std::string who =
      fmt::format("{} is {}", login, people ? "not an administrator" : "neither planner nor administrator");
  return problemAt("by", who,
                   somebody ? people ? "let an administrator enter it" : "let one of them enter it"
                            : "nobody here is; give somebody the role under People first");
}

Register newSite(const TypedFields& fields) {
  FieldReader reader(fields);
  Register site;
  site.site = readSiteInfo(reader);
  FieldReader first = reader.below("person");
  site.people.push_back(readPerson(first));
  if (!has(site.people.front(), Role::administrator)) {
    first.wrong("role.administrator", "the first person is not an administrator",
                "tick it, others can be entered by an administrator only");
  }
  if (const std::string path = reader.text("place"); !path.empty()) {
    const auto wrong = placePathProblems(path);
    for (const Problem& each : wrong) {
      reader.wrong("place", each.what, each.todo);
    }
    std::string parent;
    for (std::size_t cut = 0; wrong.empty() && cut != std::string::npos;) {
      cut = path.find(" / ", parent.empty() ? 0 : parent.size() + 3);
      const std::string here = path.substr(0, cut);
      site.places.push_back({here, here.substr(parent.empty() ? 0 : parent.size() + 3), parent, 1});
      parent = here;
    }
  }
  throwIfAny(reader);
  site.index();
  return site;
}

std::optional<TypedFields> fieldsFor(const Register& site, RegisterKind kind, std::string_view name) {
  const auto of = [](const auto* item) {
    return item == nullptr ? std::optional<TypedFields>() : std::optional(fieldsOf(*item));
  };
  switch (kind) {
    case RegisterKind::site: {
      TypedFields fields = fieldsOf(site.site);
      fields.merge(fieldsOf(site.calendar));
      return fields;
    }
    case RegisterKind::place:
      return of(placeOf(site, name));
    case RegisterKind::person:
      return of(site.person(name));
    case RegisterKind::standard:
      return of(site.standard(name));
    case RegisterKind::sensor:
      return of(site.sensor(name));
    case RegisterKind::plan:
      return of(site.plan(name));
    case RegisterKind::interval:
      return of(site.interval(name));
    case RegisterKind::channel:
      break;
  }
  return of(site.channel(name));
}

}  // namespace spanwright
