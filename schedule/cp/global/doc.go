// Package global holds the constraints of scheduling for the kernel. Each rule is written
// forward, for lower bounds; run on the negated views of time it gives the backward half.
//
// A [Task] counts while all its literals are true; its moments are variables, its
// demand may go by a size. While a literal is open or false its bounds are never
// moved: only the last open literal may be made false.
//
//	AddCumulative   demands within a capacity at every moment
//	AddTogether     demands of several classes that are not too many together at any moment
//	AddLoad         weights within a bound, by where they start
//	AddDays         the same for each of many stretches
//	AddAllowed      a value in a set, by way and size
//	AddOffset       a length by size
//	AddLinear       a weighted sum within a bound
//
// Tables by size rise, so that the least amount comes of the least size. Reasons are
// weakened by what a sum is beyond need: whole members are left out first, then
// sizes are made smaller.
//
// Rules over many tasks note which of them have changed, and look at those and at what they can
// meet (noted.go): all else was at rest when the decision in force was made. That holds because no
// decision is made before every rule has come to rest.
//
// Reading order: moment.go, presence.go, offset.go, linear.go, resort.go, load.go,
// ranges.go, allowed.go; then noted.go, task.go, taken.go, cumulative.go, layout.go, choose.go,
// push.go, refute.go; together.go;
// then days.go.
package global
