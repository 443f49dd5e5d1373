package main

import (
	"strings"
	"testing"

	"ripeby/cmd/cpbench/psplib"
)

// TestCheck stands one step either side of each rule.
func TestCheck(t *testing.T) {
	// Start, tasks of 5 and 7 on one unit, the second at most 8 after the first, end.
	in := &psplib.Dated{Instance: psplib.Instance{
		Lengths: []int{0, 5, 7, 0}, Demands: [][]int{{0}, {1}, {1}, {0}}, Capacity: []int{1},
		Lags: []psplib.Lag{{From: 0, To: 1}, {From: 0, To: 2}, {From: 2, To: 1, Least: -8}, {From: 1, To: 3, Least: 5}, {From: 2, To: 3, Least: 7}},
	}}
	wanted := &psplib.Dated{Instance: in.Instance, Most: 20, Dues: []psplib.Due{{}, {At: 2, Early: 3}, {At: 4, Late: 2}, {}}}
	tests := []struct {
		name   string
		in     *psplib.Dated
		cal    calendar
		starts []int
		value  int
		want   string // empty for nothing wrong
	}{
		{"one after the other", in, calendar{}, []int{0, 0, 5, 12}, 12, ""},
		{"a step too soon", in, calendar{}, []int{0, 0, 4, 12}, 12, "at 4, 2 of thing 1"},
		{"the end too soon", in, calendar{}, []int{0, 0, 5, 11}, 11, "want a lag of at least 7"},
		{"as late as may be", in, calendar{}, []int{0, 0, 8, 15}, 15, ""},
		{"a step too late", in, calendar{}, []int{0, 0, 9, 16}, 16, "want a lag of at least -8"},
		{"another value", in, calendar{}, []int{0, 0, 5, 12}, 11, "got the value 11, want 12"},
		{"before time", in, calendar{}, []int{-1, -1, 5, 12}, 12, "want it in time"},
		{"in windows", in, calendar{8, 7}, []int{0, 0, 8, 15}, 15, ""},
		{"in windows that are too short", in, calendar{8, 6}, []int{0, 0, 8, 15}, 15, "want it in one window"},
		{"a start too few", in, calendar{}, []int{0, 0, 5}, 5, "got 3 starts"},
		{"early by 2, late by 1", wanted, calendar{}, []int{0, 0, 5, 12}, 8, ""},
		{"another cost", wanted, calendar{}, []int{0, 0, 5, 12}, 7, "got the value 7, want 8"},
		{"too late", wanted, calendar{}, []int{0, 14, 7, 21}, 42, "want it in time"},
	}
	for _, tt := range tests {
		err := check(tt.in, tt.cal, tt.starts, tt.value)
		if (err == nil) != (tt.want == "") || err != nil && !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want %q", tt.name, err, tt.want)
		}
	}
}
