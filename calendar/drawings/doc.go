// Package drawings gives the pictures of a page their addresses: the batches over some days, what stands in
// the cold places at a moment, and one shelf of them. A page has each with its size, so that nothing moves
// when it comes; the same address gives the same picture for as long as the plan is the same.
//
//	batches/2027-03-16.svg            fourteen days from one on, as wide as a phone
//	batches/2027-03-16-desk.svg       four weeks, with the names beside the strips
//	cold/20270316T0820Z.svg           all cold places at a moment
//	cold/20270316T0820Z-0.svg         one shelf or counted place, by its number, beside another on a phone
//	cold/20270316T0820Z-0-large.svg   the same alone
//
// Reading order: days.go (batches), places.go (cold places), read.go (from an address to its picture).
package drawings
