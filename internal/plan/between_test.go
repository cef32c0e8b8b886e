package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/shop"
	"stowright/internal/stock"
)

// wedged gives a sentence for every thing that goes in at the wall between two faces that are there already and is as
// long as the room between them: a step's new boards, or the whole of what it sets. No play, and it goes in only by force
// (common practice, no source: 1 mm between what is put in and what stands, half of that where it is told).
func wedged(r plan.Result) (bad []string, n int) {
	const least = length.MM / 4
	of := map[string][]part.Part{}
	for _, p := range r.Assembly.Parts {
		if p.Moves == "" {
			of[p.Owner] = append(of[p.Owner], p)
		}
	}
	wall, kind := map[string]string{}, map[string]string{}
	for _, o := range r.Assembly.Owners {
		wall[o.ID], kind[o.ID] = o.Wall, o.Kind
	}
	stands := map[string]bool{} // owners
	hangs := map[string]bool{}  // single boards, by mark
	for _, s := range r.Steps {
		if s.Phase != shop.Install || s.Owner == "" {
			continue
		}
		var now []part.Part // what this step sets
		whole := false
		switch k := kind[s.Owner]; {
		case k == "counter" && strings.Contains(s.Text, " the rails of "):
			for _, p := range of[s.Owner] {
				end := slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == part.BoltedRail })
				if slices.Contains(s.Parts, p.Mark) || end {
					now = append(now, p)
				}
			}
		case k == "counter" && strings.Contains(s.Text, " in its place, left end "), k == "hutch" && strings.HasPrefix(s.Text, "Put the frame of "),
			strings.Contains(s.Text, ": set the "), strings.HasPrefix(s.Text, "Hang "):
			for _, p := range of[s.Owner] {
				if !hangs[p.Mark] {
					now = append(now, p)
				}
			}
			whole = true
		}
		for _, p := range now {
			a := p.Box()
			for axis := range 3 {
				low, high := "", ""
				for _, q := range r.Assembly.Parts {
					if q.Moves != "" || !stands[q.Owner] && !hangs[q.Mark] || wall[q.Owner] != wall[p.Owner] || q.Owner == p.Owner && !hangs[q.Mark] {
						continue
					}
					b, faces := q.Box(), true
					for k := range 3 {
						faces = faces && (k == axis || min(a.Max.At(k), b.Max.At(k))-max(a.Min.At(k), b.Min.At(k)) > 3*length.MM)
					}
					if faces && (a.Min.At(axis)-b.Max.At(axis)).Abs() < least {
						low = q.Mark
					}
					if faces && (b.Min.At(axis)-a.Max.At(axis)).Abs() < least {
						high = q.Mark
					}
				}
				n++
				if low != "" && high != "" {
					bad = append(bad, fmt.Sprintf("%s goes in between %s and %s, which are there, with no play: %s", p.Mark, low, high, s.Text))
				}
			}
		}
		for _, p := range now {
			hangs[p.Mark] = true
		}
		stands[s.Owner] = stands[s.Owner] || whole
	}
	return bad, n
}

// Nothing that goes in between what stands already is as long as the room.
func TestWhatGoesInBetweenHasPlay(t *testing.T) {
	inExamples(t, shipped, wedged, "nothing is set between others")
}

// late gives a sentence for every end panel that comes on when the back is in already: between that and its rear screws there
// is no room for a drill.
func late(r plan.Result) (bad []string, n int) {
	backed := map[string]string{}
	for _, s := range r.Steps {
		for _, m := range s.New {
			i := slices.IndexFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Mark == m })
			if i < 0 || r.Assembly.Parts[i].Moves != "" {
				continue
			}
			switch p := r.Assembly.Parts[i]; p.Role {
			case part.BackPanel:
				backed[p.Owner] = m
			case part.EndPanel:
				if n++; backed[p.Owner] != "" {
					bad = append(bad, fmt.Sprintf("%s is screwed on from inside when %s is in: %s", m, backed[p.Owner], s.Text))
				}
			}
		}
	}
	return bad, n
}

// The screws of an end panel are driven while the back is off.
func TestEndPanelsComeOnBeforeTheBack(t *testing.T) {
	inExamples(t, shipped, late, "no end panel")
}

// unstopped gives a sentence for every groove that ends inside its board and whose step does not say so.
func unstopped(r plan.Result) (bad []string, n int) {
	for _, p := range r.Assembly.Parts {
		for _, o := range p.Ops {
			if o.Kind != part.Groove || o.Face > part.Lower {
				continue
			}
			run, whole := max(o.L, o.W), p.Size[0]
			if o.W > o.L {
				whole = p.Size[1]
			}
			if whole-run < length.MM {
				continue
			}
			n++
			told := slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
				return s.Phase == shop.Bore && slices.Contains(s.Parts, p.Mark) && strings.HasPrefix(strings.ToLower(s.Text), strings.ToLower(o.For)) && (strings.Contains(s.Text, "Each ends ") || strings.Contains(s.Text, "pare out with a chisel"))
			})
			if !told {
				bad = append(bad, fmt.Sprintf("the groove of %s for %s is %v long in a board of %v, and no step says that it stops", p.Mark, o.For, run, whole))
			}
		}
	}
	return bad, n
}

// A groove that does not run through is told where it ends.
func TestGroovesThatStopAreTold(t *testing.T) {
	inExamples(t, shipped, unstopped, "no groove stops")
}

// The hooks that are bought for a hook board are as many as hang there by the same plan.
func TestHooksAreAsManyAsHangThere(t *testing.T) {
	inExamples(t, shipped, func(r plan.Result) (bad []string, n int) {
		for _, h := range r.Assembly.Hardware {
			if h.For != part.HangsOnBoard || h.Kind != "hook" {
				continue
			}
			want := 0
			for _, x := range r.Stowed {
				if x.Owner == h.Owner {
					i := slices.IndexFunc(r.Job.Goods, func(g stock.Goods) bool { return g.ID == x.Goods })
					want += x.Count * max(r.Job.Goods[i].Hooks, 1)
				}
			}
			if n++; h.Count != want {
				bad = append(bad, fmt.Sprintf("%d hooks on %s for what hangs on %d", h.Count, h.Owner, want))
			}
		}
		return bad, n
	}, "no hook board")
}

// crowding gives a board that is nearer than 35 mm to the line on which a screw is driven, 40 to 150 mm before its head: of its
// own case, of what hangs on the wall, or of what a hook board stands on; "" where none is. A drill's body is some 80 mm thick
// (common practice, no source).
func crowding(r plan.Result, f part.Fixing, wall bool) string {
	axis, sign := 0, length.Length(1)
	kinds := map[string]part.Owner{}
	for _, o := range r.Assembly.Owners {
		kinds[o.ID] = o
	}
	own := kinds[f.Owner]
	var head geom.Box
	for _, p := range r.Assembly.Parts {
		if p.Mark == f.Part {
			head = p.Box()
		}
	}
	from := head.Max.X
	switch {
	case wall:
		axis, sign, from = 1, -1, head.Min.Y
	case head.Min.X > (own.Carcass.Min.X+own.Carcass.Max.X)/2:
		sign, from = -1, head.Min.X
	}
	line := geom.Box{Min: f.At, Max: f.At}
	line.Min, line.Max = line.Min.With(axis, min(from+40*sign*length.MM, from+150*sign*length.MM)), line.Max.With(axis, max(from+40*sign*length.MM, from+150*sign*length.MM))
	for _, p := range r.Assembly.Parts {
		x := kinds[p.Owner]
		if p.Mark == f.Part || p.Moves != "" || p.Removable || x.Wall != own.Wall || x.ID != own.ID && (!wall || !x.Hung && own.Kind != "hutch" || x.Kind == "hutch") {
			continue
		}
		for _, b := range p.Solid() {
			clear := false
			for i := range 3 {
				room := 35 * length.MM
				if i == axis {
					room = 0
				}
				clear = clear || b.Min.At(i) >= line.Max.At(i)+room || b.Max.At(i) <= line.Min.At(i)-room
			}
			if !clear {
				return p.Mark
			}
		}
	}
	return ""
}

// bareHands gives a sentence for every step at the wall whose tools are not named: a recess without its bit, a screw close
// beside an upright board without something that reaches, a batten without its holes.
func bareHands(r plan.Result) (bad []string, n int) {
	for _, s := range r.Steps {
		if strings.Contains(s.Text, "bore a recess") {
			if n++; !strings.Contains(s.Tool, "flat bit") || !strings.Contains(s.Text, " deep or as deep as the head is high") {
				bad = append(bad, "with which bit, how deep: "+s.Text)
			}
		}
		if strings.Contains(s.Text, "on a batten") && !strings.Contains(s.Text, "that held it before") {
			if n++; !strings.Contains(s.Text, "The batten itself is bored with the ") {
				bad = append(bad, "how the batten is screwed on: "+s.Text)
			}
		}
		wall := strings.HasPrefix(s.Text, "Fix ") || strings.HasPrefix(s.Text, "Put the frame of ")
		join := strings.HasPrefix(s.Text, "Clamp ")
		if s.Phase != shop.Install || !wall && !join {
			continue
		}
		near := ""
		for _, f := range r.Assembly.Fixings {
			if f.Owner != s.Owner || wall && f.Kind != part.ToStud && f.Kind != part.ToLedger || join && (f.Kind != part.ToCase || f.Row != "joining" || !slices.Contains(s.Parts, f.Part)) {
				continue
			}
			if h, _ := r.Job.Catalogue.Item(f.Screw); join && h.Kind != "screw" {
				continue
			}
			if q := crowding(r, f, wall); q != "" {
				near = q
			}
		}
		if near != "" {
			if n++; !strings.Contains(s.Tool, "right-angle head") {
				bad = append(bad, "no drill goes so near to "+near+": "+s.Text)
			}
		}
	}
	return bad, n
}

// What is bored at the wall is bored with a tool that is named and has room.
func TestToolsAtTheWallHaveRoom(t *testing.T) {
	inExamples(t, shipped, bareHands, "nothing is bored at a wall")
}

// unproved gives a sentence for every slide whose line before the first cut does not tell where its first screws are bored.
func unproved(r plan.Result) (bad []string, n int) {
	for _, h := range r.Assembly.Hardware {
		if h.Kind != "slide" {
			continue
		}
		n++
		var bored []length.Length
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				if p.Owner == h.Owner && p.Moves == "" && o.For == "slide" {
					at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
					bored = append(bored, at.Y-p.Box().Min.Y)
				}
			}
		}
		told := false
		for _, s := range r.Steps {
			for _, t := range s.Points {
				if s.Phase != shop.Prove || !strings.Contains(t, "(hardware, "+h.ID+")") || !strings.Contains(t, h.Length.In(r.Job.Print)) {
					continue
				}
				_, first, _ := strings.Cut(t, "its screws in the case ")
				first, _, _ = strings.Cut(first, ",")
				first, _, _ = strings.Cut(first, " and ")
				at, err := length.Parse(first, r.Job.Print)
				told = told || err == nil && slices.ContainsFunc(bored, func(l length.Length) bool { return (l - at).Abs() < length.MM/2 }) || len(bored) == 0
			}
		}
		if !told {
			bad = append(bad, fmt.Sprintf("nothing says before the first cut that the %s of %s, %s, are bored for at %v", h.ID, h.Owner, h.Length.In(r.Job.Print), bored))
		}
	}
	return bad, n
}

// Where slides are bored for can be held against their own paper before anything is cut.
func TestSlidesAreProvedBeforeTheFirstCut(t *testing.T) {
	inExamples(t, shipped, unproved, "no slide")
}
