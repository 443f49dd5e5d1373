package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A kitchen in which everything has a name that a spreadsheet would reckon.
const formulaKitchen = `kitchen: {name: "=1+1", timezone: Europe/Dublin}
people: [{name: "+Nell", hours: ["daily 06:00-22:00"]}]
pots: [{name: "@pot", holds: 8 L}]
boxes: [{name: "=box", size: 40 x 30 x 14 cm, count: 9}]
cold: [{name: "=cave", temperature: 11 °C, boxes: 9}, {name: "=fridge", temperature: 4 °C, shelves: [{name: "-top", size: 100 x 50 x 20 cm}]}]
businesses: [{name: "=Corner", address: "=2"}]
label: {maker: "=Dairy, =3"}
`

const formulaRecipe = `name: "=curd"
code: C
yield: {pieces: 2, from: 1 L}
batch: {least: 2 L, most: 8 L}
keeps: 3 d
box: {name: "=box", takes: 8}
stages:
  - {stage: make, hands: {fixed: 30 min}, hold: {least: 4 h, best: 6 h, most: 10 h}, uses: [pot]}
  - {stage: "=chill", hands: {fixed: 10 min}, hold: {least: 1 h, best: 2 h, most: 40 h}, at: "=fridge", uses: [box]}
  - {stage: "=pack", hands: {fixed: 10 min}, at: "=fridge", uses: [box]}
`

const formulaTargets = `targets:
  - {name: "=Noon", by: 2027-03-01 15:00, want: [{cheese: "=curd", pieces: 14, price: 4.50}]}
  - {name: "=Corner", by: 2027-03-01 15:00, want: [{cheese: "=curd", pieces: 12, price: 5.00, promised: true}]}
`

// Every answer that is a table comes as one for a spreadsheet too, and no cell of it does anything there: what
// would be reckoned has an apostrophe in front.
func TestNoCellIsAFormula(t *testing.T) {
	folder, _ := recordFolder(t)
	for name, text := range map[string]string{"kitchen.yaml": formulaKitchen, "recipes/quick-curd.yaml": formulaRecipe, "targets.yaml": formulaTargets} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if got := runWith(t.Context(), nil, "plan", "-C", folder, "--from", "2027-03-01 06:00", "--fresh"); got.code != exitShort {
		t.Fatalf("got exit code %d and %s%s", got.code, got.out, got.err)
	}
	for _, c := range []struct {
		args    []string
		code    int
		columns string
		cell    string // that is in it
	}{
		{[]string{"check", "--csv"}, 0, "what,text", "'=1+1"},
		{[]string{"cold", "--csv", "--at", "2027-03-01 14:00"}, 0, "at,place,shelf,left_cm,front_cm,width_cm,depth_cm,boxes,box,batch,cheese,until", "'=curd"},
		{[]string{"fits", "=curd", "2", "--by", "2027-03-04 12:00", "--csv"}, 0, "row,cheese,pieces,by,answer,text,batch,stage,was,start,who,at", "'=curd"},
		{[]string{"fits", "=curd", "40", "--by", "2027-03-01 15:00", "--csv"}, 3, "row,cheese,pieces,by,answer,text,batch,stage,was,start,who,at", "does_not_fit"},
		{[]string{"why", "--csv"}, 3, "target,by,cheese,short,because,proved,change,more,settled_moved", "'=Noon"},
		{[]string{"why", "--csv", "--one-more"}, 0, "change,pieces,money,least,most", "one more @pot"},
		{[]string{"list", "=Noon", "--csv"}, 0, "target,leaves,cheese,lot,pieces,out_of,keeps_until,short", "'=Noon"},
		{[]string{"list", "=Corner", "--csv"}, 0, "dispatched,from,from_address,to,to_address,for,what,pieces,quantity,lot,keeps_until", "'=Dairy"},
	} {
		got := runWith(t.Context(), nil, append(c.args, "-C", folder)...)
		rows, err := csv.NewReader(strings.NewReader(got.out)).ReadAll()
		if got.code != c.code || err != nil || len(rows) < 2 || strings.Join(rows[0], ",") != c.columns {
			t.Errorf("%q: got exit code %d, %q, %v and\n%s", c.args, got.code, got.err, err, got.out)
			continue
		}
		found := false
		for _, row := range rows[1:] {
			found = found || slices.Contains(row, c.cell)
			for _, cell := range row {
				if strings.ContainsAny(cell[:min(len(cell), 1)], "=+@-\t\r") {
					t.Errorf("%q: the cell %q is a formula", c.args, cell)
				}
			}
		}
		if !found {
			t.Errorf("%q: no cell is %q in\n%s", c.args, c.cell, got.out)
		}
	}
}
