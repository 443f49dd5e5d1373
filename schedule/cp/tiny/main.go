package tiny

import (
	"flag"
	"fmt"
	"os"
	"testing"
)

// Main runs the tests of a package. It draws the same random models in every run, so that a run that passed
// passes again; -rapid.seed with another number draws others.
func Main(m *testing.M) {
	flag.Parse()
	given := false
	flag.Visit(func(f *flag.Flag) { given = given || f.Name == "rapid.seed" })
	if !given {
		if err := flag.Set("rapid.seed", "20270328"); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}

// Few is how many of a kind a test must have seen to mean much; a short run draws less.
func Few(n int) int {
	if testing.Short() {
		return n / 8
	}
	return n
}
