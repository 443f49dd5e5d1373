package main

import (
	"context"
	"time"

	"ripeby/cmd/internal/processor"
)

// limited is a context that ends when so much processor time is spent: on a busy
// machine the clock would measure what others do.
type limited struct {
	context.Context
	until time.Duration
}

// within gives a context that ends after so much more processor time.
func within(ctx context.Context, seconds float64) context.Context {
	return limited{ctx, processor.Spent() + time.Duration(seconds*float64(time.Second))}
}

// Err implements [context.Context].
func (l limited) Err() error {
	if processor.Spent() >= l.until {
		return context.DeadlineExceeded
	}
	return l.Context.Err()
}
