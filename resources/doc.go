// Package resources says what a kitchen has and when it is free: people's
// hours, pots, stations, moulds, boxes, cold places and milk, and the
// quantities they are measured in.
//
// It is the leaf of the house: it imports nothing else of the project. The
// plain types stand one noun a file; the functions that turn weekly hours,
// collection days and the daily round into dated spans stand beside them.
//
// Reading order: unit.go (moments, lengths, volumes), kitchen.go (the whole
// kitchen), person.go, makeroom.go, kit.go, stacking.go, cold.go, milk.go, label.go; then what is free when: span.go
// and grid.go (sets of spans, rounding), wallclock.go (how a zone's clock is
// read), localtime.go and isoweek.go (dates), hours.go, round.go, collection.go;
// then quantity.go (how a quantity is written and read) with quantity_time.go,
// quantity_volume.go and quantity_size.go (of each kind), quantity_clock.go and
// quantity_date.go and quantity_moment.go (dates and hours), gtin.go and quantity_format.go (printed);
// amount.go and amount_unit.go (what goes into cheese, and its units), factor.go (numbers without one), reading.go (what is measured).
//
// Conventions: a [Moment] counts whole minutes since 1970-01-01T00:00Z, so that
// elapsed time is subtraction whatever the clocks do; a [Span] is half-open;
// local wall-clock time appears only in [Hours], [Clock] and [Date] and becomes
// moments by way of the kitchen's time zone.
package resources
