package plan_test

import (
	"context"
	"fmt"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/stock"
)

// Everything that is bought is in the tables under a name, once in a stage; a foot whose bolt
// turns in an insert has one, and the hole is the insert's.
func TestTheBillNamesThings(t *testing.T) {
	jobs := map[string]string{
		"feet": "stowright: 1\nunit: in\npractice: {from: inch-shop}\ncases:\n  a: {width: 30, height: 34 1/2, depth: 22, stands-on: {kind: feet, height: 3 1/2}, inside: {shelves: {count: 2}, doors: {count: 2, lock: yes}}}\n",
	}
	check := func(name string, r plan.Result) {
		seen := map[string]bool{}
		for _, l := range r.Bill.Lines {
			if k := fmt.Sprint(l.Name, l.Stage, l.Kind, l.Buy == 0); seen[k] {
				t.Errorf("%s: %s is listed twice", name, l.Name)
			} else {
				seen[k] = true
			}
			if l.Name == l.Item && l.Kind != "bit" {
				t.Errorf("%s: %s is bought without a name", name, l.Item)
			}
		}
		for _, h := range r.Assembly.Hardware {
			if _, ok := r.Job.Catalogue.Item(h.ID); !ok {
				t.Errorf("%s: %s, for %s, is in no table", name, h.ID, h.For)
			}
		}
		feet, inserts := 0, 0
		var in stock.Hardware
		for _, h := range r.Assembly.Hardware {
			if x, _ := r.Job.Catalogue.Item(h.ID); x.Insert != "" {
				feet += h.Count
				in, _ = r.Job.Catalogue.Item(x.Insert)
			}
			if h.Kind == "insert" {
				inserts += h.Count
			}
		}
		if feet != inserts {
			t.Errorf("%s: %d feet and %d inserts", name, feet, inserts)
		}
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				if o.For == "foot" && p.Role == part.Blocking && in.Dia > 0 && o.Dia != in.Dia {
					t.Errorf("%s: the hole for a foot in %s is %v, the insert %v", name, p.Mark, o.Dia, in.Dia)
				}
			}
		}
		if name == "feet" && (feet != 6 && feet != 4 || len(r.Bill.Lines) < 10) {
			t.Errorf("%d feet, %d lines", feet, len(r.Bill.Lines))
		}
	}
	for name, text := range jobs {
		check(name, plan.Make(context.Background(), parse(t, name, []byte(text)), plan.Want{}))
	}
	for _, name := range shipped {
		check(name, plantest.Result(t, name))
	}
}

// Every drawer and every tray has its hours: as many as pairs of slides are taken.
func TestDrawersAndTraysHaveTheirHours(t *testing.T) {
	n := 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		slides, hours := 0, 0.0
		for _, h := range r.Assembly.Hardware {
			if h.Kind == "slide" {
				slides += h.Count
			}
		}
		for _, h := range r.Bill.Hours {
			if h.Work == "drawers and trays" {
				hours = h.Least
			}
		}
		if hours != 1.5*float64(slides) {
			t.Errorf("%s: %d pairs of slides, %v hours for what runs on them", name, slides, hours)
		}
		n += slides
	}
	if n == 0 {
		t.Error("nothing slides")
	}
}
