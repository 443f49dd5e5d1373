package whatif

import "sync"

// triedAtOnce is how many changes are tried side by side. Each has its own work, so the
// answers do not depend on it.
const triedAtOnce = 2

// sideBySide does n pieces of work, so many at once.
func sideBySide(n int, do func(i int)) {
	free := make(chan struct{}, triedAtOnce)
	var all sync.WaitGroup
	for i := range n {
		free <- struct{}{}
		all.Go(func() {
			do(i)
			<-free
		})
	}
	all.Wait()
}
