package main

import (
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planfile"
	"ripeby/schedule/testrun"
)

// allFiles are the files of a folder by their paths below it, locks apart.
func allFiles(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || e.Name() == ".lock" {
			return err
		}
		text, err := os.ReadFile(filepath.Join(dir, path))
		files[path] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// planAt plans a folder as of a moment.
func planAt(t *testing.T, folder, from string, more ...string) {
	t.Helper()
	if got := runWith(t.Context(), nil, append([]string{"plan", "-C", folder, "--from", from}, more...)...); got.code != exitMet {
		t.Fatalf("exit code %d: %s", got.code, got.err)
	}
}

const (
	begunAt = "2027-03-04 20:00" // its make has begun
	overAt  = "2027-03-06 12:00" // and all of it is over
	keptOf  = "record/batches/QC-270304-1.json"
)

// TestOnlyItsOwnPlanKeepsBatches: a plan that is printed, that goes elsewhere or that fails keeps
// nothing, and neither does one under which nothing has begun.
func TestOnlyItsOwnPlanKeepsBatches(t *testing.T) {
	folder, _ := recordFolder(t)
	none := func(what string) {
		t.Helper()
		if _, err := os.Lstat(filepath.Join(folder, "record")); err == nil {
			t.Fatalf("%s: something was kept: %v", what, allFiles(t, folder))
		}
	}
	none("nothing has begun")
	planAt(t, folder, begunAt, "--json")
	none("--json")
	planAt(t, folder, begunAt, "--json", "--out", filepath.Join(folder, "plan"))
	none("--json with --out")
	planAt(t, folder, "2027-03-01 06:00", "--fresh")
	elsewhere := filepath.Join(t.TempDir(), "plan")
	planAt(t, folder, "2027-03-01 06:00", "--out", elsewhere)
	planAt(t, folder, begunAt, "--out", elsewhere)
	none("--out elsewhere")
	bad := func(p *program) {
		p.judge = func(*schedule.Problem, *schedule.Plan) []judge.Violation { return []judge.Violation{{Rule: "overlap"}} }
	}
	if got := runWith(t.Context(), bad, "plan", "-C", folder, "--from", begunAt); got.code != exitOther {
		t.Fatalf("got exit code %d", got.code)
	}
	none("a plan that does not hold")
	planAt(t, folder, begunAt, "--out", filepath.Join(folder, "recipes", "..", "plan"))
	if _, ok := allFiles(t, folder)[keptOf]; !ok {
		t.Errorf("its own plan, by another path: got %v", allFiles(t, folder))
	}
}

// TestKeptBatchesPlanNothing: plans are the same with and without record/batches, and with a
// damaged file in it, which is told and left as it is.
func TestKeptBatchesPlanNothing(t *testing.T) {
	folder, _ := recordFolder(t)
	planAt(t, folder, begunAt)
	other := filepath.Join(t.TempDir(), "other")
	for what, change := range map[string]func() error{
		"with them": func() error { return nil },
		"without":   func() error { return os.RemoveAll(filepath.Join(other, "record")) },
		"damaged": func() error {
			return os.WriteFile(filepath.Join(other, keptOf), []byte(`{"schema": "ripeby/ba`), 0o644)
		},
	} {
		if err := os.RemoveAll(other); err != nil {
			t.Fatal(err)
		}
		if err := os.CopyFS(other, os.DirFS(folder)); err != nil {
			t.Fatal(err)
		}
		if err := change(); err != nil {
			t.Fatal(err)
		}
		got := runWith(t.Context(), nil, "plan", "-C", other, "--from", "2027-03-05 08:00")
		if got.code != exitMet {
			t.Fatalf("%s: %s", what, got.err)
		}
		files := allFiles(t, other)
		wanted := runWith(t.Context(), nil, "plan", "-C", folder, "--from", "2027-03-05 08:00", "--json")
		if files["plan/plan.json"] != wanted.out {
			t.Errorf("%s: another plan", what)
		}
		if what == "damaged" && (files[keptOf] != `{"schema": "ripeby/ba` || !strings.Contains(got.err, keptOf+":1:") || !strings.Contains(got.err, "put back a good copy of it, or take it away")) {
			t.Errorf("%s: got %q, and told %q", what, files[keptOf], got.err)
		}
	}
}

// TestUnchangedBatchesAreNotWritten, and what a killed run left behind is swept.
func TestUnchangedBatchesAreNotWritten(t *testing.T) {
	folder, _ := recordFolder(t)
	planAt(t, folder, begunAt)
	file := filepath.Join(folder, keptOf)
	long := time.Now().Add(-time.Hour)
	if err := os.Chtimes(file, long, long); err != nil {
		t.Fatal(err)
	}
	left := filepath.Join(folder, "record", "batches", ".ripeby-1.part")
	if err := os.WriteFile(left, []byte("{"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(left, long, long); err != nil {
		t.Fatal(err)
	}
	planAt(t, folder, begunAt)
	if info, err := os.Stat(file); err != nil || !info.ModTime().Before(time.Now().Add(-time.Minute)) {
		t.Errorf("it was written anew (%v)", err)
	}
	planAt(t, folder, overAt, "--no-targets")
	if got, want := names(t, filepath.Dir(file)), []string{"QC-270304-1.json"}; !slices.Equal(got, want) {
		t.Errorf("the folder holds %v, want %v", got, want)
	}
	if text := allFiles(t, folder)[keptOf]; !strings.Contains(text, `"left": 10`) {
		t.Errorf("got\n%s\nwant what left", text)
	}
	last := allFiles(t, folder)[keptOf]
	planAt(t, folder, "2027-03-20 12:00", "--no-targets")
	if allFiles(t, folder)[keptOf] != last {
		t.Error("it was changed though it is gone from the plan")
	}
}

// TestKilledBetweenBatchesAndPlan: whatever files a kill leaves new and whatever old, the next plan
// leaves what it would have left without; the batch is over in it.
func TestKilledBetweenBatchesAndPlan(t *testing.T) {
	folder, _ := recordFolder(t)
	planAt(t, folder, begunAt)
	before := allFiles(t, folder)
	planAt(t, folder, overAt, "--no-targets")
	after := allFiles(t, folder)
	if before[keptOf] == after[keptOf] {
		t.Fatal("nothing has changed: nothing is tested")
	}
	batches := func(path string) bool { return strings.HasPrefix(path, "record/batches/") }
	for what, moved := range map[string]func(path string) bool{
		"before the first": func(string) bool { return false },
		"after batches":    batches,
		"after the plan":   func(path string) bool { return batches(path) || path == "plan/plan.json" },
	} {
		for path := range before {
			text := before[path]
			if moved(path) {
				text = after[path]
			}
			if err := os.WriteFile(filepath.Join(folder, path), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		planAt(t, folder, overAt, "--no-targets")
		if got := allFiles(t, folder); got[keptOf] != after[keptOf] {
			t.Errorf("killed %s: got\n%s\nwant\n%s", what, got[keptOf], after[keptOf])
		}
	}
}

// TestPlanKilled: a plan that is killed at whatever moment leaves every file of a batch whole, and
// the next one leaves what it would have left without.
func TestPlanKilled(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no kill -9 there")
	}
	folder, _ := recordFolder(t)
	planAt(t, folder, begunAt)
	before := t.TempDir()
	if err := os.CopyFS(filepath.Join(before, "small"), os.DirFS(folder)); err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	program := ownProgram(t)
	args := []string{"plan", "-C", folder, "--from", overAt, "--no-targets"}
	if out, err := exec.Command(program, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	takes := time.Since(start)
	want := allFiles(t, folder)
	dice, seen := rand.New(rand.NewPCG(20270316, 8)), map[string]int{}
	for range testrun.Rounds(10, 100) {
		if err := os.RemoveAll(folder); err != nil {
			t.Fatal(err)
		}
		if err := os.CopyFS(folder, os.DirFS(filepath.Join(before, "small"))); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(program, args...)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(dice.Int64N(int64(takes))))
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		kept, bad := batchFolder{folder}.all()
		if len(kept) != 1 || len(bad) > 0 {
			t.Fatalf("after a kill got %d batches, and cannot read %v", len(kept), bad)
		}
		switch got := allFiles(t, folder); got[keptOf] {
		case want[keptOf]:
			seen["new"]++
		default:
			seen["old"]++
		}
		planAt(t, folder, overAt, "--no-targets")
		if got := allFiles(t, folder); got[keptOf] != want[keptOf] {
			t.Fatalf("mended, got\n%s\nwant\n%s", got[keptOf], want[keptOf])
		}
	}
	t.Logf("killed: %v", seen)
}

// TestBatchesGoFirst: plan.json is in its place only when what is over is kept, and where that
// cannot be kept there is no new plan.
func TestBatchesGoFirst(t *testing.T) {
	change := func(folder string) *batchChange {
		return &batchChange{folder: batchFolder{folder}, pages: []page{{"A-1.json", []byte("new batch")}}}
	}
	folder := t.TempDir()
	out := output{filepath.Join(folder, "plan")}
	if err := os.MkdirAll(filepath.Join(out.path(planName), "in the way"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := out.write([]page{{planName, []byte("new plan")}}, change(folder), time.Now()); err == nil {
		t.Fatal("got no error")
	}
	if got := allFiles(t, folder); len(got) != 1 || got["record/batches/A-1.json"] != "new batch" {
		t.Errorf("got %v, want the batch alone", got)
	}
	folder = t.TempDir()
	out = output{filepath.Join(folder, "plan")}
	if err := os.MkdirAll(filepath.Join(folder, "record", "batches", "A-1.json", "in the way"), 0o755); err != nil {
		t.Fatal(err)
	}
	err := out.write([]page{{planName, []byte("new plan")}}, change(folder), time.Now())
	if err == nil || !strings.Contains(err.Error(), "what was made cannot be kept in ") || !strings.Contains(err.Error(), "the plan was not written") {
		t.Errorf("got %v", err)
	}
	if got := allFiles(t, folder); len(got) != 0 {
		t.Errorf("got %v, want nothing", got)
	}
}

// TestServeKeepsBatches, and does not take that for a change of the folder.
func TestServeKeepsBatches(t *testing.T) {
	folder, _ := recordFolder(t)
	p := newProgram(streams{nil, io.Discard, io.Discard}, func(string) string { return "" })
	p.now = func() time.Time { return time.Date(2027, 3, 4, 20, 0, 0, 0, time.UTC) }
	w := newWatched(p, &settings{folder: folder, out: filepath.Join(folder, "plan")}, kitchen{folder: folder})
	was := w.Print()
	w.PlanPrint()
	if _, err := w.Plan(t.Context()); err != nil {
		t.Fatal(err)
	}
	if _, ok := allFiles(t, folder)[keptOf]; !ok {
		t.Errorf("got %v, want the batch that has begun", allFiles(t, folder))
	}
	if w.Print() != was || !w.fresh() {
		t.Error("it would plan anew for what it has kept itself")
	}
}

// TestSayingSomethingOfWhatIsGone: of a batch that no plan has any more and that nobody ever spoke of
// things can be said still, and are told with it.
func TestSayingSomethingOfWhatIsGone(t *testing.T) {
	folder, _ := recordFolder(t)
	planAt(t, folder, begunAt)
	planAt(t, folder, overAt, "--no-targets")
	later := func(p *program) { p.now = func() time.Time { return time.Date(2027, 3, 20, 9, 0, 0, 0, time.UTC) } }
	if got := runWith(t.Context(), later, "record", "-C", folder, "gone", "QC-270304-1", "1", "--why", "eaten"); got.code != 0 {
		t.Fatalf("got exit code %d: %s", got.code, got.err)
	}
	if got := runWith(t.Context(), later, "record", "-C", folder, "gone", "QC-270304-2", "1"); got.code != exitWrong || !strings.Contains(got.err, `did you mean "QC-270304-1"?`) {
		t.Errorf("another: got exit code %d: %s", got.code, got.err)
	}
	if got := runWith(t.Context(), later, "trace", "-C", folder, "QC-270304-1"); !strings.Contains(got.out, "= gone 1 + ") {
		t.Errorf("got\n%s", got.out)
	}
}

// TestBatchFileNames: no id leads out of the folder, and no two have one file.
func TestBatchFileNames(t *testing.T) {
	for id, want := range map[string]string{
		"AB-270312-1": "AB-270312-1.json", "É-270312-1": "É-270312-1.json", "../../x": "%2E.%2F..%2Fx.json", ".": "%2E.json",
		"a/b": "a%2Fb.json", "a%2Fb": "a%252Fb.json", `a\b:c`: "a%5Cb%3Ac.json", "a b": "a b.json",
	} {
		if got := batchFile(id); got != want || filepath.Base(got) != got {
			t.Errorf("%q: got %q, want %q", id, got, want)
		}
	}
}

// aYear writes a kitchen folder with a year of batches, and ten entries for each.
func aYear(t testing.TB, batches int) (folder string) {
	t.Helper()
	folder = filepath.Join(t.TempDir(), "small")
	if err := os.CopyFS(folder, os.DirFS("../../testdata/script/small")); err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(folder, "record", "batches")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	months := map[string][]byte{}
	first := resources.MomentOf(time.Date(2027, 1, 1, 8, 0, 0, 0, time.UTC))
	for i := range batches {
		at := first.Add(resources.Minutes(i) * 365 * resources.Day / resources.Minutes(batches))
		day := at.DateIn(time.UTC)
		id := fmt.Sprintf("QC-%02d%02d%02d-1", day.Year%100, int(day.Month), day.Day)
		stage := func(name string, after resources.Minutes) schedule.KeptStage {
			return schedule.KeptStage{Stage: name, Begun: true, Start: at.Add(after), Work: 60, Who: "Nell", Ends: at.Add(after + 60), At: "room", Planned: at.Add(after)}
		}
		b := schedule.KeptBatch{Kitchen: "Small Kitchen", TimeZone: "Europe/Dublin", ID: id, Lot: id, Cheese: "Quick curd", Litres: 5000, Pieces: 10,
			Milk: &schedule.KeptMilk{Draw: schedule.Draw{Supply: "cow", Collect: at}, Day: day}, Stages: []schedule.KeptStage{stage("make", 0), stage("pack", 1440)}}
		target := "Stall " + day.String()
		b.For = []schedule.KeptShare{{Share: schedule.Share{Target: target, By: at.Add(3 * resources.Day), Pieces: 8}, Gone: true, Left: 8, Assumed: true}}
		text, err := planfile.EncodeBatch(&b, time.UTC)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, batchFile(id)), text, 0o644); err != nil {
			t.Fatal(err)
		}
		say := func(n int, format string, args ...any) {
			month := fmt.Sprintf("%04d-%02d.yaml", day.Year, int(day.Month))
			months[month] = fmt.Appendf(months[month], "- {nr: %d, at: \"%s %02d:00\", who: \"Nell\", %s}\n", 10*i+n+1, day, 8+n, fmt.Sprintf(format, args...))
		}
		say(0, "milk: \"cow\", day: \"%s\", came: \"20 L\", lot: \"H-%d\"", day, i)
		say(1, "batch: %q, did: \"make\", litres: \"5 L\", lots: [{what: \"rennet\", lot: \"R-%d\"}]", id, i/10)
		for n := range 5 {
			say(2+n, "batch: %q, measured: [{what: \"pH\", is: \"5.%d\"}]", id, n)
		}
		say(7, "batch: %q, did: \"pack\", pieces: 10", id)
		say(8, "target: \"Stall %s\", cheese: \"Quick curd\", took: 7, to: \"Shop %d\"", day, i%7)
		say(9, "target: \"Stall %s\", cheese: \"Quick curd\", back: 1", day)
	}
	for name, text := range months {
		if err := os.WriteFile(filepath.Join(folder, "record", name), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// TestTraceOfAYear sees that what the benchmark asks is answered.
func TestTraceOfAYear(t *testing.T) {
	folder := aYear(t, 30)
	for word, want := range map[string]string{
		"QC-270206-1": "made 10 = gone 0 + left for targets 7 - came back 1 + still here 4 + not accounted for 0",
		"Shop 3":      "7 pieces of 8 planned to Shop 3", "cow": "the supplier's lot: H-29", "2027-02-09": "QC-270206-1, Quick curd: 2027-02-09",
	} {
		if got := runWith(t.Context(), nil, "trace", "-C", folder, word); got.code != 0 || got.err != "" || !strings.Contains(got.out, want) {
			t.Errorf("%s: got exit code %d, %q and\n%s", word, got.code, got.err, got.out)
		}
	}
}

// BenchmarkTraceOfAYear: 300 batches, 3,000 entries.
func BenchmarkTraceOfAYear(b *testing.B) {
	folder := aYear(b, 300)
	for _, word := range []string{"QC-270614-1", "2027-06-14", "cow", "Stall"} {
		b.Run(word, func(b *testing.B) {
			for b.Loop() {
				if got := runWith(b.Context(), nil, "trace", "-C", folder, word); got.code != 0 {
					b.Fatal(got.err)
				}
			}
		})
	}
}

// TestLimitsOfBatchFiles: a file that is too large, and files that are too many, are told with the
// limit, and the rest is read.
func TestLimitsOfBatchFiles(t *testing.T) {
	folder := aYear(t, 2)
	dir := batchFolder{folder}.dir()
	if err := os.WriteFile(filepath.Join(dir, "large.json"), make([]byte, planfile.MaxBatchBytes+1), 0o644); err != nil {
		t.Fatal(err)
	}
	kept, bad := batchFolder{folder}.all()
	if len(kept) != 2 || len(bad) != 1 || !strings.Contains(bad[0].Error(), "larger than the limit of 1048576 bytes") {
		t.Errorf("got %d batches and %v, want 2 and the limit of a file", len(kept), bad)
	}
	for n := range mostBatchFiles {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("Z-%05d.json", n)), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, bad = batchFolder{folder}.all()
	if last := bad[len(bad)-1]; len(kept) != 2 || !strings.Contains(last.Error(), "more than the limit of 10000 files") {
		t.Errorf("got %d batches and %v, want 2 and the limit of files", len(kept), last)
	}
}
