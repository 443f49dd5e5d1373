package problem

import (
	"slices"
	"sort"
)

// Share is units of a job or of stock that go to one demand.
type Share struct {
	Demand, Units int
}

// Job is one placed run of a family.
type Job struct {
	Family int
	Mode   int   // index into the family's modes; -1 for a begun job
	Begun  int   // index into Model.Begun, -1 for a new job
	Kept   *Kept // which of Model.Kept a new job is, nil for none
	Shares []Share

	Starts  []int // of each activity
	Workers []int // -1 where there is no work
	Choices []int // of each run
	Stays   []StayPlace
	Intake  int // -1 for none
	Ready   int // end of the last activity's work
	End     int // last delivery
	Penalty int64
	Late    int64 // of its lags, as the cost counts it; only of what has begun
	Stuck   bool
	// Slips are the latest starts of each activity with every other job as it is
	// and this job's later activities free to move.
	Slips []int
	// Soonest are the earliest starts in the same sense.
	Soonest []int
	// Shown are the jobs that show this for each activity: what this one becomes when
	// it starts at Soonest, and at Slips; nil where that is its start.
	Shown [][2]*Job
	// SlipsCut is set when the work allowed did not tell all of them to the end: some
	// activity may slip further than is said.
	SlipsCut bool
}

// StayPlace is where the boxes of one stay stand.
type StayPlace struct {
	Space    int
	Stacks   []Standing // none in a counted space
	Homeless bool       // boxes of a begun job that stand nowhere by the measures given
}

// StockPlan is what becomes of one stock.
type StockPlan struct {
	Shares []Share
	End    int
	Place  StayPlace
}

// Result is the best plan found and what is known about it.
type Result struct {
	Jobs    []Job // begun ones first, in the model's order
	Stocks  []StockPlan
	Short   []int // units short of each demand
	Cost    Cost
	Bound   Cost // no plan is better in a part, given Cost's earlier parts
	Spent   int64
	Reasons []Reason  // for every demand that is short, in order
	Changed []Changed // work that is otherwise than told, as [Model.ChangedIn] lists it
	// Stopped is set when the context ended the search before its budget did.
	Stopped bool
}

// SortJobs puts jobs under way in front of new ones, and those in order of their first start.
func SortJobs(jobs []*Job) {
	sort.SliceStable(jobs, func(i, k int) bool {
		if jobs[i].Begun != jobs[k].Begun {
			return jobs[i].Begun > jobs[k].Begun
		}
		return jobs[i].Starts[0] < jobs[k].Starts[0]
	})
}

// StandsAs reports whether two jobs are the same piece of the plan, whatever their size.
func (j *Job) StandsAs(o *Job) bool {
	return j.Family == o.Family && j.Begun == o.Begun && slices.Equal(j.Starts, o.Starts) && slices.Equal(j.Workers, o.Workers)
}
