// Package readings has what thermometers told of the places of a kitchen, and what people measured there.
// It is plain types: no files, no page, no clock.
//
// A [Course] is what is known of one place over a span of time: readings in the order of their moments, cut
// into runs wherever none came for longer than [Gap]. Between two runs nothing is known, and nothing is
// assumed. It judges nothing: which temperature is right for a cheese, the maker and local rules say.
//
// Reading order: course.go, told.go (what people measured).
package readings
