// Package calendar shows a plan to people: as a calendar that a phone subscribes
// to, as the week table that hangs on the wall, and as drawings of what stands
// where and when. It reads a plan and writes bytes; it opens no file, asks no
// clock and serves nothing.
//
// # Calendar
//
// [Events] gives tasks.ics. The flow is
//
//	notes -> events (plain values) -> blocks of lines -> bytes
//
// and each arrow is one place: a note (note.Task and its kin) is all that
// an event may tell, so that an event is revised exactly when its note changed;
// clean is the only way in for a name or a text; icalEncode is the only function
// that writes. The rules are those of RFC 5545 (iCalendar), RFC 7986 (NAME,
// COLOR, REFRESH-INTERVAL) and what clients were seen to do with them. In short:
//
//   - no METHOD, so that DTSTAMP means "last revised"; nothing comes from a clock
//   - local time with the kitchen's own VTIMEZONE, but UTC in an hour that a clock
//     change repeats
//   - a stay in a cold place is whole days, by the kitchen's own calendar
//   - a UID is made of what never changes: a batch's id and stage, the day of a
//     round, the name of a target, the cheese and packing of stock
//   - SEQUENCE and LAST-MODIFIED move together, and only when the note changed
//
// Reading order: events.go (the flow), workevent.go, roundevent.go,
// targetevent.go and coldevent.go (what each tells), wording.go (lengths, litres, dates), text.go
// (clean), uid.go, vtimezone.go, encode.go.
//
// # Week table and drawings
//
// Reading order: week.go (what the table is and its forms), week_rows.go (its rows),
// milk.go (what to order and collect), then
// one file a form; strips.go (the drawing of batches against days) and the files
// named after it.
//
// # Cold places
//
// Reading order: cold.go (what is shown), cold_table.go (each shelf by day),
// cold_map.go and cold_draw.go (what stands where at a moment), cold_answer.go (whether
// more boxes have a place), cold_picture.go.
//
// # Pages
//
// shown.go and the files named after it give the same as plain values, for pages that
// somebody else lays out.
package calendar
