//go:build audit

package search

// auditing says that every step of a proof is held against the best plan known.
const auditing = true
