package planfile_test

import (
	"bytes"
	"math/big"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planfile"
)

// zones have offsets of whole hours, half hours and quarters, and a clock change
// of half an hour (Lord Howe).
var zones = []string{"Europe/Dublin", "UTC", "Asia/Kathmandu", "Australia/Lord_Howe", "America/St_Johns", "Pacific/Apia"}

// anyValue draws a value of any of the plan's types, field by field, so that a
// field added to a plan is drawn too and fails the test until the file holds it.
func anyValue(t *rapid.T, v reflect.Value) {
	switch v.Interface().(type) {
	case resources.Moment:
		// from 1972 to the year 2200, never 0, which a warning takes for "no moment"
		v.SetInt(rapid.Int64Range(1_051_200, 121_000_000).Draw(t, "moment"))
		return
	case resources.Date:
		m := resources.Moment(rapid.Int64Range(0, 121_000_000).Draw(t, "day"))
		v.Set(reflect.ValueOf(m.DateIn(zone(t, "UTC"))))
		return
	case schedule.Outcome:
		v.SetString(rapid.SampledFrom([]string{"met", "short"}).Draw(t, "outcome"))
		return
	case schedule.Level:
		v.SetString(rapid.SampledFrom([]string{"none", "promised_short", "short", "batches", "litres", "bother", "all"}).Draw(t, "level"))
		return
	case schedule.Carry: // of a batch, or of stock
		stock := rapid.Bool().Draw(t, "of stock")
		anyFields(t, v)
		if c := v.Addr().Interface().(*schedule.Carry); stock {
			c.Batch, c.Stage = "", ""
		} else {
			c.Stock = -1
		}
		return
	case resources.Reading:
		if rapid.Bool().Draw(t, "a limit") {
			r := big.NewRat(rapid.Int64Range(-10_000, 10_000).Draw(t, "hundredths"), 100)
			unit := rapid.SampledFrom([]string{"", resources.Celsius, resources.Fahrenheit, "g", "%", "hole"}).Draw(t, "unit")
			v.Set(reflect.ValueOf(resources.Reading{Num: r.Num().Int64(), Den: r.Denom().Int64(), Unit: unit}))
		}
		return
	case schedule.Task: // what is to be written down with it is of it
		anyFields(t, v)
		s := v.Addr().Interface().(*schedule.Task)
		for i := range s.Measures {
			s.Measures[i].Stage = s.Stage
		}
		return
	case schedule.KeptStage:
		anyFields(t, v)
		s := v.Addr().Interface().(*schedule.KeptStage)
		for i := range s.Measures {
			s.Measures[i].Stage = s.Stage
		}
		return
	case schedule.Standing:
		counted := rapid.Bool().Draw(t, "counted")
		anyFields(t, v)
		if counted {
			v.Set(reflect.ValueOf(schedule.Standing{Place: v.Interface().(schedule.Standing).Place}))
		}
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(rapid.StringN(1, 12, -1).Draw(t, "text"))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "bool"))
	case reflect.Int, reflect.Int64:
		v.SetInt(rapid.Int64Range(0, 1_000_000_000).Draw(t, "number"))
	case reflect.Pointer:
		if rapid.Bool().Draw(t, "there") {
			v.Set(reflect.New(v.Type().Elem()))
			anyValue(t, v.Elem())
		}
	case reflect.Slice:
		n := rapid.IntRange(0, 3).Draw(t, "length")
		if n == 0 && v.Type() == reflect.TypeFor[[]schedule.Task]() {
			n = 1 // a batch without stages is not read
		}
		if n == 0 && v.Type() == reflect.TypeFor[[]schedule.KeptStage]() {
			n = 1
		}
		if n > 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
		}
		for i := range n {
			anyValue(t, v.Index(i))
		}
	case reflect.Struct:
		anyFields(t, v)
	default:
		t.Fatalf("a plan holds a %s: teach anyValue to draw it", v.Type())
	}
}

func anyFields(t *rapid.T, v reflect.Value) {
	for i := range v.NumField() {
		anyValue(t, v.Field(i))
		if v.Type().Field(i).Name == "Hold" && v.Field(i).CanInt() && rapid.Bool().Draw(t, "cut short") {
			v.Field(i).SetInt(-v.Field(i).Int())
		}
	}
}

// What is written is read back equal, and written again equal to the byte.
func TestRoundTripAnyPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var want schedule.Plan
		anyValue(t, reflect.ValueOf(&want).Elem())
		z := zone(t, rapid.SampledFrom(zones).Draw(t, "zone"))
		text, err := planfile.Encode(&want, z)
		if err != nil {
			t.Fatalf("Encode: %v", err)
		}
		got, err := planfile.Decode(text)
		if err != nil {
			t.Fatalf("Decode: %v\n%s", err, text)
		}
		if !reflect.DeepEqual(got, &want) {
			t.Fatalf("got\n%+v\nwant\n%+v\nfile\n%s", got, &want, text)
		}
		again, err := planfile.Encode(got, z)
		if err != nil || !bytes.Equal(again, text) {
			t.Fatalf("written again it differs (%v):\n%s\n%s", err, again, text)
		}
	})
}

// TestRoundTripAnyBatch is the same of what is kept of a batch.
func TestRoundTripAnyBatch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var want schedule.KeptBatch
		anyValue(t, reflect.ValueOf(&want).Elem())
		for i := range want.Stages {
			want.Stages[i].Said = rapid.SampledFrom([]string{"", schedule.SaidByRecord, schedule.SaidByBegun}).Draw(t, "said")
		}
		if o := want.OffPlan; o != nil {
			o.ID, o.Cheese = want.ID, want.Cheese
		}
		for i := range want.For {
			if !want.For[i].Gone {
				want.For[i].Left = 0
			}
		}
		if want.Recipe != nil {
			for i := range want.Recipe.Stages {
				if h := want.Recipe.Stages[i].Hold; h != nil {
					h.AsIs = false // of a look, not of a recipe
					if !h.HasBest {
						h.Best = 0
					}
				}
			}
		}
		z := zone(t, rapid.SampledFrom(zones).Draw(t, "zone"))
		text, err := planfile.EncodeBatch(&want, z)
		if err != nil {
			t.Fatalf("EncodeBatch: %v", err)
		}
		got, err := planfile.DecodeBatch(text)
		if err != nil {
			t.Fatalf("DecodeBatch: %v\n%s", err, text)
		}
		if !reflect.DeepEqual(got, &want) {
			t.Fatalf("got\n%+v\nwant\n%+v\nfile\n%s", got, &want, text)
		}
		again, err := planfile.EncodeBatch(got, z)
		if err != nil || !bytes.Equal(again, text) {
			t.Fatalf("written again it differs (%v):\n%s\n%s", err, again, text)
		}
	})
}
