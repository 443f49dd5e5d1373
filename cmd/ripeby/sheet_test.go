package main

import (
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestSheetOfAServer: the page's sheet leads back, is that of the record as it stands, and knows a batch that is in the
// plan no more; of none that nobody knows there is one, and no error names where files are.
func TestSheetOfAServer(t *testing.T) {
	folder, _ := recordFolder(t)
	planAt(t, folder, begunAt)
	p := newProgram(streams{nil, io.Discard, io.Discard}, func(string) string { return "" })
	p.now = func() time.Time { return time.Date(2027, 3, 20, 12, 0, 0, 0, time.UTC) }
	w := newWatched(p, &settings{folder: folder, out: filepath.Join(folder, "plan")}, kitchen{folder: folder})
	page, err := w.Sheet("QC-270304-1", "/p/x/batch/QC-270304-1")
	if err != nil || !strings.Contains(string(page), `<a href="/p/x/batch/QC-270304-1">Back to the batch</a>`) || !strings.Contains(string(page), "as planned, ") {
		t.Errorf("got %v\n%s", err, page)
	}
	planAt(t, folder, "2027-03-20 12:00", "--no-targets")
	if page, err = w.Sheet("QC-270304-1", "/p/x/"); err != nil || !strings.Contains(string(page), "It is no longer in the plan") {
		t.Errorf("got %v\n%s", err, page)
	}
	if _, err = w.Sheet("QC-270304-9", "/"); err == nil || strings.Contains(err.Error(), folder) {
		t.Errorf("got %v", err)
	}
}
