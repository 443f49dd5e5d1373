// Reads a tasks.ics with node-ical, which shares no code with the writer nor with the
// other readers, and compares every event with the plan.json beside it: its UID,
// moments, summary and alarm. Command line and exit codes as of check-ics.mjs.
//
// What is peculiar to it: it takes a zone that Node knows from Node's zone data and
// never looks at the VTIMEZONE then; whole days it gives as midnights of the zone that
// the machine is in, so that days are read in that zone (run it with TZ set to others
// too); a trigger it leaves as text; and of two events with one UID it keeps one, so
// that they are counted in the file.

import { check, load, timed, wholeDays } from './planned.mjs'

const ical = await load('node-ical')

// before reads a trigger: a duration before the start, in seconds.
function before(trigger, fault) {
  const parts = /^-P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?$/.exec(trigger)
  if (!parts) {
    fault(`the trigger ${JSON.stringify(trigger)} is not before the start`)
    return NaN
  }
  const [days, hours, minutes, seconds] = parts.slice(1).map((n) => Number(n ?? 0))
  return ((days * 24 + hours) * 60 + minutes) * 60 + seconds
}

// localDay is the day of a moment in the machine's own zone.
const localDay = (d) => [d.getFullYear(), d.getMonth() + 1, d.getDate()].map((n) => String(n).padStart(2, '0')).join('-')

check('node-ical', (text, plan, fault) => {
  const read = Object.values(ical.sync.parseICS(text))
  const events = read.filter((c) => c.type === 'VEVENT')
  const inFile = text.split('\r\n').filter((line) => line === 'BEGIN:VEVENT').length
  if (events.length !== inFile) fault(`${events.length} events are read of ${inFile}`)
  if (read.some((c) => c.method)) fault('METHOD makes an invitation of the calendar')
  return events.map((e) => {
    const wrong = (says) => fault(`${e.uid}: ${says}`)
    const alarms = (e.alarms ?? []).map((a) => {
      if (a.action !== 'DISPLAY') wrong('an alarm that does not show')
      return [before(a.trigger, wrong), a.description]
    })
    if (e.datetype === 'date') {
      if (!e.end.dateOnly || alarms.length || e.transparency !== 'TRANSPARENT') wrong('not whole days, or they call or make busy')
      return [e.uid, wholeDays(localDay(e.start), localDay(e.end), e.summary)]
    }
    if (![plan.timezone, 'Etc/UTC'].includes(e.start.tz)) wrong(`zone ${e.start.tz}, want ${plan.timezone}`)
    return [e.uid, timed(e.start.getTime(), (e.end - e.start) / 60000, e.summary, alarms)]
  })
})
