// Package plan is the whole journey as one pure function: a checked job in; parts, cutting plan,
// bill, steps and findings out. It touches no clock, file or environment.
package plan

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/cutting/solve"
	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/rules"
	"stowright/internal/shop"
	"stowright/internal/strength"
)

// Want says how much of the journey is wanted.
type Want struct {
	Effort solve.Effort // how long the cutting plan is searched for
	Few    bool         // of the cutting plans found, the one with the fewest settings, not the cheapest with the biggest offcuts
	Owner  string       // one case, counter, base or hutch alone; "" for all
	Stage  string       // one stage alone; "" for all
	// Progress is told what is being done and how far it is, 0 to 1; nil for nobody.
	Progress func(what string, share float64)
}

// Result is everything derived from a job. Findings are sorted, worst first.
type Result struct {
	Job      job.Checked
	Room     place.Room
	Assembly part.Assembly
	Problem  cutting.Problem
	Plan     cutting.Plan
	Marks    [][]string // of the plan's pieces, sheet by sheet
	Trades   []Trade    // the cutting plans that were found, of each stage that has several
	Few      bool       // as wanted
	Sticks   []cutlist.Stick
	Bill     bill.Bill
	Steps    []shop.Step
	Findings finding.List
	Stages   []string
	Stowed   []strength.Stowed // where the goods find room
}

// Trade is the choice of cutting plans that a stage has, "" where the job has no stages.
type Trade struct {
	Stage string
	Plans []cutting.Choice
}

// Codes of findings that the journey itself makes.
const (
	// NotCut: a part that no sheet can give. Example: a shelf of 2 500 mm from sheets of 2 440.
	NotCut finding.Code = "not-cut"
	// NoSaw: the practice has no saw, or does not say its kerf.
	NoSaw finding.Code = "no-saw"
	// StickTooShort: a part longer than the stick that it is cut from.
	StickTooShort finding.Code = "stick-too-short"
	// ScrewHidden: a joint whose screws no driver reaches in any order of the boards that was found.
	// Example: fixed shelves at one height on both sides of a partition, each screwed through it.
	ScrewHidden finding.Code = "screw-hidden"
	// OnHandUnsized: what is on hand of an item has a length, and the job needs several.
	// Example: three pairs of slides on hand, and slides of 400 and of 500 mm needed.
	OnHandUnsized finding.Code = "on-hand-unsized"
	// StickTooNarrow: a part wider or thicker than the stick that it is cut from.
	// Example: a rail of 150 mm from a stick 38 mm wide.
	StickTooNarrow finding.Code = "stick-too-narrow"
	// NothingWanted: there is no case, counter or stage of the name that was asked for.
	NothingWanted finding.Code = "nothing-wanted"
	// TooHeavyAlone: a sheet or piece at the saw is heavier than one person handles.
	TooHeavyAlone finding.Code = "heavy-piece"
	// PriceMissing: the bill has lines without a price.
	PriceMissing finding.Code = "price-missing"
	// NotStated: what the job does not say at all, in one line. Example: a case without a wall.
	NotStated finding.Code = "not-stated"
	// GoodsNowhere: goods are listed, and nothing says where they are kept, in one line. Example: cans that no bay names.
	GoodsNowhere finding.Code = "goods-nowhere"
	// NothingToBuild: a job of a survey or goods alone.
	NothingToBuild finding.Code = "nothing-to-build"
	// StageAlone: what one stage brings cannot stand before a later one is built.
	// Example: a counter of the first stage over cases of the second.
	StageAlone finding.Code = "stage-alone"
	// NoBound: a stock was not cut to the proven bound.
	NoBound finding.Code = "above-bound"
)

// Make goes the whole way. The job must have been read without problems.
func Make(ctx context.Context, c job.Checked, w Want) Result {
	say := w.Progress
	if say == nil {
		say = func(string, float64) {}
	}
	r := Result{Job: c, Stages: c.StageIDs(), Few: w.Few}
	say("placing", 0)
	var f finding.List
	r.Room, f = place.All(&c)
	r.Findings.Add(f...)
	say("building", 0.1)
	r.Assembly, f = settle(&r.Job, &r.Room)
	r.Findings.Add(f...)
	say("checking", 0.2)
	r.Findings.Add(rules.Check(&c, &r.Room, &r.Assembly)...)
	say("proving", 0.25)
	masses := bill.Masses(r.Assembly, c.Catalogue)
	whole := strength.Input{Job: &r.Job, Room: &r.Room, All: &r.Assembly, Masses: masses}
	r.Findings.Add(strength.Check(whole)...)
	r.Stowed = strength.Stow(whole)
	r.hooked()
	r.stagewise(w, masses)
	r.own(w)
	r.wanted(w)
	if w.Owner != "" {
		r.only(w)
	}
	say("cutting", 0.3)
	cuts := r.cut(ctx, w.Effort, func(now solve.Progress) { say(now.String(), 0.3+0.6*min(1, now.Share)) })
	say("counting", 0.9)
	r.Bill = bill.Count(r.counted())
	if w.Stage != "" && w.Owner == "" {
		// One stage is cut and bought as part of the whole, so that the stages add up to it.
		r.only(w)
		r.use(cuts, w.Stage)
		r.Bill = r.Bill.Stage(w.Stage, r.counted())
	}
	var cut []string
	for _, f := range r.Findings.With(rules.CutAway) {
		cut = append(cut, f.Text)
	}
	r.Steps = shop.Steps(shop.Input{Assembly: r.Assembly, Plan: r.Plan, Marks: r.Marks, Sticks: r.Sticks, Masses: r.Bill.Parts, Catalogue: c.Catalogue,
		Practice: c.Practice, Weights: r.Bill.Weights, Print: c.Print, Stages: r.Stages, CutAway: cut, Walls: walls(r.Room)})
	r.bought()
	r.hidden()
	r.notStated()
	r.unadvised()
	r.accept()
	r.Findings.Sort()
	r.Findings = slices.CompactFunc(r.Findings, func(a, b finding.Finding) bool {
		return a.Code == b.Code && a.At == b.At && a.Text == b.Text
	})
	say("done", 1)
	return r
}

// hooked counts the hooks of hook boards by what finds room there: goods that lie elsewhere too hang on no hook.
// Goods of which nobody knows the size have one for each of them.
func (r *Result) hooked() {
	for _, h := range r.Job.Hutches {
		n := 0
		for _, g := range r.Job.Goods {
			if !slices.Contains(h.Value.Goods, g.ID) {
				continue
			}
			here, all := 0, 0
			for _, x := range r.Stowed {
				if x.Goods == g.ID {
					all += x.Count
				}
				if x.Goods == g.ID && x.Owner == h.ID {
					here += x.Count
				}
			}
			if all == 0 {
				here = g.Count
			}
			n += here * max(g.Hooks, 1)
		}
		each := 0 // screws of one
		for i := range r.Assembly.Hardware {
			x := &r.Assembly.Hardware[i]
			if x.Owner != h.ID || x.For != part.HangsOnBoard {
				continue
			}
			if x.Kind == "hook" {
				item, _ := r.Job.Catalogue.Item(x.ID)
				x.Count, each = n, item.ScrewsEach
			} else {
				x.Count = n * each
			}
		}
		if n == 0 {
			r.Assembly.Hardware = slices.DeleteFunc(r.Assembly.Hardware, func(x part.Item) bool { return x.Owner == h.ID && x.For == part.HangsOnBoard })
		}
	}
}

// board names the board that a stock of the cutting plan is.
func (r *Result) board(id string) string {
	id = cutlist.Board(id)
	if b, ok := r.Job.Catalogue.Board(id); ok && b.Name != "" {
		return b.Name
	}
	return id
}

// hidden says which screws no driver reaches, whatever the order of the boards.
func (r *Result) hidden() {
	for _, st := range r.Steps {
		for _, h := range st.Hidden {
			r.Findings.Add(finding.Finding{Code: ScrewHidden, Severity: finding.Error, At: r.place(st.Owner), Source: "geometry",
				Text: fmt.Sprintf("no driver reaches the screws that join %s to %s: %s is in the way by then, and no other order of the boards frees them all", h.B, h.A, h.By),
				Hint: "where shelves meet a partition from both sides, set one of them higher or lower, or take a joint without heads in that face: joint: dowel, or pocket-screw"})
		}
	}
}

// bought says which prices are missing, in one line.
func (r *Result) bought() {
	if len(r.Bill.Unsized) > 0 {
		r.Findings.Add(finding.Finding{Code: OnHandUnsized, Severity: finding.Warning, At: "job", Source: "the job",
			Text: fmt.Sprintf("of %s several lengths are needed, and how long those on hand are is not known: none of them is counted", list(r.Bill.Unsized)),
			Hint: "take what fits off the shopping list by hand, or list each length under hardware by a name of its own"})
	}
	if n := len(r.Bill.Asked); n > 0 {
		r.Findings.Add(finding.Finding{Code: PriceMissing, Severity: finding.Note, At: "job", Source: "the job and the shipped tables",
			Text: fmt.Sprintf("the price of %s not known, so the cost is without; the shopping list asks for it", map[bool]string{true: "1 thing is", false: fmt.Sprint(n, " things is")}[n == 1]),
			Hint: "add price: under hardware, boards, sticks or edgings, to " + list(r.Bill.Missing)})
	}
}

// notStated says in one line what is not known because the job says nothing of it.
func (r *Result) notStated() {
	var lacks, unknown []string
	if len(r.Job.Walls) == 0 {
		lacks = append(lacks, "a wall")
		unknown = append(unknown, "fixing, levels, clearances in the room")
	}
	if len(r.Job.Goods) == 0 {
		lacks = append(lacks, "goods")
		unknown = append(unknown, "real loads, what must be kept apart or locked, reach")
	}
	if homeless := r.Job.Homeless(); len(homeless) > 0 {
		r.Findings.Add(finding.Finding{Code: GoodsNowhere, Severity: finding.Note, At: "job", Verdict: finding.NotKnown, Source: "the job",
			Text: fmt.Sprintf("nothing says where to keep %s; not known: what they weigh on, whether they may stand there", list(homeless)),
			Hint: "list them under goods: of a bay, rack, counter, hutch or standing case, or give them a place:"})
	}
	if len(r.Job.Cases)+len(r.Job.Counters)+len(r.Job.Bases)+len(r.Job.Hutches) == 0 {
		r.Findings.Add(finding.Finding{Code: NothingToBuild, Severity: finding.Warning, At: "job", Source: "the job",
			Text: "the job has no case, counter or bench: there is nothing to build", Hint: "add cases:"})
	}
	if len(lacks) == 0 {
		return
	}
	r.Findings.Add(finding.Finding{Code: NotStated, Severity: finding.Note, At: "job", Verdict: finding.NotKnown, Source: "the job",
		Text: fmt.Sprintf("the job says nothing of %s; not known: %s", strings.Join(lacks, " and "), strings.Join(unknown, "; ")),
		Hint: "add walls: and goods: when they matter"})
}

func list(s []string) string {
	out := ""
	for i, x := range s {
		if i == 12 {
			return out + fmt.Sprintf(" and %d more", len(s)-i)
		}
		if i > 0 {
			out += ", "
		}
		out += x
	}
	return out
}

// counted is what the bill is counted from.
func (r *Result) counted() bill.Input {
	return bill.Input{Assembly: r.Assembly, Plan: r.Plan, Marks: r.Marks, Sticks: r.Sticks,
		Catalogue: r.Job.Catalogue, Practice: r.Job.Practice, Stages: r.Stages, Currency: r.Job.File.Currency,
		Supplies: shop.Supplies(r.Assembly, r.Job.Catalogue, r.Job.Practice)}
}

// wanted says when there is nothing of what is asked for.
func (r *Result) wanted(w Want) {
	if w.Owner+w.Stage != "" && !slices.ContainsFunc(r.Assembly.Owners, w.kept) {
		r.Findings.Add(finding.Finding{Code: NothingWanted, Severity: finding.Error, At: "job", Source: "the job",
			Text: fmt.Sprintf("there is nothing to build of the name %q", w.Owner+w.Stage), Hint: "name a case, counter, base or hutch, or a stage, as the job calls it"})
	}
}

// place is where findings about an owner are.
func (r *Result) place(owner string) string {
	for _, o := range r.Assembly.Owners {
		if o.ID == owner {
			return o.Kind + "/" + o.ID
		}
	}
	return "job"
}

// walls gives what the steps need to know of the walls of a room.
func walls(room place.Room) (list []shop.Wall) {
	for i := range room.Walls {
		w := &room.Walls[i]
		list = append(list, shop.Wall{ID: w.ID, Length: w.Length, Face: w.Face, Out: w.SurveyedOut(), Guess: w.FloorDrawnOn})
	}
	return list
}
