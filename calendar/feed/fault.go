package feed

import (
	"errors"
	"fmt"
	"runtime/debug"
	"strings"
)

// ownFault is a panic where none should be. What it was and where is for whoever runs
// the server; a page says that there was one.
type ownFault struct {
	cause any
	stack []byte
}

// caught makes an ownFault of what recover gave; nil of nothing.
func caught(cause any) error {
	if cause == nil {
		return nil
	}
	return &ownFault{cause, debug.Stack()}
}

// safely asks for something; a panic in it is an error like others.
func safely[T any](ask func() (T, error)) (got T, err error) {
	defer func() {
		if fault := caught(recover()); fault != nil {
			err = fault
		}
	}()
	return ask()
}

// Error is fit for a page.
func (*ownFault) Error() string {
	return "this is a fault of ripeby, not of your kitchen folder; the terminal where it serves tells more"
}

// linesOf is what a page tells of an error.
func linesOf(err error) []string {
	var folder *FolderFault
	if errors.As(err, &folder) && len(folder.Lines) > 0 {
		return folder.Lines
	}
	return strings.Split(err.Error(), "\n")
}

// detailsOf is what the terminal tells of it.
func detailsOf(err error) string {
	text := err.Error()
	var own *ownFault
	if errors.As(err, &own) {
		text += fmt.Sprintf("\n%v\n%s", own.cause, own.stack)
	}
	return text
}
