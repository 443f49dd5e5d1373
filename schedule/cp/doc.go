// Package cp plans chains of work on shared things, proves its plans, and explains them. It
// knows no cheese, no clock, no input or output: time is an integer, everything else is a number
// or an index, and work is counted so that the same model and budget give the same answer on
// every machine.
//
// This package is the door: [Solve] finds a plan with its bound and reasons, [Inquire] asks
// about a plan in force. Callers need it and problem, whose types it speaks. Behind it are
// rooms, each with a doc.go that says its theory, its invariants and the order in which to
// read it; arrows go down only (cmd/ripeby/deps_test.go):
//
//	explain     why something is short; what more a plan could give
//	search      first plan, improvement, the proof part by part
//	carry       what is under way, put in force
//	statement   the problem stated to the kernel      bound    relaxations
//	packing     boxes over time                       chain    one job placed exactly
//	global      constraints of scheduling             usage    what is placed, what is left
//	kernel      lazy clause generation                lags     what waits cost
//	lack        what stands in the way, in one look   problem  model, cost, what a job occupies
//	                                   steps   sets of steps
//
// A plan passes through the rooms so: search places jobs by chain into a ledger of usage;
// statement turns the model into constraints of global; the kernel's answer becomes jobs again,
// and packing puts their boxes. Over time boxes are put exactly in packing alone: while jobs are placed
// usage puts them floor after floor, which may miss a way (usage/packings.go), and the statement
// counts area and stacks, and looks up what stands at one moment where kinds of box share spots; that
// may let in too much (statement/spaces.go) until statement/boxes.go asks packing.
//
// How a plan is proved is told in PROOF.md, why-not in WHYNOT.md, what was measured in
// MEASURED.md. The models of the tests are in tiny.
//
// Reading order: cp.go; then the rooms problem, usage, steps, lags, chain, bound, kernel, global,
// packing, statement, lack, carry, search, explain.
package cp
