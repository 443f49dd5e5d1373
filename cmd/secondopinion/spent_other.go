//go:build !unix

package main

import "time"

// spent is the clock, where processor time is not to be had.
func spent() time.Duration { return time.Duration(time.Now().UnixNano()) }
