// Package lack says what a job for a short demand does not get, beside what is placed.
//
// It goes by what is placed now and proves nothing: it says where a search should make room.
// What is to be lifted for a job to be placed is a core, made smaller by deletion.
//
// Reading order: lack.go, holds.go.
package lack
