// Package heard lays what the kitchen has said beside the plan that is shown: which job a word was of, what
// was said of it last, and what is to be answered yet. Everything is told by the plan in force; what a new
// one would make of the words is not its business.
//
// Read beside.go, then jobs.go, questions.go, markets.go, and measured.go with fields.go.
package heard
