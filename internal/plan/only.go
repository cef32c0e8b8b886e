package plan

import (
	"regexp"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
)

// kept reports whether an owner is of what is wanted.
func (w Want) kept(o part.Owner) bool {
	return (w.Owner == "" || o.ID == w.Owner) && (w.Stage == "" || o.Stage == w.Stage) && !o.Standing
}

// own keeps of what is found in a whole job what is said of the one owner or the stage that is wanted, of goods that are
// kept there, or of no owner: what stands beside it counts for it, and is not judged itself. What must be changed elsewhere
// stays for a stage, since the others are built to it, and what is found of what stands already.
func (r *Result) own(w Want) {
	if w.Owner+w.Stage == "" {
		return
	}
	keep, known := map[string]bool{}, map[string]bool{}
	for _, o := range r.Assembly.Owners {
		keep[o.ID], known[o.ID] = w.kept(o), !o.Standing || w.Owner != ""
	}
	others := func(at string) bool {
		kind, id, _ := strings.Cut(at, "/")
		id, _, _ = strings.Cut(id, "/")
		if kind == "goods" {
			return !slices.ContainsFunc(r.Stowed, func(s strength.Stowed) bool { return s.Goods == id && keep[s.Owner] })
		}
		return known[id] && !keep[id]
	}
	named := r.named(keep)
	var kept finding.List
	for _, f := range r.Findings {
		at := slices.DeleteFunc(append([]string{f.At}, f.Also...), others)
		switch {
		case len(at) > 0:
			f.At, f.Also = at[0], at[1:]
		case w.Owner == "" && f.Severity == finding.Error:
		case !named.MatchString(f.Text):
			continue
		}
		kept = append(kept, f)
	}
	r.Findings = kept
}

// named finds owners in what is said of others: by their names, or by the mark of a part of theirs.
func (r *Result) named(keep map[string]bool) *regexp.Regexp {
	var names []string
	for _, o := range r.Assembly.Owners {
		if !keep[o.ID] {
			continue
		}
		names = append(names, regexp.QuoteMeta(o.ID))
		if o.Name != "" {
			names = append(names, regexp.QuoteMeta(o.Name))
		}
		if i := slices.IndexFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Owner == o.ID }); i >= 0 {
			names = append(names, regexp.QuoteMeta(r.Assembly.Parts[i].Code()+".")+`\S`)
		}
	}
	return regexp.MustCompile(`(?i)(^|[^\pL\d])(` + strings.Join(names, "|") + `)($|[^\pL\d])`)
}

// only keeps one owner or one stage, once everything is judged as it stands among the others.
func (r *Result) only(w Want) {
	keep := map[string]bool{}
	for _, o := range r.Assembly.Owners {
		keep[o.ID] = w.kept(o)
	}
	stands, all := r.before(w), r.Assembly
	r.Assembly = part.Only(all, func(owner string) bool { return keep[owner] })
	r.Assembly.Owners, r.Assembly.Motions = nil, nil // these in their order, with what stands
	at := func(id string) int {
		return slices.IndexFunc(stands, func(o part.Owner) bool { return o.ID == id })
	}
	for _, o := range all.Owners {
		if i := at(o.ID); i >= 0 {
			o = stands[i]
		} else if !keep[o.ID] {
			continue
		}
		r.Assembly.Owners = append(r.Assembly.Owners, o)
	}
	if w.Owner != "" {
		r.alone(keep, func(id string) bool { return at(id) >= 0 })
	}
	for _, m := range all.Motions { // its doors and drawers move among the others
		if keep[m.Owner] || at(m.Owner) >= 0 {
			r.Assembly.Motions = append(r.Assembly.Motions, m)
		}
	}
}

// alone leaves out of one owner what joins it to others that are not there, and the stages that bring these.
func (r *Result) alone(keep map[string]bool, stands func(owner string) bool) {
	gone := func(id string) bool { _, known := keep[id]; return known && !keep[id] && !stands(id) }
	r.Assembly.Fixings = slices.DeleteFunc(r.Assembly.Fixings, func(f part.Fixing) bool { return f.Kind == part.ToCase && gone(f.Stud) })
	r.Assembly.Hardware = slices.DeleteFunc(r.Assembly.Hardware, func(h part.Item) bool {
		other, joins := strings.CutPrefix(h.For, part.Joins)
		return joins && gone(other)
	})
	r.Stages = slices.DeleteFunc(slices.Clone(r.Stages), func(stage string) bool {
		return !slices.ContainsFunc(r.Assembly.Owners, func(o part.Owner) bool { return keep[o.ID] && o.Stage == stage })
	})
}

// before gives what stands already: what stood there from the first, at the wall of one owner alone, and what stages
// before the one that is set up have built.
func (r *Result) before(w Want) (stands []part.Owner) {
	now, wall := slices.Index(r.Stages, w.Stage), ""
	for _, o := range r.Assembly.Owners {
		if o.ID == w.Owner {
			wall = o.Wall
		}
	}
	for _, o := range r.Assembly.Owners {
		if w.Owner != "" && (!o.Standing || o.Wall != wall) {
			continue
		}
		if at := slices.Index(r.Stages, o.Stage); o.Standing || at < now && o.Stage != w.Stage {
			o.Standing = true
			if i := slices.IndexFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Owner == o.ID }); i >= 0 {
				o.Code = r.Assembly.Parts[i].Code()
			}
			stands = append(stands, o)
		}
	}
	return stands
}
