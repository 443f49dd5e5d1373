package served

import (
	"fmt"
	"testing"
)

// However many pages somebody asks for, no more than so much is kept of them; of another board or another minute
// nothing is.
func TestWhatIsKeptIsBounded(t *testing.T) {
	var k Kept
	board, other := new(int), new(int)
	for i := range 4 * MostAnswers {
		k.Add(board, 7, fmt.Sprint(i), &Answer{Text: []byte("x")})
	}
	if len(k.answers) != MostAnswers || k.Find(board, 7, "0") == nil || k.Find(board, 7, fmt.Sprint(MostAnswers)) != nil {
		t.Errorf("kept are %d answers, want the first %d", len(k.answers), MostAnswers)
	}
	if k.Find(other, 7, "0") != nil || k.Find(board, 8, "0") != nil {
		t.Error("what was drawn of another board, or in another minute, is given")
	}
	large := &Answer{Text: make([]byte, MostBytes/3)}
	for i := range 8 {
		k.Add(other, 0, fmt.Sprint(i), large)
	}
	if len(k.answers) != 3 || k.bytes > MostBytes {
		t.Errorf("kept are %d answers of a third each, want 3", len(k.answers))
	}
}
