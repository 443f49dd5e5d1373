package label

import (
	"net/url"
	"strconv"

	"ripeby/resources"
)

// None is why there are no labels, and where the page that says so leads back to.
type None struct{ Why, Back string }

// Asked reads what an address asks for: ID or ID/CELL, below labels/ of a page whose addresses begin
// with root. ok is false where it means nothing.
func Asked(root string, path []string) (batch string, opt Options, ok bool) {
	opt.Start = 1
	switch len(path) {
	case 2:
		n, err := strconv.Atoi(path[1])
		if err != nil || n < 1 || n > resources.MostCells {
			return "", opt, false
		}
		opt.Start = n
	case 1:
	default:
		return "", opt, false
	}
	id := url.PathEscape(path[0])
	opt.Back, opt.Cells = root+"batch/"+id, root+"labels/"+id+"/"
	return path[0], opt, true
}
