package strength

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/part"
)

// standOff is how far a rail may be packed off a wall before its anchors bend: by their own thickness (EN
// 1992-4, 6.2.2.3, from memory: no lever arm over bedding of up to half of it, or contact; here with hard
// packing beside each anchor, common practice, no source), mm.
func (s *Scene) standOff(f part.Fixing) float64 {
	if h, ok := s.Job.Catalogue.Item(f.Screw); ok && h.Dia > 0 {
		return mm(h.Dia)
	}
	return 0
}

// shallow says that an anchor ends in what lies before its wall, or too near to its face: it holds nothing that
// its maker has published.
func shallow(f part.Fixing) bool { return f.Kind == part.ToWall && f.Into < f.Least }

// anchored judges anchors in masonry or steel studs by their rating.
func (s *Scene) anchored(o *part.Owner, h hang, f *finding.List, unknown *blank) {
	at := s.at(o.ID, "")
	w, _ := s.wallOf(o.Wall)
	if w.Anchor == nil || w.Anchor.Shear == nil || w.Anchor.Tension == nil {
		unknown.add("the rating of the anchor in wall "+o.Wall, anchorHint, o.Name, at)
		return
	}
	if fact, find := s.unlined(o); fact != "" { // an anchor is in the wall by so much less
		unknown.add(fact, find, o.Name, at)
		return
	}
	carry, v, t := h.asked()
	least := part.Fixing{}
	if len(carry) > 0 { // the least deep of them
		least = slices.MinFunc(carry, func(a, b part.Fixing) int { return cmp.Compare(a.Into-a.Least, b.Into-b.Least) })
	}
	switch {
	case !shallow(least):
	case least.Into > 0 && w.Anchor.Into == nil:
		unknown.add(fmt.Sprintf("what an anchor of wall %s holds that is %s deep in it, less than half of its length,", o.Wall, s.long(mm(least.Into))),
			"Say the least depth that its maker rates it for, into: of the wall's anchor, or take a longer one.", o.Name, at)
		return
	default:
		x := verdict(finding.Finding{Code: WallFixing, At: at, Demand: mm(least.Least), Capacity: mm(least.Into), Unit: "mm", Source: "rating of the anchor: " + w.Anchor.Source}, finding.Error)
		x.Text = fmt.Sprintf("The anchors of %s reach %s into the wall; their rating counts from %s on.", o.Name, s.long(mm(least.Into)), s.long(mm(least.Least)))
		x.Working = append(h.from, x.Text)
		x.Hint = fmt.Sprintf("Take anchors at least %s longer, of kind: anchor under hardware:, with their rating under anchor: of the wall (ratio 1.00).", s.long(mm(least.Least-least.Into)))
		f.Add(x)
		return
	}
	if len(carry) > 0 {
		x := slices.MaxFunc(carry, func(a, b part.Fixing) int { return cmp.Compare(a.Packing, b.Packing) })
		if thick := s.standOff(x); mm(x.Packing) > thick {
			unknown.add(fmt.Sprintf("what an anchor of wall %s holds where the rail is packed %s off it, more than its own %s,", o.Wall, s.long(mm(x.Packing)), s.long(thick)),
				"An anchor is rated for what lies against the wall; standing off, it bends as well. Make the wall straight there: bed a board on it in mortar or adhesive all over, or move the case.", o.Name, at)
			return
		}
	}
	shear, tension := newtons(w.Anchor.Shear.Kilograms()), newtons(w.Anchor.Tension.Kilograms())
	worst, which := -1.0, 0
	for i := range v {
		if r := v[i]/shear + t[i]/tension; r > worst {
			worst, which = r, i
		}
	}
	x := verdict(finding.Finding{Code: WallFixing, At: at, Demand: worst, Capacity: 1, Unit: "of its rating", Source: "rating of the anchor: " + w.Anchor.Source + "; shear and tension added"}, finding.Error)
	x.Working = append(h.from, fmt.Sprintf("The most loaded of %d anchors takes %s down and %s out.", len(v), s.force(v[which]), s.force(t[which])),
		fmt.Sprintf("%s / %s + %s / %s = %.2f.", s.force(v[which]), s.force(shear), s.force(t[which]), s.force(tension), worst))
	x.Text = fmt.Sprintf("The most loaded anchor of %s (%s with what is in it) takes %s down and %s out, %.2f of its rating.", o.Name, s.kg(h.all.kg), s.force(v[which]), s.force(t[which]), worst)
	if x.Verdict == finding.Fails {
		x.Hint = hint(append(s.lessIn(h, worst),
			fmt.Sprintf("take anchors whose maker gives them a shear of %s and a tension of %s or more, anchor: of the wall (ratio 1.00)", s.kg(w.Anchor.Shear.Kilograms()*worst), s.kg(w.Anchor.Tension.Kilograms()*worst))))
	}
	f.Add(x)
}

// bearsOff is how far off the wall the lower edge of a case without a lower rail may stand and still count as
// bearing on it, mm: common practice, no source.
const bearsOff = 3.0

// unborne is how far the wall falls back behind the lower edge of a case that has no lower rail, at the screws of
// its upper one, mm; 0 where it has one.
func (s *Scene) unborne(o *part.Owner, h hang) float64 {
	w := s.Room.Wall(o.Wall)
	if w == nil || h.cleat || h.ledger || len(h.low) > 0 {
		return 0
	}
	off := 0.0
	for _, x := range h.upper {
		off = math.Max(off, mm(w.Face(x.At.X, o.Carcass.Min.Z)-o.Carcass.Max.Y))
	}
	return off
}
