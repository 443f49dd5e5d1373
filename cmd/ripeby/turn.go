package main

import (
	"errors"
	"os"
)

// turn is a run's sole right to plan into a folder. Two runs at the same time
// would each read the same earlier plan, and the files of one could end beside
// those of the other. So the folder itself is locked, from before the earlier plan
// is read until the new one is written. The system ends the lock with the run,
// however the run ends, and no file is left behind. A folder that is not there yet
// is locked as soon as it is made.
type turn struct {
	out  output
	end  func() // gives the turn up
	held bool   // false: the folder was not there, or the system cannot lock it
}

// errBusy says that another run has its turn.
var errBusy = errors.New("another ripeby is planning into it just now")

// takeTurn locks the folder if it is there.
func (o output) takeTurn() (*turn, error) {
	t := &turn{out: o, end: func() {}}
	return t, t.lock()
}

// toWrite makes the folder, and locks it if it was not there before.
func (t *turn) toWrite() error {
	if err := os.MkdirAll(t.out.dir, 0o777); err != nil {
		return t.out.cannot(err)
	}
	return t.lock()
}

func (t *turn) lock() error {
	if t.held {
		return nil
	}
	unlock, err := lockFolder(t.out.dir)
	if err != nil {
		return other("the plan cannot be kept in %s: %w; wait until that is done, or choose another folder with --out", t.out.dir, err)
	}
	t.held = unlock != nil
	if t.held {
		t.end = unlock
	}
	return nil
}
