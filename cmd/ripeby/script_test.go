package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"ripeby/schedule/testrun"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"ripeby": main})
}

var updateScripts = flag.Bool("update", false, "write the compared parts of the command scripts anew")

// scripts is where the command scripts are, named after the subcommand that they
// are about, and the kitchen folder "small" that each of them has a copy of, beside
// the module's README.md.
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
			readme, err := os.ReadFile("../../README.md")
			if err != nil {
				return err
			}
			if err := os.WriteFile(filepath.Join(env.WorkDir, "README.md"), readme, 0o644); err != nil {
				return err
			}
			return os.CopyFS(filepath.Join(env.WorkDir, "small"), os.DirFS(small))
		},
		Condition: func(name string) (bool, error) {
			switch name {
			case "root":
				return os.Geteuid() == 0, nil
			case "long":
				return testrun.Long, nil
			case "fulldisk": // a device that is always full
				_, err := os.Stat("/dev/full")
				return err == nil, nil
			}
			return false, errors.New("unknown condition " + name)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"status": status, "shown": shown},
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

// shown wants a page to show what the last command has printed, in a block of code
// that begins with the command line. A line … stands for lines that are left out:
// shown README.md 'go run ./cmd/ripeby plan --demo'.
func shown(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: shown page command-line")
	}
	_, block, ok := strings.Cut(ts.ReadFile(args[0]), "$ "+args[1]+"\n")
	if !ok {
		ts.Fatalf("%s shows no %q", args[0], "$ "+args[1])
	}
	block, _, _ = strings.Cut(block, "```")
	rest := ts.ReadFile("stdout")
	for _, part := range strings.Split(block, "…\n") {
		_, after, ok := strings.Cut("\n"+rest, "\n"+strings.TrimSuffix(part, "\n"))
		if !ok {
			ts.Fatalf("%s shows what is not in the rest of the output:\n%s", args[0], part)
		}
		rest = after
	}
}
