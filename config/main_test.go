package config

import (
	"testing"

	"ripeby/internal/testrun"
)

func TestMain(m *testing.M) { testrun.Main(m) }
