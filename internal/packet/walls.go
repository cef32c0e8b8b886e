package packet

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/draw/font"
	"stowright/internal/view"
)

// titleWide is the room for a title in a whole title block, in mm.
const titleWide = 84.0

var largest = draw.Scale{Paper: 1, Real: 10}

// drawingOf is one drawing that has a sheet, or shares it with others of its wall.
type drawingOf struct {
	name, kind string
	fig        view.Figure
	loss       int // by how much smaller than alone it may be drawn to share a sheet, in percent
}

// setDrawings sets drawings that belong together on as few whole sheets as draw none of them much
// smaller than it is drawn alone, and on as many as show them largest. The first enters a chapter when
// head is not empty.
func (b *book) setDrawings(title, head, name string, list []drawingOf) {
	type sheet struct {
		which []int
		lying bool
		rows  [][]view.Figure
		scale draw.Scale
	}
	for i := range list {
		b.ready(&list[i].fig)
	}
	area := func(lying bool) draw.Rect { r, _ := b.Paper.Sheet(lying).FreeFrame(); return r }
	try := func(lying bool, rows [][]view.Figure) draw.Scale {
		scale, _ := view.Fit(area(lying), b.units(), largest, rows...)
		return scale
	}
	smaller := func(a, b draw.Scale) float64 { return float64(a.Real*b.Paper) / float64(a.Paper*b.Real) }
	// together gives the sheet that shows drawings largest, lying or upright, beside each other or under
	tried := map[string]sheet{}
	together := func(which []int) (best sheet, ok bool) {
		key := fmt.Sprint(which)
		if best, ok = tried[key]; ok {
			return best, best.rows != nil
		}
		defer func() { tried[key] = best }()
		var row []view.Figure
		var down [][]view.Figure
		for _, i := range which {
			row = append(row, list[i].fig)
			down = append(down, []view.Figure{list[i].fig})
		}
		for _, lying := range []bool{true, false} {
			for k, rows := range [][][]view.Figure{{row}, down} {
				if k == 1 && len(which) == 1 {
					break
				}
				if c := try(lying, rows); c.Real > 0 && (best.rows == nil || smaller(c, best.scale) < 0.99) {
					best = sheet{which, lying, rows, c}
				}
			}
		}
		return best, best.rows != nil
	}
	alone := make([]sheet, len(list))
	for i := range list {
		var ok bool
		if alone[i], ok = together([]int{i}); !ok { // as small as it goes
			all := view.Scales(b.units())
			alone[i] = sheet{[]int{i}, true, [][]view.Figure{{list[i].fig}}, all[len(all)-1]}
		}
	}
	var best []sheet
	var worst float64
	var part func(i int, groups [][]int)
	part = func(i int, groups [][]int) {
		if i < len(list) {
			for g := range groups {
				next := append([][]int{}, groups...)
				next[g] = append(append([]int{}, groups[g]...), i)
				part(i+1, next)
			}
			part(i+1, append(append([][]int{}, groups...), []int{i}))
			return
		}
		if best != nil && len(groups) > len(best) {
			return
		}
		var sheets []sheet
		lost := 0.0
		for _, g := range groups {
			s, ok := alone[g[0]], true
			if len(g) > 1 {
				s, ok = together(g)
			}
			for _, k := range g {
				if ok = ok && smaller(s.scale, alone[k].scale) <= 1+float64(list[k].loss)/100; !ok {
					return
				}
				lost += smaller(s.scale, alone[k].scale)
			}
			sheets = append(sheets, s)
		}
		if best == nil || len(sheets) < len(best) || lost < worst-0.01 {
			best, worst = sheets, lost
		}
	}
	part(0, nil)
	for _, x := range best {
		var names, kinds []string
		for _, i := range x.which {
			names = append(names, list[i].name)
			if !slices.Contains(kinds, list[i].kind) {
				kinds = append(kinds, list[i].kind)
			}
		}
		called := title + ": " + strings.Join(names, "; ")
		for n := len(names) - 1; n > 0 && font.Width(called, true, draw.LeastCap) > titleWide; n-- {
			called = title + ": " + strings.Join(names[:n], "; ") + "; and more"
		}
		s, r, block := b.drawing(called, strings.Join(kinds, "; "), x.lying)
		scale, _ := view.Set(s, r, b.units(), x.scale, x.rows...)
		block.Scale = scale.String()
		if head != "" {
			b.enter(0, head, name, true)
			head = ""
		}
		for _, i := range x.which {
			b.enter(1, title+": "+list[i].name, fmt.Sprint(name, " ", list[i].name), true)
		}
	}
}

// walls sets every wall: elevations, plan, section, where what is screwed, and how high what stands.
func (b *book) walls() {
	for i := range b.Walls {
		w := &b.Walls[i]
		c := b.scene(w)
		if parts, standing := c.Parts(); len(parts)+len(standing) == 0 {
			continue
		}
		title := "Wall " + w.ID
		list := []drawingOf{
			{"elevation", "Elevation", c.Elevation(false, b.toOwner), 24},
			{"fronts off", "Elevation", c.Elevation(true, b.toOwner), 34},
			{"plan", "Plan", c.Plan(), 34},
			{"section", "Section", c.Section(c.Busiest()), 120},
		}
		if f, ok := c.Free(b.toOwner); ok {
			list = append(list, drawingOf{"what stands free", "Elevation", f, 60})
		}
		if x := c.Fixing(); x != nil {
			list = append(list, drawingOf{"fixing", "Fixing", *x, 34})
		}
		if x := c.Levels(); x != nil {
			list = append(list, drawingOf{"levelling", "Levelling", *x, 100})
		}
		b.setDrawings(title, title, "wall "+w.ID, list)
	}
}
