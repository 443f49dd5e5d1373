package testrun

import (
	"flag"
	"fmt"
	"os"
)

// rapidSeed is what rapid draws from unless -rapid.seed says another number.
const rapidSeed = "20270328"

// Main runs a package's tests. Rapid draws the same in every run, so that a run that
// passed passes again; -rapid.seed with another number draws otherwise.
func Main(m interface{ Run() int }) {
	flag.Parse()
	given := false
	flag.Visit(func(f *flag.Flag) { given = given || f.Name == "rapid.seed" })
	if !given {
		if err := flag.Set("rapid.seed", rapidSeed); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}
