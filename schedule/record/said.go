package record

// Said is a value that somebody gave or left out: "came: 0 L" says that none came, and
// is not the same as saying nothing.
type Said[T any] struct {
	Value T
	Given bool
}

// Say is a value that was given.
func Say[T any](v T) Said[T] { return Said[T]{Value: v, Given: true} }

// Or gives the value, or another where none was given.
func (s Said[T]) Or(otherwise T) T {
	if s.Given {
		return s.Value
	}
	return otherwise
}
