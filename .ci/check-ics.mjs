// Reads a tasks.ics with ical.js, a reader that shares no code with the writer, and
// compares every event with the plan.json beside it: the same pieces of work,
// rounds and targets, at the same moments, for the same length.
//
//   npm install ical.js          in a directory of its own
//   node check-ics.mjs plan.json tasks.ics          there
//
// Moments are read twice: by ical.js, which knows no zone but the VTIMEZONE of the
// file, and by the zone data of Node itself, from the wall clock that the file
// writes. Exit code 0 when all is the same, 1 when not, 2 for a wrong command line.

import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'

const [planFile, icsFile] = process.argv.slice(2)
if (!icsFile) {
  console.error('usage, where ical.js is installed: node check-ics.mjs plan.json tasks.ics')
  process.exit(2)
}
const found = createRequire(join(process.cwd(), 'here.js'))('ical.js')
const ICAL = found.default ?? found
const plan = JSON.parse(readFileSync(planFile, 'utf8'))
const calendar = new ICAL.Component(ICAL.parse(readFileSync(icsFile, 'utf8')))

const faults = []
const fault = (text) => faults.push(text)
const minutes = (moment) => Date.parse(moment) / 60000

// line is one event, as it is compared.
const line = (kind, start, length, detail) =>
  `${new Date(start * 60000).toISOString()} ${length} min ${kind} ${detail}`

// planned gives what the plan wants to see.
function planned() {
  const lines = []
  for (const b of plan.batches) {
    for (const s of b.stages) {
      if (s.work > 0) lines.push(line('Work', minutes(s.start), s.work, `${b.id} alarm`))
    }
  }
  for (const r of plan.rounds) lines.push(line('Round', minutes(r.start), r.minutes, 'alarm'))
  const targets = new Map()
  for (const t of plan.targets) targets.set(JSON.stringify([t.target, t.by]), t)
  for (const t of targets.values()) lines.push(line('Target', minutes(t.by), 0, 'no alarm'))
  return lines.sort()
}

// wallClock is how Node's own zone data write a moment in the plan's zone.
const format = new Intl.DateTimeFormat('sv-SE', { timeZone: plan.timezone, dateStyle: 'short', timeStyle: 'medium' })
const wallClock = (unix) => format.format(new Date(unix * 1000)).replace(' ', 'T')

// checkTime checks how one moment is written.
function checkTime(property, uid) {
  const time = property.getFirstValue()
  const zone = property.getParameter('tzid')
  if (zone === undefined) {
    if (!property.toICALString().endsWith('Z')) fault(`${uid}: ${property.toICALString()} has no zone`)
  } else if (zone !== plan.timezone) {
    fault(`${uid}: zone ${zone}, want ${plan.timezone}`)
  } else if (wallClock(time.toUnixTime()) !== time.toString()) {
    fault(`${uid}: written ${time}, but the zone data say ${wallClock(time.toUnixTime())}`)
  }
  return time.toUnixTime() / 60
}

// written gives what the calendar shows.
function written() {
  const lines = []
  const uids = new Set()
  for (const event of calendar.getAllSubcomponents('vevent')) {
    const uid = event.getFirstPropertyValue('uid')
    if (uids.has(uid)) fault(`${uid} stands twice`)
    uids.add(uid)
    const kind = event.getFirstPropertyValue('categories')
    const summary = event.getFirstPropertyValue('summary')
    const start = checkTime(event.getFirstProperty('dtstart'), uid)
    const end = event.hasProperty('dtend') ? checkTime(event.getFirstProperty('dtend'), uid) : start
    const alarms = event.getAllSubcomponents('valarm')
    for (const a of alarms) {
      if (a.getFirstPropertyValue('action') !== 'DISPLAY') fault(`${uid}: an alarm that does not show`)
      if (a.getFirstPropertyValue('description') !== summary) fault(`${uid}: the alarm says something else`)
      if (a.getFirstPropertyValue('trigger').toSeconds() > 0) fault(`${uid}: an alarm after the start`)
    }
    if (alarms.length > 1) fault(`${uid}: ${alarms.length} alarms`)
    let detail = alarms.length ? 'alarm' : 'no alarm'
    if (kind === 'Work') {
      const batch = plan.batches.find((b) => uid.startsWith(`ripeby-work-${b.id}-`)) ??
        plan.batches.find((b) => event.getFirstPropertyValue('description').includes(`Batch ${b.id},`))
      detail = `${batch ? batch.id : 'of no batch'} ${detail}`
    }
    lines.push(line(kind, start, end - start, detail))
  }
  return lines.sort()
}

// difference gives the lines of a that b does not have as often.
function difference(a, b) {
  const left = [...b]
  return a.filter((l) => {
    const i = left.indexOf(l)
    if (i >= 0) left.splice(i, 1)
    return i < 0
  })
}

const want = planned()
const got = written()
for (const l of difference(want, got)) fault(`not in the calendar: ${l}`)
for (const l of difference(got, want)) fault(`not in the plan: ${l}`)
if (calendar.hasProperty('method')) fault('METHOD makes an invitation of the calendar')
if (calendar.getAllSubcomponents('vtimezone').length !== 1) fault('not exactly one VTIMEZONE')
for (const text of faults) console.error(`${icsFile}: ${text}`)
console.log(`${icsFile}: ${got.length} events, ${want.length} in the plan, ${faults.length} faults`)
process.exit(faults.length ? 1 : 0)
