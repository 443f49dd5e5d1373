// Reads a tasks.ics with ical.js, a reader that shares no code with the writer, and
// compares every event with the plan.json beside it: its UID, moments, summary and
// alarm.
//
//   npm install ical.js          in a directory of its own
//   node check-ics.mjs plan.json tasks.ics          there
//   node check-ics.mjs plan.json nell.ics Nell      one person's calendar
//   node check-ics.mjs plan.json cold.ics --cold    stays in cold places, in whole days
//
// Moments are read twice: by ical.js, which knows no zone but the VTIMEZONE of the
// file, and by the zone data of Node itself, from the wall clock that the file
// writes. Exit code 0 when all is the same, 1 when not, 2 for a wrong command line.

import { check, load, timed, wholeDays } from './planned.mjs'

const ICAL = await load('ical.js')

// instant reads a moment in milliseconds and checks how it is written.
function instant(property, wallClock, zone, fault) {
  const time = property.getFirstValue()
  const tzid = property.getParameter('tzid')
  if (tzid === undefined) {
    if (!property.toICALString().endsWith('Z')) fault(`${property.toICALString()} has no zone`)
  } else if (tzid !== zone) {
    fault(`zone ${tzid}, want ${zone}`)
  } else if (wallClock(time.toUnixTime()) !== time.toString()) {
    fault(`written ${time}, but the zone data say ${wallClock(time.toUnixTime())}`)
  }
  return time.toUnixTime() * 1000
}

// alarmsOf gives how long before the start each alarm is, and what it says.
function alarmsOf(event, fault) {
  return event.getAllSubcomponents('valarm').map((a) => {
    if (a.getFirstPropertyValue('action') !== 'DISPLAY') fault('an alarm that does not show')
    return [-a.getFirstPropertyValue('trigger').toSeconds(), a.getFirstPropertyValue('description')]
  })
}

check('ical.js', (text, plan, fault) => {
  const calendar = new ICAL.Component(ICAL.parse(text))
  if (calendar.hasProperty('method')) fault('METHOD makes an invitation of the calendar')
  if (calendar.getAllSubcomponents('vtimezone').length !== 1) fault('not exactly one VTIMEZONE')
  const format = new Intl.DateTimeFormat('sv-SE', { timeZone: plan.timezone, dateStyle: 'short', timeStyle: 'medium' })
  const wallClock = (unix) => format.format(new Date(unix * 1000)).replace(' ', 'T')
  return calendar.getAllSubcomponents('vevent').map((event) => {
    const uid = event.getFirstPropertyValue('uid')
    const wrong = (says) => fault(`${uid}: ${says}`)
    const summary = event.getFirstPropertyValue('summary')
    const alarms = alarmsOf(event, wrong)
    const first = event.getFirstPropertyValue('dtstart')
    if (first.isDate) {
      if (alarms.length || event.getFirstPropertyValue('transp') !== 'TRANSPARENT') wrong('a span of days that calls or makes busy')
      return [uid, wholeDays(first.toString(), event.getFirstPropertyValue('dtend').toString(), summary)]
    }
    const start = instant(event.getFirstProperty('dtstart'), wallClock, plan.timezone, wrong)
    const end = event.hasProperty('dtend') ? instant(event.getFirstProperty('dtend'), wallClock, plan.timezone, wrong) : start
    return [uid, timed(start, (end - start) / 60000, summary, alarms)]
  })
})
