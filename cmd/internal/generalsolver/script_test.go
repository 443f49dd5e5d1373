package generalsolver_test

import (
	"errors"
	"os/exec"
	"strings"
	"testing"
	"time"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/schedule/testrun"
)

// TestFindNamesWhatIsMissing: one line, and what brings it where only that is missing.
func TestFindNamesWhatIsMissing(t *testing.T) {
	_, err := generalsolver.Find(t.TempDir())
	want := `"npm install minizinc"`
	if _, none := exec.LookPath("node"); none != nil {
		want = "there is no node on the path"
	}
	if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
		t.Errorf("got %v, want one line with %q", err, want)
	}
}

// TestFindPythonNamesWhatIsMissing: in one line.
func TestFindPythonNamesWhatIsMissing(t *testing.T) {
	for name, want := range map[string]string{"no-such-python": "there is no no-such-python", "false": `"false -m pip install ortools"`} {
		_, err := generalsolver.FindPython(name)
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("got %v, want one line with %q", err, want)
		}
	}
}

// adds answers {"a", "b"} with their sum; a above 9 it keeps waiting, and at an a below
// 0 it ends.
const adds = `import { createInterface } from 'node:readline';
const more = Number(process.argv.at(-1));
createInterface({ input: process.stdin }).on('line', line => {
  const q = JSON.parse(line);
  if (q.a < 0) process.exit(3);
  if (q.a === 0) console.log('nothing');
  if (q.a > 0 && q.a <= 9) console.log(JSON.stringify({ sum: q.a + q.b + more }));
});`

type question struct {
	A int `json:"a"`
	B int `json:"b"`
}

// started is the script that adds, and 100 to each.
func started(t *testing.T) *generalsolver.Script {
	t.Helper()
	if _, err := exec.LookPath("node"); err != nil {
		testrun.Missing(t, "there is no node on the path")
	}
	s, err := generalsolver.Start(adds, "100")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// TestAsk: a line for a line.
func TestAsk(t *testing.T) {
	s := started(t)
	for a := 1; a < 4; a++ {
		var got struct{ Sum int }
		if err := s.Ask(question{a, 7}, &got, time.Minute); err != nil || got.Sum != a+107 {
			t.Fatalf("%d + 7 + 100: got %d, %v", a, got.Sum, err)
		}
	}
}

// TestAskGoesWrong: what is late, not of the form, or of a script that has ended.
func TestAskGoesWrong(t *testing.T) {
	for _, c := range []struct {
		name string
		a    int
		most time.Duration
		want string
	}{
		{"late", 10, 50 * time.Millisecond, generalsolver.ErrLate.Error()},
		{"not of the form", 0, 0, `wrote "nothing`},
		{"ended", -1, 0, "has ended: EOF, exit status 3"},
	} {
		var got struct{ Sum int }
		err := started(t).Ask(question{A: c.a}, &got, c.most)
		if err == nil || !strings.Contains(err.Error(), c.want) || errors.Is(err, generalsolver.ErrLate) != (c.name == "late") {
			t.Errorf("%s: got %v, want %q", c.name, err, c.want)
		}
	}
}
