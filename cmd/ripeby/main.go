package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
	"time"

	_ "time/tzdata" // for machines without time zone data; the machine's own comes first

	"ripeby/schedule"
	"ripeby/schedule/judge"
)

// The exit codes. Results go to standard output, errors to standard error.
const (
	exitMet   = 0 // everything wanted is met; or the command did what it was asked
	exitOther = 1 // anything else: a file cannot be written, a fault of ripeby
	exitWrong = 2 // the folder or the command line is wrong; nothing was written
	exitShort = 3 // a plan was made, but some target is short
)

// exitTable is the same table for the help.
const exitTable = `Exit codes:
  0  all targets are met; or the command did what it was asked
  1  anything else, such as a file that cannot be written
  2  the folder or the command line is wrong; nothing was written
  3  a plan was made, but some target is short`

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// The first Ctrl-C asks for the best plan so far. From then on signals work as
	// usual again, so a second one quits at once.
	context.AfterFunc(ctx, stop)
	systemZones(os.Getenv).use()
	code := run(ctx, os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}, os.Getenv)
	os.Exit(code)
}

// streams are the three standard streams.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// program is what every subcommand works with.
type program struct {
	in       io.Reader
	out      *resultWriter
	err      io.Writer
	rawOut   io.Writer // out as it was given, to ask whether it is a terminal
	env      func(string) string
	now      func() time.Time
	judge    func(*schedule.Problem, *schedule.Plan) []judge.Violation
	tzSource zoneSource

	started bool // a subcommand has begun: what fails from here is not the command line
	code    int  // the exit code when nothing fails
}

// run does what the command line says and gives the exit code. The context ends
// planning early; the best plan found by then counts.
func run(ctx context.Context, args []string, s streams, env func(string) string) int {
	return newProgram(s, env).execute(ctx, args)
}

func newProgram(s streams, env func(string) string) *program {
	return &program{in: s.in, out: &resultWriter{to: s.out}, err: s.err, rawOut: s.out, env: env,
		now: time.Now, judge: judge.Check, tzSource: systemZones(env)}
}

// execute is run. A panic is a fault of ripeby and ends with its own exit code:
// the Go runtime's would say that the folder is wrong.
func (p *program) execute(ctx context.Context, args []string) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintf(p.err, "ripeby: this is a fault of ripeby, not of your kitchen folder: %v\n"+
				"Please report it with the kitchen folder, the command line and this:\n%s", fault, debug.Stack())
			code = exitOther
		}
	}()
	root := p.rootCommand()
	root.SetArgs(args)
	cmd, err := root.ExecuteContextC(ctx)
	if p.out.err != nil {
		err = p.out.failed() // said once, whoever met it first
	}
	if err == nil {
		return p.code
	}
	code = exitOther
	var f *failure
	switch {
	case errors.As(err, &f):
		code = f.code
	case !p.started:
		code = exitWrong
		err = fmt.Errorf("%w\nSee: %s --help", err, cmd.CommandPath())
	}
	fmt.Fprintf(p.err, "ripeby: %s\n", plainLines(err.Error()))
	return code
}

// failure is an error with the exit code that it leads to.
type failure struct {
	code int
	err  error
}

// Error gives the error without the code.
func (f *failure) Error() string { return f.err.Error() }

// Unwrap gives the error itself.
func (f *failure) Unwrap() error { return f.err }

// wrong says that the folder or the command line is at fault.
func wrong(format string, args ...any) error {
	return &failure{exitWrong, fmt.Errorf(format, args...)}
}

// other says that something else went wrong.
func other(format string, args ...any) error {
	return &failure{exitOther, fmt.Errorf(format, args...)}
}

// resultWriter remembers the first error, so that a full disk behind a pipe is
// noticed once, at the end, and not at each line.
type resultWriter struct {
	to  io.Writer
	err error
}

// Write passes on to the stream; after an error it writes no more.
func (w *resultWriter) Write(p []byte) (int, error) {
	if w.err != nil {
		return 0, w.err
	}
	n, err := w.to.Write(p)
	w.err = err
	return n, err
}

// failed gives the first error in the words of a message.
func (w *resultWriter) failed() error {
	if w.err == nil {
		return nil
	}
	return other("the result cannot be written to standard output: %w", w.err)
}
