// Package global holds the constraints of scheduling for the kernel, one filtering
// rule a file. Each rule is written forward, for lower bounds; run on the negated
// views of time it gives the backward half.
//
// # Tasks that all count
//
// AddTimetable, AddEdgeFind and AddHoles are for tasks of fixed length and demand.
//
// # Tasks that may or may not count
//
// A [Task] counts while all its literals are true; its moments are variables, its
// demand may go by a size. While a literal is open or false its bounds are never
// moved: only the last open literal may be made false.
//
//	AddCumulative   demands within a capacity at every moment
//	AddLoad         weights within a bound, by where they start
//	AddAllowed      a value in a set, by way and size
//	AddOffset       a length by size
//	AddLinear       a weighted sum within a bound
//
// Tables by size rise, so that the least amount comes of the least size. Reasons are
// weakened by what a sum is beyond need: whole members are left out first, then
// sizes are made smaller.
//
// Reading order: interval.go, timetable.go, profile.go, edgefind.go, holes.go; then
// moment.go, presence.go, offset.go, linear.go, load.go, ranges.go, allowed.go; then
// task.go, taken.go, cumulative.go, layout.go, choose.go, push.go, refute.go,
// days.go; then excess.go, lift.go (sums of costs).
package global
