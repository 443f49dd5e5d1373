package config

import (
	"cmp"

	"ripeby/config/fault"
)

// Fault is one thing that is wrong with a kitchen folder.
type Fault = fault.Fault

// Faults is everything that is wrong with a folder: file by file in the order in
// which they are read, and within a file from top to bottom.
type Faults = fault.Faults

// What reading uses at every step has a short name here.

func clip(text string) string { return fault.Clip(text) }

func nearest(word string, candidates []string) string { return fault.Nearest(word, candidates) }

func quantityFault(err error) Fault { return fault.OfQuantity(err) }

func suggested[T any](f Fault, text string, parse func(string) (T, error)) Fault {
	return fault.Suggested(f, text, parse)
}

func whole(least, most int) func(string) (int, error) { return fault.Whole(least, most) }

func above0[T cmp.Ordered](parse func(string) (T, error)) func(string) (T, error) {
	return fault.Above0(parse)
}

func truth(text string) (bool, error) { return fault.Truth(text) }

func nameText(text string) (string, error) { return fault.Name(text) }
