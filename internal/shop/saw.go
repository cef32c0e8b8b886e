package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/part"
)

// saw follows the cutting plan: one step for every sheet; its settings stand in the table of
// the sheet.
func (s *steps) saw() {
	saw := "saw"
	caution := eyes
	for _, t := range s.Practice.Tools {
		switch t.Kind {
		case "table-saw", "panel-saw":
			saw, caution = t.Name, tableSaw
		case "track-saw", "circular-saw":
			if caution == eyes {
				saw, caution = t.Name, handSaw
			}
		}
	}
	for i, sh := range s.Plan.Sheets {
		cuts, settings := 0, 0
		var axis cutting.Axis
		last := length.Length(-1)
		for _, c := range sh.Cuts {
			if c.Work == cutting.Trimming {
				continue
			}
			cuts++
			if c.Axis != axis || c.Setting != last {
				settings++
			}
			axis, last = c.Axis, c.Setting
		}
		st := Step{Phase: Saw, Parts: slices.Clone(s.Marks[i]), Tool: cmp.Or(saw, "saw"), Caution: caution,
			Text: fmt.Sprintf("Sheet %d, %s: trim the edges that will be used, then make its %d cuts at %d settings in the order of its table. Write its mark on every part as it comes off.", i+1, s.board(sh.Stock), cuts, settings)}
		for _, w := range s.Plan.Warnings {
			if w.Sheet == i && w.Kind == cutting.TooHeavy {
				st.Caution = heavy + " " + caution
			}
		}
		s.add(st)
	}
}

// board gives the name of the board that a stock of the cutting plan is.
func (s *steps) board(id string) string {
	id, _, _ = strings.Cut(id, "/")
	if b, ok := s.Catalogue.Board(id); ok {
		return cmp.Or(b.Name, id)
	}
	return id
}

// setup is one way that a tool is set: what it makes, and how deep.
type setup struct {
	tool, what string
	kind       part.OpKind
	dia, depth length.Length
	through    bool
}

// bore groups workings by what they are for and how the tool is set.
func (s *steps) bore() {
	marks := map[setup][]string{}
	narrow := map[setup]bool{}
	n := map[setup]int{}
	var order []setup
	for _, p := range s.Assembly.Parts {
		for _, o := range p.Ops {
			_, _, deep := o.Face.Extent(p.Size)
			k := setup{o.Tool, o.For, o.Kind, o.Dia, o.Depth, o.Depth >= deep}
			if k.through {
				k.depth = 0
			}
			if o.Kind == part.Bevel || o.Kind == part.Taper {
				k.depth, k.through = 0, false
			}
			if n[k] == 0 {
				order = append(order, k)
			}
			n[k]++
			if min(p.Size[0], p.Size[1]) < 100*length.MM && (o.Kind == part.Groove || o.Kind == part.Rabbet) {
				narrow[k] = true
			}
			if l := marks[k]; len(l) == 0 || l[len(l)-1] != p.Mark {
				marks[k] = append(l, p.Mark)
			}
		}
	}
	slices.SortStableFunc(order, func(a, b setup) int {
		return cmp.Or(cmp.Compare(a.tool, b.tool), cmp.Compare(a.kind, b.kind), cmp.Compare(a.dia, b.dia), cmp.Compare(a.depth, b.depth))
	})
	for _, k := range order {
		text := k.kind.String()
		if k.dia > 0 {
			text += " " + s.exactly(k.dia) + " across"
		}
		switch {
		case k.through:
			text += ", through"
		case k.depth > 0:
			text += ", " + s.exactly(k.depth) + " deep"
		}
		if k.what != "" && k.what != k.kind.String() {
			text = k.what + ": " + text
		}
		text = fmt.Sprintf("%s; %d in %s", text, n[k], many(len(marks[k]), "part"))
		if narrow[k] {
			text += "; groove a wide blank first and rip the narrow parts from it"
		}
		s.add(Step{Phase: Bore, Tool: k.tool, Parts: marks[k], Text: strings.ToUpper(text[:1]) + text[1:] + ".", Caution: eyes})
	}
}

// exactly prints the size of a bit or the depth of a cut: as a tape shows it when that is the
// whole truth to 0.05 mm, else exact or to 0.1 mm.
func (s *steps) exactly(l length.Length) string {
	switch {
	case (l - l.Near(s.Print.Step())).Abs() < length.MM/20:
		return s.in(l)
	case len(l.Exact(s.Print)) < 10:
		return l.Exact(s.Print)
	}
	return l.Near(length.MM/10).MM() + " mm"
}

func many(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
