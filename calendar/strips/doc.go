// Package strips draws a plan as strips against days: a batch a strip, its stages as
// segments, and below them how full each cold place is.
//
// [Draw] gives an SVG of all of it, [DrawDays] of some days in a given width; each stands alone and tells stages apart by pattern and not by
// colour alone; [Outcome] is the sentence over it. The same problem and plan give the
// same bytes. A long plan makes the picture wider, and many batches share rows where
// they do not meet, so that a year stays below a megabyte.
//
// Reading order: picture.go (the whole, and its words), axis.go (days and targets),
// batches.go (the strips), packing.go (strips that share a row), fill.go (cold places),
// legend.go (patterns and colours), days.go (some days).
package strips
