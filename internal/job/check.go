package job

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/schema"
	"stowright/internal/source"
	"stowright/internal/stock"
)

// check looks at what the words mean together and makes the Checked.
func (r *reader) check() Checked {
	f := &r.file
	c := Checked{
		File: *f, Name: f.Name, Unit: unitOf(f.Unit), Print: unitOf(f.Print), Both: f.Print == "both", Catalogue: f.catalogue(),
		Runs: named(f.Runs), Counters: named(f.Counters), Hutches: named(f.Hutches), Bases: named(f.Bases), Walls: named(f.Walls),
		Standing: named(f.Standing), Machines: named(f.Machines), Families: named(f.Families),
	}
	if c.Both {
		c.Print = c.Unit
	}
	c.Goods = c.Catalogue.Goods
	c.Practice = f.Practice.Practice
	c.Practice.Paper = f.Print
	for _, t := range f.Practice.Tools {
		t.Value.ID = t.Key
		c.Practice.Tools = append(c.Practice.Tools, t.Value)
	}
	r.keys()
	r.accepted()
	r.stock()
	r.practiceSizes()
	r.goodsListed()
	r.walls()
	r.room()
	r.standing()
	r.runs()
	kinds := map[string]bool{}
	for _, m := range r.cases {
		c.Cases = append(c.Cases, r.checkedCase(m, c.Practice))
		fittingsIn(m.value.Inside.Fitting.Kind, kinds)
		r.inside(m.tree.Get("inside"), kinds)
	}
	for k := range kinds {
		c.Fittings = append(c.Fittings, k)
	}
	order.Up(c.Fittings)
	for _, k := range r.file.Kept {
		if _, ok := r.file.Cases.Get(k.Key); !ok {
			var names []string
			for _, c := range r.file.Cases {
				names = append(names, c.Key)
			}
			hint := "name a case of this job"
			if near := source.Nearest(k.Key, names); near != "" {
				hint = fmt.Sprintf("did you mean %q?", near)
			}
			r.fail(k.At.Span, fmt.Sprintf("kept: no case is called %q", short(k.Key)), hint)
		}
	}
	r.placed()
	r.leaveOut(&c)
	return c
}

func fittingsIn(kind string, kinds map[string]bool) {
	if kind != "" {
		kinds[kind] = true
	}
}

// inside collects the kinds of fitting of a tree of bays and says what a bay can not be.
func (r *reader) inside(n *source.Node, kinds map[string]bool) {
	if n == nil || n.Kind != source.Map {
		return
	}
	var fills []source.Entry
	for _, e := range n.Entries {
		key := source.Normal(e.Key)
		k, isFitting := r.kinds.Find(key, "bay")
		switch {
		case isFitting:
			kinds[k.Name] = true
			fills = append(fills, e)
		case key == "across" || key == "up":
			fills = append(fills, e)
			for _, k := range [...]string{"load", "ballast"} {
				if at := n.Get(k); at != nil {
					r.fail(at.Span, k+" is said of a bay that is split into others", "say it of each of the bays in it that "+map[string]string{"load": "hold something", "ballast": "have some on their floor"}[k])
				}
			}
			if e.Value.Kind == source.List && len(e.Value.Items) == 0 {
				r.fail(e.KeySpan, "a bay is split into no bays", "list its bays, or leave the key out")
			}
			for _, i := range e.Value.Items {
				r.inside(i, kinds)
			}
		case key == "doors":
			for _, side := range [...]string{"left", "right"} {
				for _, rack := range itemsOf(e.Value.Get(side)) {
					r.rack(rack, kinds)
				}
			}
		}
	}
	if len(fills) > 1 && (source.Normal(fills[0].Key) == "across" || source.Normal(fills[0].Key) == "up" || source.Normal(fills[1].Key) == "across" || source.Normal(fills[1].Key) == "up") {
		r.problems.Add(source.Problem{Span: fills[1].KeySpan, Text: fmt.Sprintf("a bay has %s already, and cannot have %s too", fills[0].Key, fills[1].Key),
			Hint: "put one of the two inside a bay of the other", Also: []source.Also{{Span: fills[0].KeySpan, Text: "the first is here"}}})
	}
}

func itemsOf(n *source.Node) []*source.Node {
	if n == nil {
		return nil
	}
	return n.Items
}

func (r *reader) rack(n *source.Node, kinds map[string]bool) {
	found := false
	for _, e := range entries(n) {
		if k, ok := r.kinds.Find(source.Normal(e.Key), "door"); ok {
			kinds[k.Name] = true
			found = true
		}
	}
	if !found && n.Kind == source.Map {
		r.fail(n.Span, "a rack on a door has no fitting", "name one of "+strings.Join(r.on("door"), ", "))
	}
}

// on gives the names of the fittings for a place.
func (r *reader) on(where string) []string {
	var l []string
	for _, k := range r.kinds {
		if string(k.Where) == where {
			l = append(l, k.Name)
		}
	}
	return l
}

func named[T any](m schema.Map[T]) []Named[T] {
	r := make([]Named[T], 0, len(m))
	for _, e := range m {
		r = append(r, Named[T]{e.Key, e.At, e.Value})
	}
	return r
}

// keys checks the names that a maker gives: what stands in the room shares one list of names,
// since findings and marks speak of it by name.
func (r *reader) keys() {
	first := map[string]source.Span{}
	for _, section := range [...]string{"cases", "counters", "hutches", "bases", "standing", "runs", "machines", "walls", "goods", "patterns", "families", "boards", "sticks", "hardware"} {
		from := r.own
		if slices.Contains([]string{"goods", "patterns", "families", "boards", "sticks", "hardware"}, section) {
			from = r.tree // a library of the maker's own may have them
		}
		for _, e := range entries(from.Get(section)) {
			switch {
			case e.Key == "" || len(e.Key) > 40:
				r.fail(e.KeySpan, "a name has 1 to 40 letters", "choose a short name")
			case !isName(e.Key):
				r.fail(e.KeySpan, fmt.Sprintf("the name %q has a character that names cannot have", short(e.Key)), "begin with a letter or a digit and go on with letters, digits, spaces and dashes")
			}
			if slices.Contains([]string{"walls", "goods", "patterns", "families", "boards", "sticks", "hardware"}, section) {
				continue
			}
			was, twice := first[source.Normal(e.Key)]
			if twice {
				r.problems.Add(source.Problem{Span: e.KeySpan, Text: fmt.Sprintf("the name %q is used twice in this room", e.Key), Hint: "give each its own name",
					Also: []source.Also{{Span: was, Text: "the first is here"}}})
			} else {
				first[source.Normal(e.Key)] = e.KeySpan
			}
		}
	}
}

// isName reports whether a name can stand in findings, tables and files of lists: letters, digits and spaces, and after
// the first one some marks that no table or sheet of figures takes for its own.
func isName(s string) bool {
	for i, c := range s {
		switch {
		case unicode.IsLetter(c), unicode.IsDigit(c):
		case i > 0 && (unicode.IsMark(c) || strings.ContainsRune(" -_'’.,()&+°%#×", c)):
		default:
			return false
		}
	}
	return s != ""
}

// stock checks that what the job adds to the shelves of the shop is whole.
func (r *reader) stock() {
	need := func(section, id, key string, missing bool, eg string) {
		n := r.tree.Get(section).Get(id)
		if !missing || n == nil || n.Get(key) != nil {
			return
		}
		at := n.Span
		for _, e := range r.tree.Get(section).Entries {
			if e.Key == id {
				at = e.KeySpan
			}
		}
		r.fail(at, fmt.Sprintf("%s: %q is missing", id, key), fmt.Sprintf("add %s: %s", key, eg))
	}
	positive := func(section, id, key string, bad bool) {
		if n := r.tree.Get(section).Get(id).Get(key); bad && n != nil {
			r.fail(n.Span, fmt.Sprintf("%s of %s must be more than 0", key, id), "measure it, or leave it out where what is shipped is right")
		}
	}
	size := func(section, id, key string, l L, eg string) {
		need(section, id, key, l == 0, eg)
		positive(section, id, key, l <= 0)
	}
	for _, b := range r.file.Boards {
		size("boards", b.Key, "measures", b.Value.Thickness, "0.705 in")
		size("boards", b.Key, "length", b.Value.Length, "96 in")
		size("boards", b.Key, "width", b.Value.Width, "48 in")
		need("boards", b.Key, "material", b.Value.Material == "", "fir-plywood")
		if b.Value.Length > 0 && b.Value.Width > 0 {
			for i, o := range b.Value.Offcuts {
				if o.Length <= 0 || o.Width <= 0 || max(o.Length, o.Width) > max(b.Value.Length, b.Value.Width) || min(o.Length, o.Width) > min(b.Value.Length, b.Value.Width) {
					r.fail(r.tree.Get("boards").Get(b.Key).Get("offcuts").Items[i].Span, "this offcut is larger than a sheet, or nothing", "write its two sides")
				}
			}
			for i, d := range b.Value.Damaged {
				at := r.tree.Get("boards").Get(b.Key).Get("damaged").Items[i].Span
				if d.Length <= 0 || d.Width <= 0 || d.Length > b.Value.Length || d.Width > b.Value.Width {
					r.fail(at, "this damaged place is larger than the sheet, or nothing", "write its size along the sheet's length and width")
				}
				if i >= b.Value.OnHand {
					r.fail(at, "there are more damaged sheets than sheets on hand", fmt.Sprintf("on-hand counts damaged sheets too; it says %d", b.Value.OnHand))
				}
			}
		}
	}
	for _, s := range r.file.Sticks {
		size("sticks", s.Key, "thickness", s.Value.Thickness, "3/4 in")
		size("sticks", s.Key, "width", s.Value.Width, "1 1/2 in")
		size("sticks", s.Key, "length", s.Value.Length, "96 in")
	}
	for _, e := range r.file.Edgings {
		size("edgings", e.Key, "thickness", e.Value.Thickness, "1 mm")
	}
	for _, h := range r.file.Hardware {
		need("hardware", h.Key, "kind", h.Value.Kind == "", "screw, or another of those that `stowright help hardware` lists")
		if h.Value.Kind == "slide" {
			need("hardware", h.Key, "lengths", len(h.Value.Lengths) == 0, "[18 in]")
			need("hardware", h.Key, "side-room", h.Value.SideRoom == 0, "13 mm")
		}
	}
}

func (r *reader) goodsListed() {
	total := 0
	for _, g := range r.file.Goods {
		n := r.tree.Get("goods").Get(g.Key)
		v := g.Value
		if v.Count == 0 && n.Get("count") == nil {
			r.fail(g.At.Span, fmt.Sprintf("%s: \"count\" is missing", short(g.Key)), "add count: 12")
		}
		total += v.Count
		for _, s := range []struct {
			key string
			l   *L
		}{{"diameter", v.Dia}, {"width", v.Wide}, {"depth", v.Deep}, {"height", v.Tall}} {
			if s.l != nil && *s.l <= 0 {
				r.fail(n.Get(s.key).Span, fmt.Sprintf("%s of %s must be more than 0", s.key, short(g.Key)), "measure it as it is stored")
			}
		}
		if v.Dia != nil && (v.Wide != nil || v.Deep != nil) {
			r.fail(n.Get("diameter").Span, "round goods have a diameter and a height, others a width, a depth and a height", "keep the one or the other")
		}
		if v.Below != nil && v.Above != nil && *v.Below < *v.Above {
			r.fail(n.Get("below").Span, fmt.Sprintf("%s can be nowhere: no higher than this, and above what \"above\" says", short(g.Key)), "exchange above and below, or leave one out")
		}
	}
	if total > MostGoods {
		r.fail(r.tree.Get("goods").Span, fmt.Sprintf("%d things are listed; at most %d are read", total, MostGoods), "count boxes instead of what is in them")
	}
}

// Sizes of a case: anything beyond is a slip of the keyboard.
const (
	leastCase = 3 * length.Inch
	mostCase  = 5000 * length.MM
)

// spoiltGap says if a case names a gap to go in that could not be read.
func spoiltGap(m merged) bool {
	n := m.tree.Get("in-gap")
	return n != nil && n.Kind != source.Null && m.value.Gap == nil
}

// checkedCase fills in what the practice says and reports sizes that are not stated anywhere.
func (r *reader) checkedCase(m merged, p stock.Practice) CheckedCase {
	s := m.value.Spec
	kept, _ := r.file.Kept.Get(m.id)
	for _, k := range [...]struct{ to, from **L }{{&s.Width, &kept.Width}, {&s.Height, &kept.Height}, {&s.Depth, &kept.Depth}} {
		if *k.from != nil {
			*k.to = *k.from
		}
	}
	size := func(key, hint string, l *L) {
		n := m.tree.Get(key)
		switch {
		case l == nil && n == nil && m.value.Gap != nil && key != "width" && !(r.isNeighbour(m.value.Gap.Left) && r.isNeighbour(m.value.Gap.Right)):
			// said already: a neighbour that would say it is not known
		case l == nil && n == nil && spoiltGap(m):
			// said already: what is wrong with the gap that would say it
		case l == nil && n == nil && (r.lost(m) || key == "width" && m.tree.Get("steps") != nil):
			// said already: the family or pattern that would say it is not known
		case l == nil && n == nil:
			r.fail(m.at.Span, fmt.Sprintf("the %s of %s is not stated", key, m.id), hint)
		case l != nil && (*l < leastCase || *l > mostCase):
			at := m.at.Span
			if n != nil {
				at = n.Span
			}
			r.fail(at, fmt.Sprintf("a case cannot have a %s of %s", key, l.Exact(unitOf(r.file.Unit))), r.between(leastCase, mostCase))
		}
	}
	m.value.Spec = s // as stated, what follows is worked out
	if g := m.value.Gap; g != nil {
		top, deep := r.beside(g.Left)
		t, d := r.beside(g.Right)
		if s.Height == nil {
			s.Height = lesser(top, t)
		}
		if s.Depth == nil {
			s.Depth = lesser(deep, d)
		}
	}
	if m.tree != nil && m.tree.Kind == source.Map {
		size("width", "add width, or steps and a family with a width-step", s.Width)
		size("height", "add height, or a family with a top-line (wall-height for wall cases)", s.Height)
		size("depth", "add depth, or a family with a depth", s.Depth)
	}
	fill := func(to *string, from string) {
		if *to == "" {
			*to = from
		}
	}
	fill(&s.Joint, p.Joint)
	fill(&s.Back, p.Back)
	fill(&s.Top, p.Top)
	fill(&s.Board, p.Case)
	fill(&s.FrontBoard, p.FrontBoard)
	fill(&s.Name, m.id)
	if s.Level == "wall" {
		fill(&s.Hangs.Kind, "rail")
	} else {
		kind := "toe"
		switch {
		case r.onBase(m.id):
			kind = "base"
		case s.Loose == "rolls":
			kind = "castors"
		case s.Loose == "slides":
			kind = "floor"
		}
		if r.onBase(m.id) {
			s.Stands.Kind = "base"
		}
		fill(&s.Stands.Kind, kind)
	}
	stated := m.value.Spec
	m.value.Spec = s
	m.value.Width, m.value.Height, m.value.Depth = stated.Width, stated.Height, stated.Depth
	return CheckedCase{ID: m.id, At: m.at, Case: m.value, Spec: s, Family: m.value.Family}
}

// beside gives the top line and the depth of a neighbour of a gap, nil where it does not say.
func (r *reader) beside(id string) (top, depth *L) {
	if s, ok := r.file.Standing.Get(id); ok {
		return &s.Top, &s.Depth
	}
	for _, m := range r.cases {
		if m.id == id {
			return m.value.Height, m.value.Depth
		}
	}
	return nil, nil
}

func (r *reader) isNeighbour(id string) bool {
	_, stands := r.file.Standing.Get(id)
	_, built := r.file.Cases.Get(id)
	return stands || built
}

// lesser gives the smaller of two lengths, nil where one is not known.
func lesser(a, b *L) *L {
	if a == nil || b == nil {
		return nil
	}
	l := min(*a, *b)
	return &l
}

// lost reports whether a case names a family or pattern that is not known.
func (r *reader) lost(m merged) bool {
	family, pattern := text(m.tree.Get("family")), text(m.tree.Get("pattern"))
	return family != "" && r.tree.Get("families").Get(family) == nil || pattern != "" && r.tree.Get("patterns").Get(pattern) == nil
}

// onBase reports whether a separate base that is built is under a case.
func (r *reader) onBase(id string) bool {
	for _, b := range r.file.Bases {
		if slices.Contains(r.file.NotBuilt, b.Key) {
			continue
		}
		for _, u := range b.Value.Under {
			if u == id {
				return true
			}
			if run, ok := r.file.Runs.Get(u); ok {
				for _, e := range run.Order {
					if e.Case == id {
						return true
					}
				}
			}
		}
	}
	return false
}

// Shared gives the family of a case, and false when it is of none.
func (c Checked) Shared(of CheckedCase) (Family, bool) {
	for _, f := range c.Families {
		if f.ID == of.Family && f.ID != "" {
			return f.Value, true
		}
	}
	return Family{}, false
}

// PracticeFor gives the practice by which a case is built: the job's, with the hole rows of
// the case's family.
func (c Checked) PracticeFor(of CheckedCase) stock.Practice {
	p := c.Practice
	if f, ok := c.Shared(of); ok && f.HoleRows != nil {
		for _, s := range []struct {
			to   *L
			from *L
		}{{&p.GridPitch, f.HoleRows.Pitch}, {&p.GridFront, f.HoleRows.Front}, {&p.GridEnds, f.HoleRows.First}} {
			if s.from != nil {
				*s.to = *s.from
			}
		}
	}
	return p
}
