package planner_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"

	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// Growth is measured and drawn into schedule/cp/MEASURED.md by
//
//	go test ./schedule/planner -run TestGrowthOfTheYear -grow -v -timeout 30m
var (
	grow      = flag.Bool("grow", false, "plan growing parts of a year and write table and plot into schedule/cp/MEASURED.md")
	growWeeks = flag.Int("grow-weeks", 0, "plan so many weeks and print the figures; what -grow runs for each size")
)

// The figures stand between these lines of the page.
const (
	growthPage  = "../cp/MEASURED.md"
	growthBegin = "<!-- growth of the year: written by TestGrowthOfTheYear -grow -->\n"
	growthEnd   = "<!-- end of the growth of the year -->\n"
)

// grown is one part of the year, planned.
type grown struct {
	Weeks        int
	Work         int64
	Score, Bound schedule.Score
	Level        schedule.Level
	seconds      float64 // of a processor
	mib          float64 // resident at the highest
}

// TestGrowthOfTheYear plans each part of the year in a process of its own, on one
// core, so that its processor time and its memory are nobody else's.
func TestGrowthOfTheYear(t *testing.T) {
	switch {
	case *growWeeks > 0:
		p := yearKitchen(*growWeeks)
		plan := planFor(t, p, planner.WorkFor(p))
		mustHold(t, p, plan)
		line, err := json.Marshal(grown{Weeks: *growWeeks, Work: planner.WorkFor(p), Score: plan.Score, Bound: plan.Proof.Bound, Level: plan.Proof.Level})
		if err != nil {
			t.Fatal(err)
		}
		fmt.Printf("%s\n", line)
		return
	case !*grow:
		t.Skip("some minutes; -grow asks for it")
	}
	var all []grown
	for _, weeks := range []int{7, 9, 12, 16, 20, 24, 29, 34, 40, 46, 52} {
		all = append(all, grownTo(t, weeks))
		t.Logf("%+v", all[len(all)-1])
	}
	page, err := os.ReadFile(growthPage)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, begun := bytes.Cut(page, []byte(growthBegin))
	_, tail, ended := bytes.Cut(rest, []byte(growthEnd))
	if !begun || !ended {
		t.Fatalf("%s has no lines %q and %q", growthPage, growthBegin, growthEnd)
	}
	text := string(head) + growthBegin + growthTable(all) + growthPlot(all) + growthEnd + string(tail)
	if err := os.WriteFile(growthPage, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// grownTo has a part of the year planned by this same program once more.
func grownTo(t *testing.T, weeks int) grown {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^TestGrowthOfTheYear$", fmt.Sprintf("-grow-weeks=%d", weeks))
	cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%d weeks: %v\n%s", weeks, err, out)
	}
	var g grown
	if err := json.NewDecoder(bytes.NewReader(out)).Decode(&g); err != nil {
		t.Fatalf("%d weeks: %v\n%s", weeks, err, out)
	}
	g.seconds = (cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds()
	g.mib = float64(cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss) / 1024 // in KiB on Linux
	return g
}

// above is how far a figure lies above its bound, in per cent of the bound.
func above(got, bound int64) float64 {
	return 100 * float64(got-bound) / float64(max(bound, 1))
}

func growthTable(all []grown) string {
	var b strings.Builder
	b.WriteString("\n| weeks | work | seconds | resident | batches | litres | proved |\n| --- | --- | --- | --- | --- | --- | --- |\n")
	for _, g := range all {
		fmt.Fprintf(&b, "| %d | %d million | %.1f | %.0f MiB | %d / %d | %d / %d | %s |\n", g.Weeks, g.Work/1e6, g.seconds, g.mib,
			g.Score.Batches, g.Bound.Batches, g.Score.Litres/1000, g.Bound.Litres/1000, g.Level)
	}
	return b.String()
}

func growthPlot(all []grown) string {
	var seconds, mib, gap []dot
	right := 0.0
	for _, g := range all {
		x := float64(g.Score.Batches)
		right = max(right, roundUp(x/20)*20)
		seconds = append(seconds, dot{x, g.seconds, '*'})
		mib = append(mib, dot{x, g.mib, '*'})
		gap = append(gap, dot{x, above(int64(g.Score.Batches), int64(g.Bound.Batches)), 'b'}, dot{x, above(int64(g.Score.Litres), int64(g.Bound.Litres)), 'l'})
	}
	return "\n```text\n" + panel("seconds of one core, by batches", right, seconds) + "\n" +
		panel("MiB resident at the highest, by batches", right, mib) + "\n" +
		panel("per cent above the bound, by batches: b batches, l litres", right, gap) + "```\n"
}
