package plan

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sync"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/cutting/judge"
	"stowright/internal/cutting/solve"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/order"
	"stowright/internal/part"
)

// sawing is what one stage saws, or the whole job where it has no stages.
type sawing struct {
	stage   string
	problem cutting.Problem
	plan    cutting.Plan
	marks   [][]string
	sticks  []cutlist.Stick
	unfit   []cutlist.Unfit
}

// cut finds the cutting plan stage by stage, in the order in which they are built, has it judged, and
// lays out the sticks. What a stage leaves of its sheets and sticks is stock on hand for the next:
// each stage pays for what is bought for it, and nobody cuts in the first what is wanted in the last.
func (r *Result) cut(ctx context.Context, e solve.Effort, tell func(solve.Progress)) []sawing {
	stageOf := map[string]string{}
	for _, o := range r.Assembly.Owners {
		stageOf[o.ID] = o.Stage
	}
	stages := r.Stages
	if len(stages) == 0 {
		stages = []string{""}
	}
	parts := make([][]part.Part, len(stages))
	for _, p := range r.Assembly.Parts {
		at := max(0, slices.Index(stages, stageOf[p.Owner]))
		parts[at] = append(parts[at], p)
	}
	var bounds cutting.Bounds
	var wait sync.WaitGroup
	if len(stages) > 1 {
		// The bound is that of all at once: it holds for any way of building in stages too.
		whole, _ := cutlist.Sheets(r.Assembly.Parts, r.Job.Catalogue, r.Job.Practice, 1)
		wait.Go(func() { bounds = bound(ctx, &whole, e) })
	}
	list := r.inTurn(ctx, e, stages, parts, make([][]part.Part, len(stages)), nil, tell)
	if wait.Wait(); len(list) > 1 {
		list = r.spare(ctx, e, stages, parts, list, bounds.Cost, tell)
		r.use(list, "")
		r.bounded(bounds)
		both := sawing{problem: r.Problem, plan: r.Plan}
		both.judged()
	} else {
		r.use(list, "")
	}
	for _, x := range list {
		x.judged()
		r.uncut(x, x.unfit)
	}
	r.heavy()
	r.sawn()
	return list
}

// bound is how good any plan of p can be at best.
func bound(ctx context.Context, p *cutting.Problem, e solve.Effort) cutting.Bounds {
	return solve.Solve(ctx, p, solve.Effort{Proof: e.Proof}, nil).Bounds
}

// inTurn cuts the stages one after the other; room is kept on the sheets of each for the parts of later ones that are spared, in a search
// that goes no further than what the stage costs in the list before. Nothing is given when one with those before it costs more than it did
// there, or less is cut.
func (r *Result) inTurn(ctx context.Context, e solve.Effort, stages []string, parts, spared [][]part.Part, before []sawing, tell func(solve.Progress)) []sawing {
	yard := cutlist.NewYard(r.Job.Catalogue, r.Job.Practice)
	var list []sawing
	same := before != nil // no room is kept yet, so that all is as it was before
	dearer := int64(0)    // than before
	for i, stage := range stages {
		x := sawing{stage: stage}
		var sizes cutlist.Sizes
		x.problem, sizes = yard.Sheets(parts[i], 1)
		switch same = same && len(spared[i]) == 0; {
		case same:
			x.plan = before[i].plan
		case len(spared[i]) == 0:
			x.plan = *r.chosen(solve.Solve(ctx, &x.problem, e, tell))
		default:
			both := x.problem
			both.Parts = slices.Clone(both.Parts)
			yard.Spare(&both, spared[i])
			short := e
			short.Steps, short.Proof, short.Enough = e.Steps/triedIn, 0, before[i].plan.Totals.Cost
			x.plan = *r.chosen(solve.Solve(ctx, &both, short, tell))
			x.plan.Trade, x.plan.Ways = nil, nil
		}
		if before != nil {
			was := &before[i].plan
			if dearer += x.plan.Totals.Cost - was.Totals.Cost; dearer > 0 || len(x.plan.Unplaced) > len(was.Unplaced) {
				return nil
			}
		}
		x.marks = sizes.Marks(x.plan)
		x.sticks, x.unfit = yard.Sticks(parts[i])
		yard.Take(&x.problem, x.plan)
		list = append(list, x)
	}
	return list
}

// chosen is the plan that is wanted of those found.
func (r *Result) chosen(p *cutting.Plan) *cutting.Plan {
	if r.Few {
		return p.Fewest()
	}
	return p
}

// triedIn is the share of the search, as its divisor, that goes to whether a sheet of a later stage is saved.
const triedIn = 10

// mostSpared is how many sheets of later stages are tried to be saved: each costs a search of all stages.
func mostSpared(e solve.Effort) int {
	switch {
	case e.Steps == 0:
		return 6
	case e.Steps < solve.Normal.Steps:
		return 2
	}
	return 8
}

// spare looks for sheets that later stages need not buy, as room for what they give can be left on sheets that an earlier
// stage buys anyway. No stage pays more for that.
func (r *Result) spare(ctx context.Context, e solve.Effort, stages []string, parts [][]part.Part, list []sawing, least int64, tell func(solve.Progress)) []sawing {
	of := map[string]part.Part{}
	for _, p := range r.Assembly.Parts {
		of[p.Mark] = p
	}
	spared, first := make([][]part.Part, len(stages)), list[0]
	for tries, most := 0, mostSpared(e); tries < most; {
		better := false
		for _, c := range emptiest(list) {
			if cost(list) <= least {
				break
			}
			for i := c.stage - 1; i >= 0 && !better && tries < most; i-- {
				try := slices.Clone(spared)
				for _, m := range list[c.stage].marks[c.sheet] {
					try[i] = append(slices.Clip(try[i]), of[m])
				}
				tries++
				if got := r.inTurn(ctx, e, stages, parts, try, list, tell); got != nil && cost(got) < cost(list) {
					list, spared, better = got, try, true
				}
			}
			if better {
				break
			}
		}
		if !better {
			break
		}
	}
	for i := range list {
		if len(spared[i]) == 0 {
			continue
		}
		var own cutting.Bounds // of what is cut in this stage
		if i == 0 {            // from the same stock as before
			own = first.plan.Bounds
			own.Stocks = slices.Clone(own.Stocks)
		} else {
			own = bound(ctx, &list[i].problem, e)
		}
		for k := range own.Stocks {
			own.Stocks[k].Used = list[i].plan.Bounds.Stocks[k].Used
		}
		list[i].plan.Bounds = own
	}
	return list
}

// bought is one sheet that a stage buys.
type bought struct {
	stage, sheet int
	full         float64
}

// emptiest gives the sheets that stages after the first buy, the least used one first.
func emptiest(list []sawing) []bought {
	var all []bought
	for i, x := range list {
		for k, s := range x.plan.Sheets {
			if i > 0 && !s.OnHand {
				all = append(all, bought{i, k, float64(s.Area.Parts) / (float64(s.L) * float64(s.W))})
			}
		}
	}
	order.Stable(all, func(a, b bought) int { return cmp.Compare(a.full, b.full) })
	return all
}

func cost(list []sawing) int64 {
	sum := int64(0)
	for _, x := range list {
		sum += x.plan.Totals.Cost
	}
	return sum
}

// sawn says when nothing in the shop cuts the parts, or its kerf is a guess.
func (r *Result) sawn() {
	if len(r.Plan.Sheets)+len(r.Sticks) == 0 {
		return
	}
	saw := cutlist.BreakDown(r.Job.Practice)
	kerf := saw.Kerf.In(r.Job.Print)
	switch {
	case saw.Name == "":
		r.Findings.Add(finding.Finding{Code: NoSaw, Severity: finding.Warning, Verdict: finding.Fails, At: "job", Source: "the job",
			Text: fmt.Sprintf("The practice has no saw: nothing in this shop cuts the parts. The cutting plan reckons with a kerf of %s.", kerf),
			Hint: "List a saw with its kerf under tools: of the practice; or have the sheets cut where you buy them, and list that saw."})
	case saw.Assumed:
		r.Findings.Add(finding.Finding{Code: NoSaw, Severity: finding.Note, Verdict: finding.NotKnown, At: "job", Source: "the job",
			Text: fmt.Sprintf("The kerf of the %s is not stated; the cutting plan reckons with %s.", saw.Name, kerf),
			Hint: "Measure it in scrap, and write kerf: under tools: of the practice."})
	}
}

// judged has the plan re-checked; a plan that is refused is a mistake of ours.
func (x *sawing) judged() {
	if faults := judge.Check(&x.problem, &x.plan); len(faults) > 0 {
		panic(fmt.Sprintf("plan: the judge refuses the cutting plan: %v", faults[0]))
	}
}

// use makes one stage's sawing, or that of all, what is told of.
func (r *Result) use(list []sawing, stage string) {
	r.Trades = nil
	for _, x := range list {
		if len(x.plan.Trade) > 1 && (stage == "" || x.stage == stage) {
			r.Trades = append(r.Trades, Trade{x.stage, x.plan.Trade})
		}
	}
	if i := slices.IndexFunc(list, func(x sawing) bool { return x.stage == stage }); i >= 0 {
		x := list[i]
		r.Problem, r.Plan, r.Marks, r.Sticks = x.problem, x.plan, x.marks, x.sticks
		return
	}
	var problems []cutting.Problem
	var plans []cutting.Plan
	r.Marks, r.Sticks = nil, nil
	for _, x := range list {
		problems, plans = append(problems, x.problem), append(plans, x.plan)
		r.Marks, r.Sticks = append(r.Marks, x.marks...), append(r.Sticks, x.sticks...)
	}
	r.Problem, r.Plan = cutlist.Join(problems, plans)
}

// bounded puts proven bounds of the whole job in place of those of its stages.
func (r *Result) bounded(b cutting.Bounds) {
	least := map[string]int{}
	for _, s := range b.Stocks {
		least[s.ID] = s.Least
	}
	for i := range r.Plan.Bounds.Stocks {
		s := &r.Plan.Bounds.Stocks[i]
		s.Least = least[s.ID]
	}
	r.Plan.Bounds.Cost, r.Plan.Bounds.Sheets = b.Cost, b.Sheets
}

// uncut says what of a stage no sheet and no stick can give, and what may be cut from fewer sheets.
func (r *Result) uncut(x sawing, unfit []cutlist.Unfit) {
	name := func(id string) string {
		for _, p := range r.Assembly.Parts {
			if p.Mark == id {
				return p.Name + " " + id
			}
		}
		return id
	}
	in := func(l length.Length) string { return l.In(r.Job.Print) }
	for _, u := range x.plan.Unplaced {
		f := finding.Finding{Code: NotCut, Severity: finding.Error, At: "part/" + u.Part, Source: "geometry",
			Text: fmt.Sprintf("%d × %s cannot be cut: %s", u.Count, name(u.Part), u.Why)}
		if u.Nearest != "" && u.Over > 0 {
			f.Text += fmt.Sprintf("; %s comes nearest and is %s too small", cutlist.Board(u.Nearest), in(u.Over))
			f.Hint = fmt.Sprintf("use a sheet with at least %s by %s of usable size, or make the part from two", in(u.L), in(u.W))
		}
		r.Findings.Add(f)
	}
	for _, u := range unfit {
		if u.Across {
			r.Findings.Add(finding.Finding{Code: StickTooNarrow, Severity: finding.Error, At: "part/" + u.Mark, Source: "geometry",
				Text: fmt.Sprintf("%s is %s wider or thicker than a stick of %s", name(u.Mark), in(u.Over), u.Stock),
				Hint: "use a wider or a thicker stick, or make the part as narrow as the stick is"})
			continue
		}
		r.Findings.Add(finding.Finding{Code: StickTooShort, Severity: finding.Error, At: "part/" + u.Mark, Source: "geometry",
			Text: fmt.Sprintf("%s is %s longer than a stick of %s gives", name(u.Mark), in(u.Over), u.Stock),
			Hint: "use a longer stick, or join two over a support"})
	}
	met := func(id string) bool { // over all stages
		return slices.ContainsFunc(r.Plan.Bounds.Stocks, func(b cutting.StockBound) bool { return b.ID == id && b.Used <= b.Least })
	}
	for _, b := range x.plan.Bounds.Stocks {
		if b.Used > b.Least && b.Least > 0 && x.plan.Totals.Cost > x.plan.Bounds.Cost && !met(b.ID) {
			r.Findings.Add(finding.Finding{Code: NoBound, Severity: finding.Note, At: "stock/" + b.ID, Source: "lower bound of the cutting plan",
				Text: fmt.Sprintf("%d sheets of %s are bought; no plan can buy fewer than %d", b.Used, r.board(b.ID), b.Least),
				Hint: "a longer search (--effort deep) may find one sheet less"})
		}
	}
}

// heavy says which sheets are too heavy at the saw for one person.
func (r *Result) heavy() {
	most := map[string]int64{}
	for _, x := range r.Plan.Warnings {
		if x.Kind == cutting.TooHeavy {
			stock := r.Plan.Sheets[x.Sheet].Stock
			most[stock] = max(most[stock], x.Mass)
		}
	}
	for _, x := range r.Plan.Warnings {
		stock := r.Plan.Sheets[x.Sheet].Stock
		if x.Kind != cutting.TooHeavy || x.Mass != most[stock] {
			continue
		}
		most[stock] = -1 // told once
		r.Findings.Add(finding.Finding{Code: TooHeavyAlone, Severity: finding.Note, At: "stock/" + stock, Source: "NIOSH 94-110: 23 kg (51 lb) at best",
			Text: fmt.Sprintf("a sheet of %s weighs about %s at the saw: too heavy for one person", r.board(stock), mass.Mass(x.Mass*1_000_000).Print(r.Job.Print == length.Millimetres)),
			Hint: "two people, or break it down first with a hand-held saw"})
	}
}
