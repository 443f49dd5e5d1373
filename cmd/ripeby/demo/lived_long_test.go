//go:build long

package demo_test

// So many seasons of so many days are lived.
const (
	livedSeasons = 30
	livedDays    = 56
)
