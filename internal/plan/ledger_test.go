package plan_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/shop"
	"stowright/internal/strength"
)

// A case between two studs hangs on ledgers from stud to stud: they are built behind it and counted in its
// depth, cut from the stick that is named, bought with their screws, fixed first, and nothing that holds fails.
func TestLedgersAreBuiltCutBoughtAndFixed(t *testing.T) {
	const text = `stowright: 1
unit: in
practice: {from: inch-shop, case-board: birch-three-quarter, shelf-board: birch-three-quarter, front-board: birch-three-quarter}
walls:
  back: {length: 160, height: 96, kind: stud, lining: {name: drywall, thickness: 1/2}, studs: {species: spruce-pine-fir, first: 8, spacing: 16, width: 1 1/2}}
cases:
  a: {name: narrow case, level: wall, wall: back, at: 17, up: 54, width: 14, height: 30, depth: 13 1/2, hangs-by: {ledger: two-by-four}, inside: {shelves: {count: 2}, load: 40 lb}}
`
	res := planned(t, text)
	var ledgers []part.Part
	rear, wall := part.L(0), part.L(0)
	for _, p := range res.Assembly.Parts {
		b := p.Box()
		switch p.Role {
		case part.Ledger:
			ledgers = append(ledgers, p)
			if p.Material != part.Stick || p.Stock != "two-by-four" {
				t.Errorf("%s is of %s", p.Mark, p.Stock)
			}
			if x0, x1 := 8*part.L(1016000), 40*part.L(1016000); b.Min.X > x0 || b.Max.X < x1 {
				t.Errorf("%s reaches from %v to %v; the studs beside it are at 8 and 40 in", p.Mark, b.Min.X, b.Max.X)
			}
			wall = b.Max.Y
		case part.Side:
			rear = b.Max.Y
		}
	}
	if len(ledgers) != 2 || wall-rear != 1524000 {
		t.Fatalf("%d ledgers, %v behind the sides", len(ledgers), wall-rear)
	}
	for _, s := range res.Room.Seats {
		if s.ID == "a" && s.Box.Max.Y != wall {
			t.Errorf("the case ends at %v, its ledgers at %v", s.Box.Max.Y, wall)
		}
	}
	studs, rails := 0, 0
	for _, f := range res.Assembly.Fixings {
		switch f.Kind {
		case part.ToStud:
			studs++
			if !slices.ContainsFunc(ledgers, func(p part.Part) bool { return p.Mark == f.Part }) {
				t.Errorf("a wall screw goes through %s", f.Part)
			}
		case part.ToLedger:
			rails++
			// NDS 2018 12.1.4: six diameters at least; and its point stays in the ledger.
			if dia := part.L(166624); f.Into < 6*dia || f.Into > 1524000-100000 { // No. 8: 0.164 in
				t.Errorf("a rail's screw reaches %v into its ledger", f.Into)
			}
		}
	}
	if studs < 6 || rails < 4 {
		t.Errorf("%d screws in studs, %d in ledgers", studs, rails)
	}
	for _, f := range res.Findings {
		if f.Verdict == finding.Fails && (f.Code == strength.WallStuds || f.Code == strength.WallFixing || f.Code == strength.RailBending || f.Code == "no-stud" || f.Code == "clash") {
			t.Errorf("%s: %s", f.Code, f.Text)
		}
	}
	order := 0
	for _, s := range res.Steps {
		switch {
		case s.Phase != shop.Install:
		case strings.Contains(s.Text, "ledger of narrow case") && strings.Contains(s.Text, "to the wall, level"):
			if order > 2 {
				t.Error("a ledger is fixed after the case hangs")
			}
			order++
			if !strings.Contains(strings.Join(s.Points, " "), "into the studs") {
				t.Errorf("not said where: %q", s.Points)
			}
		case strings.HasPrefix(s.Text, "Hang narrow case"):
			if order != 2 || !strings.Contains(s.Text, "its rails tight against the ledgers") || !strings.Contains(strings.Join(s.Points, " "), "into the ledger behind it") {
				t.Errorf("%d ledgers before it: %s %q", order, s.Text, s.Points)
			}
			order = 3
		}
	}
	if order != 3 {
		t.Error("the case is not hung on its ledgers")
	}
	sticks := 0
	for _, l := range res.Bill.Lines {
		if l.Item == "two-by-four" {
			sticks++
		}
	}
	if sticks == 0 {
		t.Error("no two-by-four is bought")
	}
}
