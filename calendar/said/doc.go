// Package said holds what is said by the people of a kitchen on its way from a page, or a calendar
// program, to the record: the words, the forms that they are said with, and what comes back. It knows
// neither HTTP nor the record's files.
//
// A form is sealed with the address that it was drawn for and with how much had been said by then; its
// seal is the word that goes into the record with the entry (once). So what is tapped twice, sent again
// after a lost answer or sent from the page that one went back to is written once.
//
// Reading order: words.go (what is said and heard, and what was said), form.go (from a form to that) with verbs.go
// (verb by verb) and measured.go (what a recipe asks for).
package said
