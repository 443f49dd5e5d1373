package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"ripeby": main})
}

var updateScripts = flag.Bool("update", false, "write the compared parts of the command scripts anew")

// scripts is where the command scripts are, named after the subcommand that they
// are about, and the kitchen folder "small" that each of them has a copy of.
const scripts = "../../testdata/script"

func TestScripts(t *testing.T) {
	small, err := filepath.Abs(filepath.Join(scripts, "small"))
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 scripts,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *updateScripts,
		Setup: func(env *testscript.Env) error {
			return os.CopyFS(filepath.Join(env.WorkDir, "small"), os.DirFS(small))
		},
		Condition: func(name string) (bool, error) {
			switch name {
			case "root":
				return os.Geteuid() == 0, nil
			case "fulldisk": // a device that is always full
				_, err := os.Stat("/dev/full")
				return err == nil, nil
			}
			return false, errors.New("unknown condition " + name)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"status": status},
	})
}

// status runs a command and wants its exit code: status 2 ripeby plan --bogus.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status code command...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code is %d, want %d", got, want)
	}
}
