package job

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/source"
)

// leaveOut takes out of a checked job what it lists as not built, so that two ways of building stand in one file and
// one line says which: what is left out has been read and checked like the rest. A case that is left out of a run
// leaves its width empty; a run takes its cases with it.
func (r *reader) leaveOut(c *Checked) {
	if len(r.file.NotBuilt) == 0 {
		return
	}
	out := map[string]bool{}
	for _, id := range r.file.NotBuilt {
		out[id] = true
		if run, ok := r.file.Runs.Get(id); ok {
			for _, e := range run.Order {
				out[e.Case] = out[e.Case] || e.Case != ""
			}
		}
	}
	width := map[string]*L{}
	for _, x := range c.Cases {
		if x.Spec.Width == nil {
			continue
		}
		// Its end panels stand beside it.
		wide := *x.Spec.Width
		wide += c.EndPanel(x.Spec, "left") + c.EndPanel(x.Spec, "right")
		width[x.ID] = &wide
	}
	c.Cases = slices.DeleteFunc(c.Cases, func(x CheckedCase) bool { return out[x.ID] })
	c.Runs, c.Counters = kept(c.Runs, out), kept(c.Counters, out)
	c.Hutches, c.Bases = kept(c.Hutches, out), kept(c.Bases, out)
	needs := func(section, id, key, of string) {
		if !out[of] {
			return
		}
		at := r.tree.Get(section).Get(id)
		span := at.Span
		if n := at.Get(key); n != nil {
			span = n.Span
		}
		r.problems.Add(source.Problem{Span: span, Text: fmt.Sprintf("%s needs %s, which is not built", short(id), short(of)), Hint: "list both under not-built, or neither"})
	}
	for i := range c.Runs {
		run := &c.Runs[i].Value
		needs("runs", c.Runs[i].ID, "align-tops-with", run.Align)
		run.Order = slices.Clone(run.Order)
		for k, e := range run.Order {
			switch {
			case out[e.Case]:
				run.Order[k] = Entry{At: e.At, Space: width[e.Case]}
			case e.Knee != nil && out[e.Knee.For]:
				knee := *e.Knee
				knee.For = ""
				run.Order[k].Knee = &knee
			}
		}
	}
	rest := func(section, id, key string, list []string) []string {
		left := slices.DeleteFunc(slices.Clone(list), func(s string) bool { return out[s] })
		if len(left) == 0 && len(list) > 0 {
			needs(section, id, key, list[0])
		}
		return left
	}
	for i := range c.Counters {
		if out[c.Counters[i].Value.Butts] {
			c.Counters[i].Value.Butts = ""
		}
		c.Counters[i].Value.Over = rest("counters", c.Counters[i].ID, "over", c.Counters[i].Value.Over)
	}
	for i := range c.Bases {
		c.Bases[i].Value.Under = rest("bases", c.Bases[i].ID, "under", c.Bases[i].Value.Under)
	}
	for _, h := range c.Hutches {
		needs("hutches", h.ID, "on", h.Value.On)
		needs("hutches", h.ID, "up-to", h.Value.To)
	}
	for _, x := range c.Cases {
		needs("cases", x.ID, "knee-space", x.Case.Rolls)
		if g := x.Case.Gap; g != nil {
			needs("cases", x.ID, "in-gap", g.Left)
			needs("cases", x.ID, "in-gap", g.Right)
		}
	}
	// What is accepted of them waits until they are built, and goods that only they would hold have no place.
	c.File.Accept = slices.DeleteFunc(slices.Clone(c.File.Accept), func(a Accepted) bool {
		_, id, _ := strings.Cut(a.Place, "/")
		id, _, _ = strings.Cut(id, "/")
		return out[id]
	})
	c.Goods = slices.Clone(c.Goods)
	for i := range c.Goods {
		if id, _, _ := strings.Cut(c.Goods[i].Place, "/"); out[id] {
			c.Goods[i].Place = ""
		}
	}
}

// kept gives a list without what is left out.
func kept[T any](list []Named[T], out map[string]bool) []Named[T] {
	return slices.DeleteFunc(slices.Clone(list), func(n Named[T]) bool { return out[n.ID] })
}
