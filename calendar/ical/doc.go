// Package ical writes a plan as an iCalendar file that a phone subscribes to: work,
// rounds, milk and targets, or the stays in cold places.
//
// [Encode] gives tasks.ics. The flow is
//
//	notes -> events (plain values) -> blocks of lines -> bytes
//
// and each arrow is one place: a note (calendar/note) is all that an event may tell, so
// that an event is revised exactly when its note changed; clean is the only way in for a
// name or a text; write is the only function that writes. The rules are those of RFC 5545
// (iCalendar), RFC 7986 (NAME, COLOR, REFRESH-INTERVAL) and what clients were seen to do
// with them. Callers may rely on these:
//
//   - no METHOD, so that DTSTAMP means "last revised"; nothing comes from a clock, and
//     the same plan gives the same bytes
//   - local time with the kitchen's own VTIMEZONE, but UTC in an hour that a clock
//     change repeats
//   - a stay in a cold place is whole days, by the kitchen's own calendar
//   - a task to be ticked has another UID than the event of the same work, and its texts
//   - a UID is made of what never changes: a batch's id and stage, the day of a
//     round, the name of a target, a supply and the day of its collection, the cheese
//     and packing of stock
//   - SEQUENCE and LAST-MODIFIED move together, and only when the note changed
//
// Reading order: events.go (the flow, and what may go wrong), work.go, round.go, look.go, carry.go,
// milk.go, target.go and cold.go (what each kind of event tells), todo.go (work as a task to be ticked),
// wording.go (lengths, litres, moments), text.go (clean), uid.go, vtimezone.go, encode.go (blocks, alarms, bytes).
package ical
