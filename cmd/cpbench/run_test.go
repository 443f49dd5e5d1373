package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"ripeby/schedule/cp/kernel"
)

// Two tasks of 5 and 7 that share a thing of one unit, so that the least makespan
// is 12; with the lag the first must start at most 3 before the second, which is
// impossible.
const (
	twoTasks = "2	1	0	0\n0	1	2	1	2	[0]	[0]\n1	1	1	3	[5]\n2	1	1	3	[7]\n3	1	0\n" +
		"0	1	0	0\n1	1	5	1\n2	1	7	1\n3	1	0	0\n1\n"
	never = "2	1	0	0\n0	1	2	1	2	[0]	[0]\n1	1	2	3	2	[5]	[5]\n2	1	2	3	1	[7]	[-3]\n3	1	0\n" +
		"0	1	0	0\n1	1	5	1\n2	1	7	1\n3	1	0	0\n1\n"
)

// folder makes a folder of two instances and a table.
func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	files["j10/psp1.sch"], files["j10/psp2.sch"] = twoTasks, never
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestRun(t *testing.T) {
	const head = "instance,lower,upper,source\n"
	const calendarHead = "instance,period,on,status,makespan\n"
	tests := []struct {
		name  string
		files map[string]string
		args  []string
		code  int
		want  []string // each must be in what is printed
	}{
		{"equal to the table", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,12,12,own\nj10/psp2.sch,unsat,unsat,own\n"},
			nil, exitFine, []string{"j10: 2 instances, 2 proved, 2 equal to the table, 0 proved where the table is open, 0 contradicting"}},
		{"open in the table", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,7,13,own\n"},
			nil, exitFine, []string{"2 proved, 0 equal to the table, 2 proved where the table is open, 0 contradicting"}},
		{"a measured row stands over an open one", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,7,13,own\n",
			"rcpsp_max_measured.csv": calendarHead[:9] + "status,makespan\nj10/psp1.sch,optimal,12\n"},
			nil, exitFine, []string{"1 equal to the table, 1 proved where"}},
		{"the table says less", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,11,11,own\n"},
			nil, exitContrary, []string{"j10/psp1.sch: CONTRADICTS THE TABLE: least 12; the table says 11", "1 contradicting"}},
		{"the table says more", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,13,13,own\n"},
			nil, exitContrary, []string{"CONTRADICTS THE TABLE: least 12; the table says 13"}},
		{"the table says impossible", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,unsat,unsat,own\n"},
			nil, exitContrary, []string{"least 12; the table says impossible"}},
		{"the table says possible", map[string]string{"rcpsp_max.csv": head + "j10/psp2.sch,0,30,own\n"},
			nil, exitContrary, []string{"j10/psp2.sch: CONTRADICTS THE TABLE: impossible"}},
		{"too little work", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,12,12,own\n"},
			[]string{"--work", "1"}, exitFine, []string{"j10/psp1.sch: not proved: found none; the table says 12", "1 proved, 0 equal"}},
		{"a sample", map[string]string{}, []string{"--sample", "1"}, exitFine, []string{"j10: 1 instances"}},
		{"one by name", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,12,12,own\n"}, []string{"--only", "psp1.sch,psp7.sch"}, exitFine, []string{"j10: 1 instances, 1 proved, 1 equal"}},
		{"a set that is not there", map[string]string{}, []string{"--set", "j30"}, exitFine, []string{"j30: skipped: no instances in"}},
		{"a malformed table", map[string]string{"rcpsp_max.csv": head + "j10/psp1.sch,some,12,own\n"},
			nil, exitFault, []string{`j10/psp1.sch: got bounds "some" and "12"`}},
		{"a table without a column", map[string]string{"rcpsp_max.csv": "instance,lower\n"}, nil, exitFault, []string{"want upper among them"}},
		{"a malformed instance", map[string]string{"j10/psp3.sch": "2	1\n"}, nil, exitFault, []string{"j10/psp3.sch: line 1: rows"}},
		{"no time at all", map[string]string{}, []string{"--seconds", "0"}, exitFault, []string{"want more than 0"}},
		// Windows [0,7) and [10,17): one task in each, 10 + 5 = 15. A window of 6
		// holds no task of 7.
		{"windows", map[string]string{"calendar/calendar.csv": calendarHead + "j10/psp1.sch,10,7,optimal,15\nj10/psp1.sch,10,6,unsat,unsat\nj10/psp2.sch,10,7,unsat,unsat\n"},
			[]string{"--set", "calendar"}, exitFine, []string{"calendar: 3 instances, 3 proved, 3 equal"}},
		{"windows are not left out", map[string]string{"calendar/calendar.csv": calendarHead + "j10/psp1.sch,10,7,optimal,12\n"},
			[]string{"--set", "calendar"}, exitContrary, []string{"7 of 10: CONTRADICTS THE TABLE: least 15; the table says 12"}},
	}
	for _, tt := range tests {
		var out bytes.Buffer
		args := append([]string{"run", "--set", "j10", "--data", folder(t, tt.files)}, tt.args...)
		if len(tt.args) > 0 && tt.args[0] == "--set" {
			args = append([]string{"run", "--data", args[4]}, tt.args...)
		}
		if got := execute(args, &out, &out); got != tt.code {
			t.Errorf("%s: got exit code %d, want %d\n%s", tt.name, got, tt.code, &out)
		}
		for _, want := range tt.want {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%s: got %s, want in it %q", tt.name, &out, want)
			}
		}
	}
}

func TestNoFolder(t *testing.T) {
	var out bytes.Buffer
	gone := filepath.Join(t.TempDir(), "gone")
	if got := execute([]string{"run", "--data", gone}, &out, &out); got != exitFine || !strings.Contains(out.String(), "skipped: there is no folder") {
		t.Errorf("got exit code %d, %s, want 0 and a word about the folder", got, &out)
	}
}

// Two tasks of 5 and 7 on one unit, both wanted at 2; a step early costs 1, a step
// late 2 of the first and 3 of the second.
const wantedTasks = `n_tasks = 4; n_res = 1; d = [0, 5, 7, 0]; rr = array2d(1..1, 1..4, [0, 1, 1, 0]); rc = [1];
suc = [{2, 3}, {4}, {4}, {}]; t_max = 30;
deadline = array2d(1..4, 1..3, [0, 0, 0, 2, 1, 2, 2, 1, 3, 0, 0, 0]);
`

// TestRunWanted: by hand, the first at 0 and the second at 5 is 2 + 3 x 3 = 11, a step
// later 1 + 3 x 4; the second at 0 and the first at 7 is 2 + 2 x 5 = 12.
func TestRunWanted(t *testing.T) {
	const head = "instance,status,objective\n"
	tests := []struct {
		table string
		code  int
		want  string
	}{
		{"a.dzn,optimal,11\n", exitFine, "wet: 1 instances, 1 proved, 1 equal to the table"},
		{"a.dzn,feasible,12\n", exitFine, "wet/a.dzn: proved: least 11; the table says 0 to 12"},
		{"a.dzn,optimal,10\n", exitContrary, "CONTRADICTS THE TABLE: least 11; the table says 10"},
		{"a.dzn,feasible,10\n", exitContrary, "CONTRADICTS THE TABLE: least 11"},
		{"a.dzn,optimal,none\n", exitFault, "wet_measured.csv: a.dzn"},
	}
	for _, tt := range tests {
		dir := folder(t, map[string]string{"wet/a.dzn": wantedTasks, "wet_measured.csv": head + tt.table})
		var out bytes.Buffer
		got := execute([]string{"run", "--data", dir, "--set", "wet", "--yardstick", dir}, &out, &out)
		if got != tt.code || !strings.Contains(out.String(), tt.want) {
			t.Errorf("%s: got exit code %d\n%swant %d and %q", tt.table, got, &out, tt.code, tt.want)
		}
		if n := strings.Count(out.String(), "the yardstick is skipped: there is no "); n != 1 {
			t.Errorf("%s: got %d lines about the yardstick that is not there, want 1\n%s", tt.table, n, &out)
		}
	}
}

// TestRunReason: of the second project the second task starts at least 5 after the
// first, and at most 3.
func TestRunReason(t *testing.T) {
	dir := folder(t, map[string]string{"calendar/calendar.csv": "instance,period,on,status,makespan\nj10/psp2.sch,20,15,unsat,\n"})
	var out bytes.Buffer
	got := execute([]string{"run", "--data", dir, "--set", "calendar", "--work", "100000"}, &out, &out)
	want := "j10/psp2.sch 15 of 20: impossible because of: lag 1 -> 2 at most 3\n"
	if got != exitFine || !strings.Contains(out.String(), want) {
		t.Errorf("got exit code %d\n%swant %q", got, &out, want)
	}
}

// TestYardstickThatFails: a package that is not what it says ends only itself. Where
// there is no node the line says that instead.
func TestYardstickThatFails(t *testing.T) {
	dir := folder(t, map[string]string{"wet/a.dzn": wantedTasks,
		"node_modules/minizinc/dist/minizinc-worker.js": "throw new Error('not what it says')",
		"node_modules/minizinc/dist/minizinc.wasm":      "", "node_modules/minizinc/dist/minizinc.data": ""})
	var out bytes.Buffer
	got := execute([]string{"run", "--data", dir, "--set", "wet", "--yardstick", dir}, &out, &out)
	want := "it is left out from here on"
	if _, err := exec.LookPath("node"); err != nil {
		want = "the yardstick is skipped: there is no node on the path"
	}
	if got != exitFine || !strings.Contains(out.String(), want) || !strings.Contains(out.String(), "wet: 1 instances, 1 proved") {
		t.Errorf("got exit code %d\n%swant 0 and %q", got, &out, want)
	}
}

// TestYardstickAnswers reads what the script may say.
func TestYardstickAnswers(t *testing.T) {
	tests := []struct {
		name    string
		replied replied
		want    answer
		bad     bool
	}{
		{"proved", replied{Status: "OPTIMAL_SOLUTION", Found: []int{9, 7}}, answer{status: kernel.Solved, found: true, value: 7}, false},
		{"out of time", replied{Status: "", Found: []int{9}}, answer{found: true, value: 9}, false},
		{"out of time with nothing", replied{Status: "UNKNOWN"}, answer{}, false},
		{"impossible", replied{Status: "UNSATISFIABLE"}, answer{status: kernel.Impossible}, false},
		{"failed", replied{Error: "out of memory"}, answer{}, true},
	}
	for _, tt := range tests {
		got, err := tt.replied.answer(20)
		if (err != nil) != tt.bad || got.status != tt.want.status || got.found != tt.want.found || got.value != tt.want.value {
			t.Errorf("%s: got %v %v, want %v", tt.name, got, err, tt.want)
		}
	}
}

// TestContradicts stands one step either side of what is known.
func TestContradicts(t *testing.T) {
	open, closed := known{lower: 10, upper: 14}, known{lower: 12, upper: 12}
	tests := []struct {
		status   kernel.Status
		makespan int // 0 for none found
		known    known
		want     bool
	}{
		{kernel.Solved, 9, open, true}, {kernel.Solved, 10, open, false}, {kernel.Solved, 14, open, false}, {kernel.Solved, 15, open, true},
		{kernel.Unknown, 9, open, true}, {kernel.Unknown, 15, open, false}, {kernel.Unknown, 0, open, false},
		{kernel.Solved, 12, closed, false}, {kernel.Solved, 11, closed, true}, {kernel.Solved, 13, closed, true}, {kernel.Unknown, 13, closed, false},
		{kernel.Impossible, 0, closed, true}, {kernel.Impossible, 0, known{impossible: true}, false}, {kernel.Impossible, 0, known{lower: 9}, false},
		{kernel.Unknown, 20, known{impossible: true}, true}, {kernel.Unknown, 0, known{impossible: true}, false}, {kernel.Solved, 20, known{}, false},
	}
	for _, tt := range tests {
		a := answer{status: tt.status, found: tt.makespan > 0, value: tt.makespan}
		if got := a.contradicts(tt.known); got != tt.want {
			t.Errorf("%v %d against %v: got %v, want %v", tt.status, tt.makespan, tt.known, got, tt.want)
		}
	}
}

// TestAgainst stands one step either side of what another found.
func TestAgainst(t *testing.T) {
	nine := answer{found: true, value: 9}
	tests := []struct {
		a, other answer
		want     bool
	}{
		{answer{status: kernel.Solved, found: true, value: 9}, nine, false},
		{answer{status: kernel.Solved, found: true, value: 10}, nine, true},
		{answer{status: kernel.Solved, found: true, value: 8}, nine, false},
		{answer{found: true, value: 12, bound: 9}, nine, false},
		{answer{found: true, value: 12, bound: 10}, nine, true},
		{answer{found: true, value: 12}, nine, false},
		{answer{status: kernel.Impossible}, nine, true},
		{answer{status: kernel.Impossible}, answer{}, false},
	}
	for _, tt := range tests {
		if got := tt.a.against(tt.other); got != tt.want {
			t.Errorf("%+v against %+v: got %v, want %v", tt.a, tt.other, got, tt.want)
		}
	}
}

// TestPublishedSample proves some instances of every set, and the first of PSPLIB,
// j301_1, whose least makespan is 43; where the public sets are given.
func TestPublishedSample(t *testing.T) {
	dir := os.Getenv("RIPEBY_RCPSP")
	if dir == "" {
		t.Skip("RIPEBY_RCPSP does not name a folder with the public sets j30, ubo10, …")
	}
	in, err := read(filepath.Join(dir, "j30", "j301_1.sm"))
	if err != nil {
		t.Fatal(err)
	}
	a := solve(t.Context(), &in.Instance, calendar{}, 50_000_000, false)
	if a.status != kernel.Solved || a.value != 43 {
		t.Errorf("j301_1: got %v, want least 43", a)
	}
	b := solve(t.Context(), &in.Instance, calendar{}, 50_000_000, false)
	if a.counted != b.counted {
		t.Errorf("j301_1 twice: got %+v, then %+v", a.counted, b.counted)
	}
	var out bytes.Buffer
	if got := execute([]string{"run", "--data", dir, "--sample", "12", "--work", "3000000"}, &out, &out); got != exitFine {
		t.Errorf("got exit code %d\n%s", got, &out)
	}
	t.Log(out.String())
}
