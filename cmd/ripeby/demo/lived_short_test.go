//go:build !long

package demo_test

// So many seasons of so many days are lived.
const (
	livedSeasons = 3
	livedDays    = 10
)
