package chain

import (
	"testing"

	"ripeby/schedule/cp/tiny"
)

func TestMain(m *testing.M) { tiny.Main(m) }
