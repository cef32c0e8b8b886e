package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// size prints a length that a tool is set to.
func (s *steps) size(l length.Length) string { return l.Set(s.Print) }

// setup is one way a tool is set.
type setup struct {
	tool, what  string
	kind        part.OpKind
	dia, depth  length.Length
	wide        length.Length // of a groove
	fence       fence         // of a groove
	stop        string        // of a groove that does not run through: where it ends
	thin, thick length.Length // of a taper's ends
	angle       int
	through     bool
	pilot       bool // a hole through for the thread of a screw, not for its shank
	guided      bool // one for a dowel into a face, at the marks of the points in the ends and edges that meet it
}

// set says how a tool is set for a working of a part.
func set(p part.Part, o part.Op) setup {
	k := setup{tool: o.Tool, what: o.For, kind: o.Kind, dia: o.Dia, depth: o.Depth}
	_, _, deep := o.Face.Extent(p.Size)
	k.through = o.Depth >= deep
	k.guided = o.For == "dowel" && o.Face <= part.Lower
	switch o.Kind {
	case part.Groove, part.Rabbet, part.Slot:
		k.wide = min(o.L, o.W)
	case part.Notch, part.Cutout:
		k.depth = 0
	case part.Pocket:
		k.depth = p.Size[2] // the jig is set to the board
	case part.Bevel:
		k.depth, k.angle = 0, o.Angle
	case part.Taper:
		k.depth = 0
		k.thin, k.thick = p.Size[1]-max(o.Y, o.Depth), p.Size[1]-min(o.Y, o.Depth)
	}
	if k.through {
		k.depth = 0
	}
	return k
}

// bore groups workings by what they are for and how the tool is set.
func (s *steps) bore() {
	marks := map[setup][]string{}
	slim := map[setup]bool{}
	n := map[setup]int{}
	var setups []setup
	threads := s.threads()
	fences := s.fenced()
	for i, p := range s.Assembly.Parts {
		for j, o := range p.Ops {
			k := set(p, o)
			k.fence = fences[[2]int{i, j}]
			k.stop = s.stops(p, o)
			k.pilot = k.through && o.Kind == part.Hole && slices.Contains(threads, o.Dia)
			if n[k] == 0 {
				setups = append(setups, k)
			}
			n[k]++
			if narrow(p) && long(p, o) {
				slim[k] = true
			}
			if l := marks[k]; len(l) == 0 || l[len(l)-1] != p.Mark {
				marks[k] = append(l, p.Mark)
			}
		}
	}
	order.Stable(setups, func(a, b setup) int {
		return cmp.Or(cmp.Compare(a.tool, b.tool), cmp.Compare(a.kind, b.kind), cmp.Compare(a.dia, b.dia), early(a.guided, b.guided), cmp.Compare(a.depth, b.depth), cmp.Compare(a.wide, b.wide), cmp.Compare(a.fence.edge, b.fence.edge), cmp.Compare(a.fence.at, b.fence.at), cmp.Compare(a.stop, b.stop))
	})
	dowelled := false // how dowel holes meet is said once
	for i := 0; i < len(setups); i++ {
		k := setups[i]
		at := []length.Length{k.fence.at}
		for ; i+1 < len(setups); i++ { // in the same boards at other places
			x := setups[i+1]
			at0 := x.fence.at
			if x.fence.at = k.fence.at; k.fence.edge == "" || x != k || !slices.Equal(marks[setups[i+1]], marks[k]) {
				break
			}
			at = append(at, at0)
			n[k] += n[setups[i+1]]
		}
		what := cmp.Or(k.what, k.kind.String())
		text := fmt.Sprintf("%s: %s, %d in %s.", what, s.how(k), n[k], count(len(marks[k]), "part", "parts"))
		if slim[k] {
			text += " When narrow parts are grooved, as strips or one by one, and how they are held, is told where their sheet is sawn."
		}
		switch k.kind {
		case part.Hole:
			if k.what == "dowel" && !dowelled {
				dowelled = true
				text += s.byGuide()
			}
			if k.through && (k.what == "handle" || k.what == "lock") {
				text += " Clamp a board of scrap where the bit comes out."
			}
		case part.Notch:
			if k.what == part.LightCable {
				text += " Two cuts from the edge to the hole bored before, one at each side of it: what is between falls out, and the slot is open to the edge."
				break
			}
			if k.tool == joinery.HandSaw {
				text += " From both faces."
				break
			}
			text += " A round blade stops short of an inner corner: saw the rest by hand, upright, from both faces."
		case part.Bevel:
			if k.what == part.Mitre {
				text += s.mitred(k)
				break
			}
			text += s.bevelled(k, marks[k])
		case part.Cutout:
			text += " Bore a hole inside each corner and saw from hole to hole."
		case part.Groove, part.Rabbet:
			if k.tool == joinery.HandSaw {
				text += fmt.Sprintf(" Saw down both its sides, the nearer %s from the %s, and pare out with a chisel what is between.", s.places(at), k.fence.edge)
				break
			}
			if k.fence.edge != "" {
				text += fmt.Sprintf(" Fence: its nearer side %s from the %s.", s.places(at), k.fence.edge)
			}
			text += k.stop
		}
		s.add(Step{Phase: Bore, Tool: s.tool(k.tool), Parts: marks[k], Text: capital(text), Caution: eyes})
	}
}

// early has what is not put off before what is.
func early(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// stops says where a groove ends that does not run through to the edges of its board, and how it ends there; "" for others.
func (s *steps) stops(p part.Part, o part.Op) (text string) {
	if o.Kind != part.Groove && o.Kind != part.Rabbet || o.Face > part.Lower || o.Tool == joinery.HandSaw {
		return ""
	}
	blade := slices.ContainsFunc(s.Practice.Tools, func(t stock.Tool) bool { return t.ID == o.Tool && strings.HasSuffix(t.Kind, "-saw") })
	names := s.around.Called(p)
	b := o.Removed(p.Size)
	axis, edges := 0, [2]part.Face{part.Start, part.End}
	if b.Max.X-b.Min.X < b.Max.Y-b.Min.Y {
		axis, edges = 1, [2]part.Face{part.Near, part.Far}
	}
	for i, left := range []length.Length{b.Min.At(axis), p.Size[axis] - b.Max.At(axis)} {
		if left < length.MM {
			continue
		}
		hidden := slices.ContainsFunc(p.Ops, func(x part.Op) bool { // by the back, whose groove crosses its way
			c := x.Removed(p.Size)
			far := c.Min.At(axis) - b.Max.At(axis)
			if i == 0 {
				far = b.Min.At(axis) - c.Max.At(axis)
			}
			return x.Kind == part.Groove && x.For == "back" && x.Face == o.Face && far.Abs() <= 2*length.MM
		})
		text += fmt.Sprintf(" Each ends %s before the %s", s.size(left), names[edges[i]])
		switch {
		case !blade:
			text += "."
		case hidden:
			text += ": saw on until it has its full depth there. The round of the blade may run on to that edge, where the back hides it."
		default:
			text += ": stop the blade before that, and pare out what its round leaves with a chisel."
		}
	}
	return text
}

// byGuide says how the two holes of a dowel come to meet: by the shop's dowel jig, else by a guide and centre points
// (common practice, no source).
func (s *steps) byGuide() string {
	for _, t := range s.Practice.Tools {
		if t.Kind == "dowel-jig" {
			return fmt.Sprintf(" All holes for dowels with the %s, for both boards of a joint from the same face and the same end.", cmp.Or(t.Name, t.ID))
		}
	}
	return " Ends and edges first, all of them, upright by a dowel guide, before a hole for a dowel is bored in any face. Then put dowel centre points in them, press the board where its step seats it, and see that their marks in the other lie where its drawing has the holes: where one is a little out, bore at the mark."
}

// places lists distances, even ones by their first, step and last.
func (s *steps) places(at []length.Length) string {
	var list []string
	even := len(at) > 4
	for i, l := range at {
		list = append(list, s.size(l))
		even = even && (i < 2 || l-at[i-1] == at[1]-at[0])
	}
	if even {
		return fmt.Sprintf("%s, then every %s to %s", list[0], s.size(at[1]-at[0]), list[len(list)-1])
	}
	return and(list)
}

// threads gives the sizes of holes that are bored for the threads of the screws of the job, and for the shank of
// none.
func (s *steps) threads() (dias []length.Length) {
	js := s.joiner()
	var shanks []length.Length
	for _, h := range s.Assembly.Hardware {
		x, ok := s.Catalogue.Item(h.ID)
		if !ok || x.Kind != "screw" {
			continue
		}
		if _, d, _ := js.Pilot(cmp.Or(x.Pilot, x.Root)); d > 0 {
			dias = append(dias, d)
		}
		_, d, _ := js.Pilot(cmp.Or(x.Clearance, x.Dia))
		shanks = append(shanks, d)
	}
	return slices.DeleteFunc(dias, func(d length.Length) bool { return slices.Contains(shanks, d) })
}

// how says what is done with the tool as it is set.
func (s *steps) how(k setup) string {
	depth := s.size(k.depth) + " deep"
	if k.kind == part.Hole || k.kind == part.Cup {
		depth = k.depth.Stop(s.Print) + " deep"
	}
	if k.through {
		depth = "through"
	}
	if k.pilot {
		depth = "pilot for the thread, through"
	}
	switch k.kind {
	case part.Hole, part.Cup, part.Countersink:
		return depth
	case part.Pocket:
		return "jig and collar set for boards of " + s.size(k.depth)
	case part.Groove, part.Rabbet:
		return fmt.Sprintf("%s %s wide, %s%s", k.kind, s.size(k.wide), depth, s.passes(k))
	case part.Slot:
		return fmt.Sprintf("slot %s wide, %s", s.size(k.wide), depth)
	case part.Notch:
		return "notch sawn out"
	case part.Cutout:
		return "opening sawn out"
	case part.Bevel:
		if k.what == part.Mitre {
			return fmt.Sprintf("end sawn at %d°", k.angle)
		}
		return fmt.Sprintf("edge sawn at %d°", k.angle)
	case part.Taper:
		return fmt.Sprintf("ripped to a taper, %s wide at one end and %s at the other", s.size(k.thick), s.size(k.thin))
	}
	return k.kind.String()
}

// passes says how a blade that is narrower than a groove saws it: in how many passes, and how far
// the fence is moved between them.
func (s *steps) passes(k setup) string {
	for _, t := range s.Practice.Tools {
		if t.ID != k.tool || t.Kerf == nil || *t.Kerf <= 0 || *t.Kerf >= k.wide {
			continue
		}
		n := int64((k.wide + *t.Kerf - 1) / *t.Kerf)
		move := (k.wide - *t.Kerf).DivNear(n - 1)
		if n == 2 {
			return fmt.Sprintf(", sawn in 2 passes: the fence moved by %s after the first", s.size(move))
		}
		return fmt.Sprintf(", sawn in %d passes: the fence moved by %s each time, and for the last so that it stands %s from where it began", n, s.size(move), s.size(k.wide-*t.Kerf))
	}
	return ""
}

// tool gives a tool's name as the practice calls it.
func (s *steps) tool(id string) string {
	for _, t := range s.Practice.Tools {
		if t.ID == id {
			return cmp.Or(t.Name, t.ID)
		}
	}
	return id
}

// count writes a number and what it counts.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func capital(t string) string {
	if t == "" {
		return t
	}
	return strings.ToUpper(t[:1]) + t[1:]
}
