// What a plan wants to see in a calendar, for the readers beside this file: made
// anew from plan.json, with no code of the writer's. Each event is a line of text
// under its UID, and what a reader read is written the same way, so that comparing
// is comparing lines.

import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'

const lead = 15 * 60 // seconds from an alarm to the work that it is for

// timed is an event by the clock: its start in milliseconds, its minutes, its
// summary, and its alarms as pairs of seconds before the start and of a text.
export const timed = (start, minutes, summary, alarms) =>
  `${new Date(start).toISOString()}, ${minutes} min, ${JSON.stringify(summary)}` +
  alarms.map(([before, says]) => `, alarm ${before} s before: ${JSON.stringify(says)}`).join('')

// wholeDays is an event of whole days: its first, and the day after its last.
export const wholeDays = (first, after, summary) => `${first} until before ${after}, ${JSON.stringify(summary)}`

const slug = (name) => {
  let text = ''
  let gap = false
  for (const c of name) {
    if (!/[A-Za-z0-9]/.test(c)) {
      gap = text !== ''
      continue
    }
    text += (gap ? '-' : '') + c
    gap = false
    if (text.length >= 32) break
  }
  return text
}

// uid names an event for ever.
const uid = (kind, ...names) => {
  const digest = createHash('sha256')
  for (const part of [kind, ...names]) digest.update(`${Buffer.byteLength(part)}:${part}`)
  return ['ripeby', kind, ...names.map(slug).filter(Boolean), digest.digest('hex').slice(0, 20)].join('-')
}

const litres = (n) => `${Number(n.toFixed(3))} L`
const pieces = (n) => (n === 1 ? '1 piece' : `${n} pieces`)
const capital = (text) => text.slice(0, 1).toUpperCase() + text.slice(1)

// dayIn is the local day of a moment in milliseconds, by Node's own zone data.
const dayIn = (plan) => {
  const format = new Intl.DateTimeFormat('sv-SE', { timeZone: plan.timezone, dateStyle: 'short' })
  return (unix) => format.format(new Date(unix))
}

// planned gives the work, rounds, targets and milk of a plan; of one person when there is one.
export function planned(plan, person) {
  const events = new Map()
  const theirs = (who) => person === undefined || who === person
  const alarmed = (start, minutes, summary) => timed(Date.parse(start), minutes, summary, [[lead, summary]])
  const named = (summary, who) => (person === undefined && who && plan.titles?.named ? `${summary} (${who})` : summary)
  const quiet = (start, minutes, summary) => timed(Date.parse(start), minutes, summary, []) // what has begun calls nobody
  for (const b of plan.batches) {
    b.stages.forEach((s, i) => {
      if (s.work === 0 || !theirs(s.who)) return
      const much = i === 0 ? litres(b.litres) : pieces(b.pieces)
      events.set(uid('work', b.id, s.stage), (s.begun ? quiet : alarmed)(s.start, s.work, named(`${capital(s.stage)}: ${b.cheese}, ${much}`, s.who)))
    })
  }
  for (const r of plan.rounds) {
    if (!theirs(r.who)) continue
    const kinds = [...new Set(r.care.map((c) => c.do))].join(', ') || 'look at what is ripening'
    events.set(uid('round', dayIn(plan)(Date.parse(r.start))), alarmed(r.start, r.minutes, named(`Round: ${kinds}`, r.who)))
  }
  for (const l of plan.looks ?? []) {
    if (!theirs(l.who)) continue
    const cheese = plan.batches.find((b) => b.id === l.batch).cheese
    events.set(uid('look', l.batch, l.stage, String(Date.parse(l.start) / 60000), l.who),
      alarmed(l.start, l.minutes, named(`Look: is ${cheese} ready to ${l.stage}?`, l.who)))
  }
  const like = new Map() // entries of stock of one cheese and packing are told apart by their turn
  for (const c of plan.carries ?? []) {
    const of = c.stock === undefined ? plan.batches.find((b) => b.id === c.batch) : plan.stock[c.stock]
    const packed = c.stock === undefined ? '' : new Date(Date.parse(of.packed)).toISOString().replace('.000', '')
    const same = `${of.cheese} ${packed}`
    const turn = like.get(same) ?? 0
    if (c.stock !== undefined) like.set(same, turn + 1)
    if (!theirs(c.who)) continue
    events.set(c.stock === undefined ? uid('carry', c.batch, c.stage, c.from) : uid('carry', of.cheese, packed, c.from, String(turn)),
      alarmed(c.start, c.minutes, named(`Carry ${of.cheese} to the ${c.to}`, c.who)))
  }
  const targets = new Map()
  for (const t of plan.targets) {
    const of = targets.get(t.target) ?? { by: t.by, met: 0, short: 0 }
    targets.set(t.target, { by: of.by, met: of.met + t.met, short: of.short + t.short })
  }
  for (const [name, t] of targets) {
    const short = t.short ? `, ${t.short} short` : ''
    events.set(uid('target', name), timed(Date.parse(t.by), 0, `Target: ${name}, ${pieces(t.met)}${short}`, []))
  }
  for (const m of plan.milk ?? []) {
    const summary = `${capital(m.do)} milk: ${m.supply}, ${litres(m.litres)}`
    events.set(uid(m.do, m.supply, dayIn(plan)(Date.parse(m.collect))),
      timed(Date.parse(m.at), 0, summary, m.do === 'order' ? [[lead, summary]] : []))
  }
  return events
}

// stays gives what stands in the cold, over whole local days. The last day is that of
// the last minute there.
export function stays(plan) {
  const events = new Map()
  const day = dayIn(plan)
  const add = (name, stay) => {
    const places = [...new Set([stay.at, ...stay.boxes.map((b) => b.place)])].map((p) => (p === 'room' ? 'make room' : p))
    const boxes = stay.boxes.length
    const many = boxes === 0 ? pieces(stay.pieces) : boxes === 1 ? '1 box' : `${boxes} boxes`
    const [y, m, d] = day(stay.until - 60000).split('-').map(Number)
    const after = new Date(Date.UTC(y, m - 1, d + 1)).toISOString().slice(0, 10)
    events.set(name, wholeDays(day(stay.from), after, `${capital(places.join(', '))}: ${stay.cheese}, ${many}`))
  }
  for (const b of plan.batches) {
    let stay
    for (const s of [...b.stages, undefined]) { // it goes on while nobody touches it
      if (stay && (!s || s.work > 0 || s.at !== stay.at)) {
        add(uid('stay', b.id, stay.stage), stay)
        stay = undefined
      }
      if (s && s.at !== 'room' && s.hold > 0) {
        stay ??= { stage: s.stage, cheese: b.cheese, pieces: b.pieces, at: s.at, boxes: s.boxes_at, from: Date.parse(s.start) + s.work * 60000 }
      }
      if (stay) stay.until = Date.parse(s.ends)
    }
  }
  const stock = new Map() // what was packed at one moment shares an event
  for (const s of plan.stock) {
    const [from, until] = [Date.parse(s.packed), Date.parse(s.ends)]
    if (['', 'room'].includes(s.at) || until <= from) continue
    const name = uid('stock', s.cheese, new Date(from).toISOString().replace('.000', ''))
    const of = stock.get(name) ?? { cheese: s.cheese, pieces: 0, at: s.at, boxes: [], from, until }
    stock.set(name, { ...of, pieces: of.pieces + s.pieces, boxes: [...of.boxes, ...s.boxes_at], until: Math.max(of.until, until) })
  }
  for (const [name, stay] of stock) add(name, stay)
  return events
}

// load gives a package that is installed where the script runs.
export async function load(name) {
  const found = createRequire(join(process.cwd(), 'here.js'))(name)
  return found.default ?? found
}

// check is a whole script: it has a reader read the calendar of the command line and
// compares. The reader gets the text, the plan and what to tell a fault to, and gives
// pairs of a UID and a line.
export function check(reader, read) {
  const [planFile, icsFile, only] = process.argv.slice(2)
  if (!icsFile) {
    console.error(`usage, where ${reader} is installed: plan.json tasks.ics [PERSON | --cold]`)
    process.exit(2)
  }
  const plan = JSON.parse(readFileSync(planFile, 'utf8'))
  const faults = []
  const got = new Map()
  for (const [name, event] of read(readFileSync(icsFile, 'utf8'), plan, (text) => faults.push(text))) {
    if (got.has(name)) faults.push(`${name} stands twice`)
    got.set(name, event)
  }
  const want = only === '--cold' ? stays(plan) : planned(plan, only)
  for (const [name, event] of want) {
    if (got.get(name) !== event) faults.push(`${name}: got ${got.get(name) ?? 'nothing'}, want ${event}`)
  }
  for (const [name, event] of got) {
    if (!want.has(name)) faults.push(`not in the plan: ${name}, ${event}`)
  }
  if (want.size === 0) faults.push('the plan wants nothing of this calendar, so that nothing is checked')
  for (const text of faults) console.error(`${icsFile}: ${text}`)
  console.log(`${icsFile}: ${got.size} events, ${want.size} in the plan, ${faults.length} faults`)
  process.exit(faults.length ? 1 : 0)
}
