package judge

import "testing"

func TestPlanWorkedOutByHandHolds(t *testing.T) {
	_, p, plan := sound(t)
	expect(t, p, plan, "")
}

func TestNoPlan(t *testing.T) {
	_, p, _ := sound(t)
	if got := Check(p, nil); len(got) != 1 || got[0].Rule != "no-plan" {
		t.Errorf("got %v, want one no-plan", got)
	}
}

func TestViolationOnOneLine(t *testing.T) {
	v := Violation{Rule: "off-grid", Batch: "RH-1", Stage: "make", At: 60, Text: "got 1, want 0"}
	want := "off-grid RH-1 make at 1970-01-01T01:00:00Z: got 1, want 0"
	if got := v.String(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
