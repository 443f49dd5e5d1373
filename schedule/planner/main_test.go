package planner_test

import (
	"testing"

	"ripeby/internal/testrun"
)

func TestMain(m *testing.M) { testrun.Main(m) }
