package lags

import (
	"testing"

	"ripeby/schedule/testrun"
)

func TestMain(m *testing.M) { testrun.Main(m) }
