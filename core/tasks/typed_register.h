// SPDX-License-Identifier: GPL-3.0-or-later
//
// Things of the register as they stand in a form's fields, and back. Fields have the names of a site file's
// keys. Reading collects what is wrong with the reader and judges the thing by core/record/register_rules.h.
#pragma once

#include "core/tasks/typed_fields.h"

namespace spanwright {

/// code, name, address, issuer, issuer_address, customer, customer_contact, note (lists: a line each).
SiteInfo readSiteInfo(FieldReader& reader);
/// working.sun, working.mon ... ticked, closed (a line each, as FieldReader::days), due_soon_days,
/// grace_days, early_days; days left out are those of a new site.
CalendarRules readCalendar(FieldReader& reader);
/// login, name, hours_per_week, away, and role.technician, role.planner ... ticked.
Person readPerson(FieldReader& reader);
/// name, within (the place it lies in), order.
Place readPlace(FieldReader& reader);
/// serial, maker, model, description, location.
Standard readStandard(FieldReader& reader);
/// serial, maker, model, description, process, output, transfer, element ("K", "pt100"; empty: none).
Sensor readSensor(FieldReader& reader);
/// As in a site file; minus.absolute ... only where minus ("yes") says that the lower side differs, rule
/// (simple, guard-band, false-accept) with factor or limit and any_spread.
Plan readPlan(FieldReader& reader);
/// code, policy, months or days, minimum_days ... as in a site file.
IntervalPolicy readInterval(FieldReader& reader);
/// kind with the keys of a site file; from and remark. Judged with setupProblems.
SetupVersion readSetupVersion(FieldReader& reader);
/// tag, place, terminal, title, retired; routine.<subject>.plan and .interval for what is calibrated. Setups
/// and fittings are not read here.
Channel readChannel(FieldReader& reader);
/// sensor and from.
Fitting readFitting(FieldReader& reader);

TypedFields fieldsOf(const SiteInfo& site);
TypedFields fieldsOf(const CalendarRules& calendar);
TypedFields fieldsOf(const Person& person);
TypedFields fieldsOf(const Place& place);
TypedFields fieldsOf(const Standard& standard);
TypedFields fieldsOf(const Sensor& sensor);
TypedFields fieldsOf(const Plan& plan);
TypedFields fieldsOf(const IntervalPolicy& policy);
TypedFields fieldsOf(const ChannelSetup& setup);
TypedFields fieldsOf(const Channel& channel);

}  // namespace spanwright
