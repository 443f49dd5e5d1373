// Package ask holds what is asked on the page: can so many more be promised, is there room in the cold, why
// is something short and what would help, what would be saved if more were moved. A desk works on one
// question at a time, beside whatever else the server does; further ones wait their turn. The answer is kept
// for a while, and what it offers can be taken: an order promised, a plan made that moves more. A market
// day or an order can be written down without asking, too.
//
// It knows neither HTTP nor files, and no clock but the one that it is given. What an answer says, and what is
// written, comes from the [Kitchen] that is asked.
//
// Reading order: question.go (what is asked, and of whom), card.go (a question at the desk), desk.go (the
// questions in turn), written.go (what is written into the kitchen's files from here), form.go (from a form to a
// question, and whose form it is), shown.go (what a page shows) and button.go (its forms of one button, and
// forms as they were filled in).
package ask
