// Package words writes names, times and quantities as all rooms of calendar show them:
// the leaf that they stand on.
//
// It gives texts and nothing that holds them: no table, no page, no picture. Words are
// English and moments local to the kitchen, whatever the machine's language and zone. A
// name is harmless once it is [Printable], but not escaped for any markup. A no-break
// space keeps a number and its unit together ([Glue]) until a page has broken its lines
// ([Unglue]). How wide a text is does not depend on the locale.
//
// The iCalendar file has words of its own beside these (calendar/ical), since a
// reader of events has neither a table nor its heads around them.
//
// Reading order: printable.go (names made harmless), units.go (quantities), dose.go (what goes in), clock.go
// (days and times of day), names.go (words that all rooms use), where.go (places and kit), milk.go (how
// it is known that it comes), fill.go (what a cold
// place holds), proof.go (how good a plan is), width.go (shortened and wrapped), letters.go (rows on paper),
// pen.go (names and texts for one form).
package words
