//go:build long

package planner_test

import "testing"

// A year is some 150 batches.
func TestTheYearHolds(t *testing.T) { theYearHolds(t, 52, 148) }

// The away week is in spring, and the plan is too long to be proved as a whole.
func TestAWeekAwayIsProved(t *testing.T) { aWeekAwayIsProved(t, 29, 100, 400_000_000) }
