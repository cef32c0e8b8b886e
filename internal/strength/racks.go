package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength/nds"
)

// RackScrews: a rack comes off its door, or its shelf off the rack's ends.
const RackScrews finding.Code = "rack-screws"

const rackSource = "statics; screws NDS 2018 12.3.1A (lateral), 12.2 (withdrawal, pull-through), 12.4 (combined), CD 0.9 (2.3.2)"

func racks() Rule {
	return Rule{Name: "racks", Codes: []finding.Code{RackScrews},
		Doc:     "What stands in a rack on a door goes by the screws through the rack's strips into the door: each takes the same share of the weight, and pulls by its height over the rack's lower edge, for the goods stand before the door. The shelf of a rack goes by its screws to the rack's ends.",
		Source:  rackSource,
		Example: "A rack of 60 kg on four screws.",
		Run:     checkRacks}
}

// rackOf is the rack that a board or a bay is of, by its name: "in-left-rack-2" of "in-left-rack-2-shelf"; "" for none.
func rackOf(name string) string {
	const mark = "-rack-"
	i := strings.Index(name, mark)
	if i < 0 {
		return ""
	}
	end := i + len(mark)
	for end < len(name) && name[end] >= '0' && name[end] <= '9' {
		end++
	}
	return name[:end]
}

// hung is one rack as it hangs on its door.
type hung struct {
	name   string // of the rack, as its boards are named
	own    float64
	in     load
	y, low float64 // the common centre of rack and goods, and its lower edge, in the frame of the wall, mm
	lacks  []string
	first  *part.Part
}

// racksOn are the racks that ride with a door.
func (s *Scene) racksOn(l leaf) (list []*hung) {
	at := func(name string) *hung {
		for _, r := range list {
			if r.name == name {
				return r
			}
		}
		r := &hung{name: name, low: math.Inf(1), in: load{known: true}}
		list = append(list, r)
		return r
	}
	weights := map[string][]body{}
	for _, p := range s.riding[l.front.Motion] {
		name := rackOf(p.Local)
		if name == "" {
			continue
		}
		r := at(name)
		if r.first == nil {
			r.first = p
		}
		r.low = math.Min(r.low, mm(p.Box().Min.Z))
		kg, ok := s.weight(p)
		if !ok {
			r.lacks = append(r.lacks, weightOf(p))
		}
		r.own += kg
		weights[name] = append(weights[name], centre(p.Box(), kg))
	}
	for _, b := range s.inside[l.front.Motion] {
		name := rackOf(strings.TrimPrefix(b.ID, b.Owner+"/"))
		for _, r := range list {
			if name != r.name {
				continue
			}
			x := s.loads[b.ID]
			r.lacks = append(r.lacks, x.lacks...)
			r.in.kg += x.kg
			r.in.assumed = r.in.assumed || x.assumed
			if r.in.from != "" {
				r.in.from += "; "
			}
			r.in.from += x.from
			weights[r.name] = append(weights[r.name], centre(b.Box, x.kg))
		}
	}
	for _, r := range list {
		r.y = sum(weights[r.name]).y
	}
	return list
}

func checkRacks(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: RackScrews, source: rackSource}
	for _, l := range s.leaves() {
		for _, r := range s.racksOn(l) {
			what := fmt.Sprintf("the rack with %s on %s", r.first.Mark, s.name(l.part))
			if len(r.lacks) > 0 {
				for _, x := range r.lacks {
					unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the rack.", what, s.at(r.first.Owner, r.first.Mark))
				}
				continue
			}
			s.onDoor(l, r, what, &f, &unknown)
			s.rackShelves(r, &f, &unknown)
		}
	}
	f.Add(unknown.findings("Whether a rack stays on its door", finding.Note)...)
	return f
}

// onDoor judges the screws of a rack in its door.
func (s *Scene) onDoor(l leaf, r *hung, what string, f *finding.List, unknown *blank) {
	at := s.at(r.first.Owner, r.first.Mark)
	type row struct {
		strip *part.Part
		joint *part.Joint
		z     float64 // over the rack's lower edge
	}
	var rows []row
	n, squares := 0, 0.0
	for _, j := range s.of(l.part.Owner).Joints {
		q := s.parts[j.B]
		if j.A != l.part.Mark || q == nil || rackOf(q.Local) != r.name || j.Count == 0 {
			continue
		}
		z := math.Max(mm(j.Contact.Min.Z+j.Contact.Max.Z)/2-r.low, 1)
		rows = append(rows, row{q, j, z})
		n += j.Count
		squares += float64(j.Count) * z * z
	}
	if n == 0 {
		unknown.add("what holds it to the door", "Give it a strip that is screwed to the door.", what, at)
		return
	}
	face := mm(l.part.Box().Max.Y) // the door's rear, on which the rack lies
	weight := newtons(r.own + r.in.kg)
	arm := math.Abs(r.y - face)
	door := s.wood(l.part, 2, false)
	worst, words, source := -1.0, []string(nil), ""
	var took, may float64
	for _, x := range rows {
		fast, long, ok := s.screw(x.joint.Fastener)
		w := s.wood(x.strip, 2, false)
		switch {
		case !ok || fast.Head <= 0:
			unknown.add("the size of screw "+x.joint.Fastener, "Give diameter, root, head and length of the screw under hardware:.", what, at)
			return
		case w.sg <= 0 || door.sg <= 0:
			lacks := w.what
			if w.sg > 0 {
				lacks = door.what
			}
			unknown.add("the specific gravity of "+lacks, "Give specific-gravity of its material under materials:.", what, at)
			return
		}
		thick := mm(x.strip.Size[2])
		into := math.Min(long-thick, mm(l.part.Size[2]))
		z, said, from, known := s.shearOf(fast, nds.Member{G: w.sg, Bearing: thick, Angle: 90}, door.sg, into, s.layered(x.strip) && s.layered(l.part), false)
		if !known {
			unknown.add(fmt.Sprintf("a published strength of a screw that reaches %s into a door of %s", s.long(math.Max(into, 0)), door.what), "Make the rack of a thinner board, board: of the rack, or the door of a thicker one of plywood, so that a longer screw goes in.", what, at)
			return
		}
		per, _ := fast.Withdrawal(door.sg)
		under := math.Max(thick-(fast.Head-fast.D)/2, 0) // a sunk head
		out := math.Min(per*into, nds.PullThrough(fast.Head, under, w.sg)) * float64(nds.Permanent)
		v, t := weight/float64(n), weight*arm*x.z/squares
		if ratio := fast.Ratio(v, t, z, out); ratio > worst {
			worst, source = ratio, from
			took, may = math.Hypot(v, t), math.Hypot(v, t)/ratio
			words = append(slices.Clone(said), fmt.Sprintf("Out: the lesser of withdrawal, %s × %s in %s, and the head of %s pulled through %s, × 0.9: %s.", s.perLong(per), s.exact(into), door.what, s.exact(fast.Head), s.exact(under), s.force(out)),
				fmt.Sprintf("Of %s each takes %s down; %s up, it is pulled with %s × %s × %s / %s = %s.", many(n, "screw"), s.force(v), s.exact(x.z), s.force(weight), s.exact(arm), s.exact(x.z), s.flat(squares), s.force(t)))
		}
	}
	x := verdict(finding.Finding{Code: RackScrews, At: at, Demand: took, Capacity: may, Unit: "N", Source: rackSource + "; " + source}, overload(worst, r.in.assumed))
	x.Text = fmt.Sprintf("The most loaded screw of %s into its door takes %s, for rack and goods weigh %s; it holds %s so.", what, s.force(took), s.kg(r.own+r.in.kg), s.force(may))
	x.Working = append([]string{"Load: " + r.in.from + fmt.Sprintf(": %s; the rack %s.", s.kg(r.in.kg), s.kg(r.own))}, append(words, fmt.Sprintf("Ratio %.2f.", x.Ratio()))...)
	if r.in.assumed {
		x.Working = append([]string{"Some of its load is assumed, by the practice."}, x.Working...)
	}
	if x.Verdict == finding.Fails {
		// Both shares go by the weight; its centre comes nearer to the door with less in it.
		if less := (r.own+r.in.kg)/worst - r.own; less > 0 {
			x.Hint = fmt.Sprintf("Put no more than %s in it (ratio 1.00).", s.atMost(less))
		}
	}
	f.Add(x)
}

// rackShelves judges the screws of a rack's boards in its ends: each end carries half of what stands on one.
func (s *Scene) rackShelves(r *hung, f *finding.List, unknown *blank) {
	seen := map[string]bool{}
	for _, j := range s.of(r.first.Owner).Joints {
		a, b := s.parts[j.A], s.parts[j.B]
		if b == nil || b.Role != part.RackShelf || rackOf(b.Local) != r.name || rackOf(a.Local) != r.name || a.Role == part.Rail || seen[b.Mark] || j.Count == 0 {
			continue
		}
		kg, _ := s.weight(b)
		in := load{known: true}
		for _, y := range s.of(b.Owner).Bays {
			if y.Floor == b.Mark {
				x := s.loads[y.ID]
				in.kg, in.assumed, in.from = in.kg+x.kg, in.assumed || x.assumed, x.from
			}
		}
		if in.kg <= 0 {
			continue
		}
		seen[b.Mark] = true
		at, name := s.at(b.Owner, b.Mark), s.name(b)
		h, fact, find := s.holdOf(*j, a, b)
		if fact != "" {
			unknown.add(fact, find, name, at)
			continue
		}
		push := newtons(kg+in.kg) / 2
		x := verdict(finding.Finding{Code: RackScrews, At: at, Demand: push, Capacity: h.all, Unit: "N", Source: h.source}, overload(push/h.all, in.assumed))
		x.Text = fmt.Sprintf("%s brings %s to each end of the rack by %s; %s can be counted on.", name, s.force(push), fastened(*j), s.force(h.all))
		x.Working = append([]string{"Load: " + in.from + ": " + s.kg(in.kg) + "."}, append(h.words, fmt.Sprintf("Half of %s: %s. Ratio %.2f.", s.kg(kg+in.kg), s.force(push), x.Ratio()))...)
		if x.Verdict == finding.Fails {
			if less := 2*h.all/newtons(1) - kg; less > 0 {
				x.Hint = fmt.Sprintf("Put no more than %s in it (ratio 1.00).", s.atMost(less))
			}
		}
		f.Add(x)
	}
}
