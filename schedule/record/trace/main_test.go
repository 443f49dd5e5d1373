package trace_test

import (
	"testing"

	"ripeby/schedule/testrun"
)

func TestMain(m *testing.M) { testrun.Main(m) }
