package list

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/money"
)

// Text writes a plan for people: what it takes and how near that is to the best possible, then sheet by sheet the cuts
// in the order of work, and what is left.
func Text(p *cutting.Problem, plan *cutting.Plan, u length.Unit) string {
	var b strings.Builder
	t := &plan.Totals
	fmt.Fprintf(&b, "%s%s\n", plural(t.Sheets, "sheet", "sheets"), Verdict(plan))
	if t.Sheets > 0 {
		fmt.Fprintf(&b, "%d.%02d %% of their area in parts, %s, %s of the fence or stop.\n", t.Yield/100, t.Yield%100, plural(t.Cuts, "cut", "cuts"), plural(t.Settings, "setting", "settings"))
	}
	if plan.Cancelled {
		b.WriteString("The search was stopped before its end: this is the best plan until then.\n")
	}
	if len(plan.Trade) > 1 {
		var ways []string
		dearer := false
		for _, c := range plan.Trade {
			dearer = dearer || t.Priced && c.Cost != t.Cost
		}
		for i, c := range plan.Trade {
			this := ""
			if dearer {
				this = " for " + money.Amount(c.Cost).Print()
			}
			if c.Sheets == t.Sheets && c.Settings == t.Settings && c.Cost == t.Cost && c.Kept == t.Kept {
				this += ", this one"
			}
			ways = append(ways, fmt.Sprintf("%d: %s and %s%s", i+1, plural(c.Sheets, "sheet", "sheets"), plural(c.Settings, "setting", "settings"), this))
		}
		fmt.Fprintf(&b, "Plans found (--take prints another): %s.\n", strings.Join(ways, "; "))
	}
	for _, s := range plan.Bounds.Stocks {
		if s.Used > 0 {
			fmt.Fprintf(&b, "  %d × %s\n", s.Used, s.ID)
		}
	}
	for _, x := range plan.Unplaced {
		fmt.Fprintf(&b, "NOT CUT: %d × %s: %s", x.Count, x.Part, x.Why)
		if x.Nearest != "" && x.Over > 0 {
			fmt.Fprintf(&b, "; %s comes nearest and is %s too small: a sheet with %s × %s of usable size would do", x.Nearest, x.Over.In(u), x.L.In(u), x.W.In(u))
		}
		b.WriteString("\n")
	}
	if t.Sheets > 0 {
		b.WriteString("\nCuts are numbered over all sheets, those of one setting together; under \"here\" on the sheet alone, as pictures have them.\n")
	}
	for i := range plan.Sheets {
		sheet(&b, plan, i, u)
	}
	return b.String()
}

// Verdict says, after the number of sheets, what they cost and how near that is to the best possible.
func Verdict(plan *cutting.Plan) string {
	t, bo := &plan.Totals, &plan.Bounds
	if len(plan.Unplaced) > 0 {
		return "; not all parts can be cut."
	}
	if !t.Priced || t.Cost == 0 || len(bo.Stocks) < 2 {
		if t.Sheets <= bo.Sheets {
			return "; no plan can use fewer."
		}
		return fmt.Sprintf("; any plan needs at least %d.", bo.Sheets)
	}
	if t.Cost <= bo.Cost {
		return fmt.Sprintf(" for %s; no plan can cost less.", money.Amount(t.Cost).Print())
	}
	return fmt.Sprintf(" for %s; any plan costs at least %s.", money.Amount(t.Cost).Print(), money.Amount(bo.Cost).Print())
}

func sheet(b *strings.Builder, plan *cutting.Plan, i int, u length.Unit) {
	s := &plan.Sheets[i]
	from := ""
	if s.OnHand {
		from = ", on hand"
	}
	fmt.Fprintf(b, "\nSheet %d of %d: %s, %s × %s %s%s\n", i+1, len(plan.Sheets), Kind(s.Stock), s.L.Tape(u), s.W.Tape(u), u, from)
	fmt.Fprintf(b, "%6s  %4s  %-10s  %-8s  %10s  %-20s  %s\n", "cut", "here", "work", "way", "set to", "of a piece", "comes free")
	n := 0
	for _, c := range s.Cuts {
		here := ""
		if c.Work != cutting.Trimming {
			n++
			here = strconv.Itoa(n)
		}
		way := "rip"
		if c.Axis == cutting.X {
			way = "crosscut"
		}
		if c.Hand {
			way = "by hand"
		}
		var free []string
		for _, k := range c.Frees {
			free = append(free, s.Pieces[k].Part)
		}
		for _, k := range c.Leaves {
			if s.Offcuts[k].Scrap {
				free = append(free, "scrap")
			} else {
				free = append(free, "offcut "+s.Offcuts[k].L.Tape(u)+" × "+s.Offcuts[k].W.Tape(u))
			}
		}
		fmt.Fprintf(b, "%6d  %4s  %-10s  %-8s  %10s  %-20s  %s\n", c.Seq, here, c.Work.Says(), way, c.Setting.Tape(u), c.Of.L.Tape(u)+" × "+c.Of.W.Tape(u), strings.Join(free, ", "))
	}
	if len(s.Cuts) == 0 {
		for _, pc := range s.Pieces {
			fmt.Fprintf(b, "%6s  no cut: the sheet is %s\n", "", pc.Part)
		}
	}
	for _, w := range plan.Warnings {
		if w.Sheet != i {
			continue
		}
		switch w.Kind {
		case cutting.TooHeavy:
			fmt.Fprintf(b, "  Cut %d: the piece weighs %d.%d kg: two people, or a hand-held saw.\n", w.Seq, w.Mass/1000, w.Mass%1000/100)
		case cutting.TooNarrow:
			fmt.Fprintf(b, "  Cut %d: %s is narrow: let it come off on the far side of the blade.\n", w.Seq, w.Size.In(u))
		}
	}
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// Rows writes the cuts of a plan as rows for a spreadsheet, sizes exact in millimetres.
func Rows(plan *cutting.Plan) []byte {
	rows := [][]string{{"cut", "sheet", "stock", "work", "axis", "setting mm", "at mm", "piece length mm", "piece width mm", "frees", "leaves"}}
	for i, s := range plan.Sheets {
		for _, c := range s.Cuts {
			var free, left []string
			for _, k := range c.Frees {
				free = append(free, s.Pieces[k].Part)
			}
			for _, k := range c.Leaves {
				left = append(left, s.Offcuts[k].L.MM()+" x "+s.Offcuts[k].W.MM())
			}
			rows = append(rows, []string{strconv.Itoa(c.Seq), strconv.Itoa(i + 1), s.Stock, c.Work.String(), c.Axis.String(), c.Setting.MM(), c.At.MM(),
				c.Of.L.MM(), c.Of.W.MM(), strings.Join(free, " "), strings.Join(left, "; ")})
		}
	}
	return rowsOf(rows)
}

type mm length.Length

// MarshalJSON writes the exact size in millimetres.
func (m mm) MarshalJSON() ([]byte, error) { return []byte(length.Length(m).MM()), nil }

type jsonPlan struct {
	Sheets    int         `json:"sheets"`
	Least     int         `json:"noPlanUsesFewerThan"`
	Yield     float64     `json:"yieldPercent"`
	Settings  int         `json:"settings"`
	Cuts      int         `json:"cuts"`
	Plan      []jsonSheet `json:"plan"`
	NotCut    []jsonNot   `json:"notCut"`
	Trade     []jsonTrade `json:"otherPlansFound,omitempty"`
	Cancelled bool        `json:"cancelled,omitempty"`
}

type jsonTrade struct {
	Sheets   int `json:"sheets"`
	Settings int `json:"settings"`
}

type jsonNot struct {
	Mark  string `json:"mark"`
	Count int    `json:"count"`
	Why   string `json:"why"`
}

type jsonSheet struct {
	Stock   string     `json:"stock"`
	OnHand  bool       `json:"onHand"`
	Size    [2]mm      `json:"size"`
	Pieces  []jsonRect `json:"pieces"`
	Offcuts []jsonRect `json:"offcuts"`
	Cuts    []jsonCut  `json:"cuts"`
}

type jsonRect struct {
	Mark   string `json:"mark,omitempty"`
	At     [2]mm  `json:"at"`
	Size   [2]mm  `json:"size"`
	Turned bool   `json:"turned,omitempty"`
	Scrap  bool   `json:"scrap,omitempty"`
}

type jsonCut struct {
	Seq     int    `json:"cut"`
	Work    string `json:"work"`
	Axis    string `json:"axis"`
	At      mm     `json:"at"`
	Kerf    mm     `json:"kerf"`
	Setting mm     `json:"setting"`
	Frees   []int  `json:"frees,omitempty"`
	Leaves  []int  `json:"leaves,omitempty"`
}

// JSON writes a plan for programs, sizes exact in millimetres.
func JSON(plan *cutting.Plan) []byte {
	t := &plan.Totals
	out := jsonPlan{Sheets: t.Sheets, Least: plan.Bounds.Sheets, Yield: float64(t.Yield) / 100, Settings: t.Settings, Cuts: t.Cuts,
		Plan: []jsonSheet{}, NotCut: []jsonNot{}, Cancelled: plan.Cancelled}
	for _, c := range plan.Trade {
		out.Trade = append(out.Trade, jsonTrade{c.Sheets, c.Settings})
	}
	for _, x := range plan.Unplaced {
		out.NotCut = append(out.NotCut, jsonNot{x.Part, x.Count, x.Why.String()})
	}
	rect := func(r cutting.Rect) jsonRect {
		return jsonRect{At: [2]mm{mm(r.X), mm(r.Y)}, Size: [2]mm{mm(r.L), mm(r.W)}}
	}
	for _, s := range plan.Sheets {
		js := jsonSheet{Stock: s.Stock, OnHand: s.OnHand, Size: [2]mm{mm(s.L), mm(s.W)}, Pieces: []jsonRect{}, Offcuts: []jsonRect{}, Cuts: []jsonCut{}}
		for _, q := range s.Pieces {
			r := rect(q.Rect)
			r.Mark, r.Turned = q.Part, q.Turned
			js.Pieces = append(js.Pieces, r)
		}
		for _, o := range s.Offcuts {
			r := rect(o.Rect)
			r.Scrap = o.Scrap
			js.Offcuts = append(js.Offcuts, r)
		}
		for _, c := range s.Cuts {
			js.Cuts = append(js.Cuts, jsonCut{c.Seq, c.Work.String(), c.Axis.String(), mm(c.At), mm(c.Kerf), mm(c.Setting), c.Frees, c.Leaves})
		}
		out.Plan = append(out.Plan, js)
	}
	b, err := json.MarshalIndent(out, "", "  ")
	if err != nil {
		panic("list: a plan does not become JSON: " + err.Error())
	}
	return append(b, '\n')
}
