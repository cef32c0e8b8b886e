package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/order"
	"stowright/internal/part"
)

// Alike gives, for every owner that is built, the first owner that is built exactly like it in the
// same stage: the same boards, worked alike, in the same places, with the same hardware. What is
// put on when things stand at the wall does not count.
func Alike(a *part.Assembly) map[string]string {
	out := map[string]string{}
	parts, things := map[string][]part.Part{}, map[string][]part.Item{}
	for _, p := range a.Parts {
		parts[p.Owner] = append(parts[p.Owner], p)
	}
	for _, h := range a.Hardware {
		if !atWall(h) {
			things[h.Owner] = append(things[h.Owner], part.Item{ID: h.ID, Kind: h.Kind, Count: h.Count, Length: h.Length, For: h.For})
		}
	}
	var firsts []part.Owner
	for _, o := range a.Owners {
		if o.Standing {
			continue
		}
		order.Stable(things[o.ID], func(a, b part.Item) int {
			return cmp.Or(cmp.Compare(a.ID, b.ID), cmp.Compare(a.For, b.For), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Count, b.Count), cmp.Compare(a.Length, b.Length))
		})
		i := slices.IndexFunc(firsts, func(f part.Owner) bool {
			d := f.Carcass.Min.Sub(o.Carcass.Min)
			return f.Kind == o.Kind && f.Stage == o.Stage && slices.Equal(things[f.ID], things[o.ID]) &&
				slices.EqualFunc(parts[f.ID], parts[o.ID], func(p, q part.Part) bool { return same(p, q, d) })
		})
		if i < 0 {
			i, firsts = len(firsts), append(firsts, o)
		}
		out[o.ID] = firsts[i].ID
	}
	return out
}

// same tells whether a part is another one, whose owner stands elsewhere by d.
func same(p, q part.Part, d geom.Vec) bool {
	return p.Local == q.Local && p.Role == q.Role && p.Name == q.Name && p.Material == q.Material && p.Stock == q.Stock &&
		p.Size == q.Size && p.Grain == q.Grain && p.Bands == q.Bands && p.Pose == q.Pose.Shift(d) &&
		(p.Moves != "") == (q.Moves != "") && p.Removable == q.Removable && slices.Equal(p.Ops, q.Ops)
}

// share has the steps from a place on serve owners that are built like the first: they bring in
// the boards of all and take the hardware of all.
func (s *steps) share(from int, twins []part.Owner) {
	for i := from; i < len(s.list); i++ {
		st := &s.list[i]
		one := *st
		st.New, st.Parts, st.Fits = slices.Clone(one.New), slices.Clone(one.Parts), slices.Clone(one.Fits)
		for _, t := range twins {
			st.Also = append(st.Also, t.ID)
			st.New = append(st.New, s.twin(one.New, t.ID)...)
			st.Parts = append(st.Parts, s.twin(one.Parts, t.ID)...)
			for _, f := range one.Fits {
				if n := s.draw(t.ID, f.ID, f.Count, func(h part.Item) bool { return !atWall(h) }); n > 0 {
					st.Fits = fit(st.Fits, f.ID, n)
				}
			}
		}
	}
}

// twin gives the marks of another owner's boards that are those of a list.
func (s *steps) twin(marks []string, other string) []string {
	var out []string
	for _, m := range marks {
		if t, ok := s.local[[2]string{other, s.parts[m].Local}]; ok {
			out = append(out, t)
		}
	}
	return out
}

// telling is the bench steps of one owner, which others may share whose own would read alike.
type telling struct {
	from, to int
	stage    string
	words    string
	owners   []part.Owner // whose bench steps these are
}

// tellOnce has the steps of an owner from a place on told by those of one before it that read alike, mark for mark, in the
// same stage: these then serve both. How long the bolts of feet may be is told for each of them.
func (s *steps) tellOnce(told []telling, from int, owners []part.Owner) []telling {
	now := telling{from, len(s.list), owners[0].Stage, s.words(from, owners), owners}
	if now.from == now.to {
		return told
	}
	for k, t := range told {
		if t.stage != now.stage || t.words != now.words {
			continue
		}
		one, _ := s.bolts(t.owners)
		told[k].owners = append(t.owners, owners...)
		all, _ := s.bolts(told[k].owners)
		for i, x := range s.list[from:] {
			st := &s.list[t.from+i]
			st.Also = append(append(st.Also, x.Owner), x.Also...)
			st.New, st.Parts, st.Hidden = append(st.New, x.New...), append(st.Parts, x.Parts...), append(st.Hidden, x.Hidden...)
			for _, f := range x.Fits {
				st.Fits = fitted(st.Fits, f)
			}
			if j := slices.Index(st.Points, one); j >= 0 && one != "" {
				st.Points = slices.Clone(st.Points)
				st.Points[j] = all
			}
		}
		s.list = s.list[:from]
		return told
	}
	return append(told, now)
}

// words gives what the steps of owners that are told together say from a place on, without the letter of their marks and
// how long the bolts of their feet may be.
func (s *steps) words(from int, owners []part.Owner) string {
	bolts, _ := s.bolts(owners)
	var t strings.Builder
	for _, st := range s.list[from:] {
		points := slices.DeleteFunc(slices.Clone(st.Points), func(p string) bool { return p == bolts })
		t.WriteString(fmt.Sprintln(st.Phase, st.Tool, st.Text, points, st.Caution, len(st.Also)))
	}
	parts := s.whose.Of(owners[0].ID).Parts
	if len(parts) == 0 {
		return t.String()
	}
	return unlettered(t.String(), parts[0].Code())
}

// unlettered takes an owner's letter out of the marks in a text: "A.left" becomes "@.left" and "BA.left" stays.
func unlettered(text, letter string) string {
	if letter == "" {
		return text
	}
	var out strings.Builder
	for {
		before, after, found := strings.Cut(text, letter+".")
		out.WriteString(before)
		if !found {
			return out.String()
		}
		if n := len(before); n > 0 && word(before[n-1]) {
			out.WriteString(letter)
		} else {
			out.WriteByte('@')
		}
		out.WriteByte('.')
		text = after
	}
}
