//go:build long

package recordfile_test

import "testing"

// TestKilledTwoHundredTimes goes through the places forty times.
func TestKilledTwoHundredTimes(t *testing.T) { killed(t, 200, places) }
