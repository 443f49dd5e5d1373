// Package served holds what was drawn on its way to who asked: a page, a picture or a list with the headers
// that go with it, and what is kept of it for the minute that it shows. It knows nothing of kitchens.
//
// Reading order: kept.go (an answer, and what is kept), drawn.go (what answers are made of, and how a request is
// readied for them).
package served
