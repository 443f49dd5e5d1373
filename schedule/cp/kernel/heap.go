package kernel

// The heap of atoms: the most active first, of like activity the lower number, so
// that the order is one and the same whatever came before.

func (a *atoms) less(i, k int32) bool {
	if a.activity[i] != a.activity[k] {
		return a.activity[i] > a.activity[k]
	}
	return i < k
}

func (a *atoms) push(k int32) {
	if a.where[k] >= 0 {
		return
	}
	a.heap = append(a.heap, k)
	a.where[k] = int32(len(a.heap) - 1)
	a.up(len(a.heap) - 1)
}

func (a *atoms) up(i int) {
	k := a.heap[i]
	for i > 0 {
		p := (i - 1) / 2
		if !a.less(k, a.heap[p]) {
			break
		}
		a.heap[i] = a.heap[p]
		a.where[a.heap[i]] = int32(i)
		i = p
	}
	a.heap[i] = k
	a.where[k] = int32(i)
}

// remove takes the first out of the heap.
func (a *atoms) remove() {
	a.where[a.heap[0]] = -1
	n := len(a.heap) - 1
	k := a.heap[n]
	a.heap = a.heap[:n]
	if n == 0 {
		return
	}
	i := 0
	for {
		c := 2*i + 1
		if c >= n {
			break
		}
		if c+1 < n && a.less(a.heap[c+1], a.heap[c]) {
			c++
		}
		if !a.less(a.heap[c], k) {
			break
		}
		a.heap[i] = a.heap[c]
		a.where[a.heap[i]] = int32(i)
		i = c
	}
	a.heap[i] = k
	a.where[k] = int32(i)
}
