package papertest

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Step is one numbered step of the work.
type Step struct {
	N     int
	Text  string
	Tool  string         // of boring
	Shop  bool           // sawing, boring: nothing is put together
	Each  int            // how many are made by it: of drawers that are alike, times cases that are
	Marks []string       // in the order they are named, each once
	Fits  map[string]int // hardware by its name on the shopping list
	Page  int
	units []string // figures of the drawers or trays that it builds alike, the told one first
	like  []string // codes of the cases that its chapter builds, where those are several
}

// Thing is one line of the shopping list, all stages together.
type Thing struct {
	Name  string
	Need  int // -1 for what is not counted: lengths and areas
	Lines int // stages that it is bought for
}

var (
	stepLine  = regexp.MustCompile(`^(\d+)\. [A-Za-z]`)
	rowNumber = regexp.MustCompile(`^(\d+)\.$`)
	cutNumber = regexp.MustCompile(`^(\d+)(?:–(\d+))?$`)
	toldBy    = regexp.MustCompile(`^\d+\. (.*), (\d+) alike, told with the marks of \S+ (\d+): `)
	eachOf    = regexp.MustCompile(`^\d+\. Each of these \d+: `)
	figures   = regexp.MustCompile(`\d+`)
	twinHead  = regexp.MustCompile(`^([A-Za-z0-9 ]+), .*: (\d+) alike: putting it together$`)
	bySheet   = regexp.MustCompile(`^\d+\. Sheet (\d+), `)
	markWord  = regexp.MustCompile(`\b[A-Z][A-Za-z0-9]*\.[0-9]*[A-Za-z][0-9A-Za-z]*\b`)
	continued = regexp.MustCompile(`^Step (\d+), continued:$`)
	sparing   = regexp.MustCompile(`(\d+) % of screws, pins and dowels to spare`)
)

// steps finds the numbered steps wherever they stand: below their pictures, in lists, and in
// the table of boring.
func (r *reader) steps(things []Thing) []Step {
	names := make([]string, 0, len(things))
	for _, t := range things {
		names = append(names, t.Name)
	}
	slices.SortFunc(names, func(a, b string) int { return cmp.Compare(len(b), len(a)) })
	var out []Step
	var heads []headed
	var at []run // where each step begins that is no row of a table
	for _, list := range r.runs {
		r.sheets(list)
		out = append(out, r.boring(list)...)
		out = append(out, r.sticks(list)...)
		read := map[run]bool{} // lines of a step that is read already
		for _, s := range list {
			if s.high() > 18 && unicode.IsUpper(rune(s.text[0])) && !read[s] { // no figures that read upwards
				head := text(below(list, s, nil))
				if m := twinHead.FindStringSubmatch(head); m != nil {
					like := strings.Fields(m[1])
					if n, _ := strconv.Atoi(m[2]); n != len(like) {
						r.fault(s.page, "%q counts %d and names %d", head, n, len(like))
					}
					heads = append(heads, headed{s, 0, like})
				} else if s.high() > 22 || strings.HasSuffix(head, ": putting it together") {
					heads = append(heads, headed{s, 0, nil})
				}
			}
			m := stepLine.FindStringSubmatch(s.text)
			if m == nil || read[s] || within(list, s) {
				continue
			}
			n, _ := strconv.Atoi(m[1])
			next := strconv.Itoa(n+1) + ". "
			lines, where, then := r.paragraph(list, s, func(x run) bool { return strings.HasPrefix(x.text, next) })
			for _, l := range lines {
				read[l] = true
			}
			t := text(lines)
			t += " " + points(where, then, s, lines[len(lines)-1])
			out = append(out, Step{N: n, Text: strings.TrimSpace(t), Page: s.page})
			s.text = m[1]
			at = append(at, s)
		}
	}
	slices.SortStableFunc(out, func(a, b Step) int { return cmp.Compare(a.N, b.N) })
	r.goOn(out)
	for i := range heads {
		heads[i].lead(at)
	}
	var units []string // first the one whose marks are told
	for i := range out {
		s := &out[i]
		s.Each = 1
		last := 0
		for _, h := range heads {
			if h.first > 0 && h.first >= last && h.first <= s.N {
				last, s.like = h.first, h.like
			}
		}
		switch m := toldBy.FindStringSubmatch(s.Text); {
		case m != nil:
			units = append([]string{m[3]}, slices.DeleteFunc(figures.FindAllString(m[1], -1), func(n string) bool { return n == m[3] })...)
			if k, _ := strconv.Atoi(m[2]); k != len(units) {
				r.fault(s.Page, "step %d counts %d alike and names %d", s.N, k, len(units))
			}
		case !eachOf.MatchString(s.Text):
			units = nil
		}
		if m := bySheet.FindStringSubmatch(s.Text); m != nil {
			if n, _ := strconv.Atoi(m[1]); n >= 1 && n <= len(r.free) {
				s.Marks, s.Shop = r.free[n-1], true
			}
		}
		if s.Marks == nil {
			for _, m := range markWord.FindAllString(s.Text, -1) {
				if r.parts[m] != nil && !slices.Contains(s.Marks, m) {
					s.Marks = append(s.Marks, m)
				}
			}
		}
		if len(units) > 1 {
			s.Each, s.units = len(units), slices.Clone(units)
			for _, m := range slices.Clone(s.Marks) {
				code, local, _ := strings.Cut(m, ".")
				if rest, ok := strings.CutPrefix(local, units[0]); ok {
					for _, n := range units[1:] {
						s.Marks = append(s.Marks, code+"."+n+rest)
					}
				}
			}
		}
		if len(s.like) > 1 { // cases that are built alike
			for _, m := range slices.Clone(s.Marks) {
				if local, ok := strings.CutPrefix(m, s.like[0]+"."); ok {
					for _, code := range s.like[1:] {
						s.Marks = append(s.Marks, code+"."+local)
					}
				}
			}
			s.Each *= len(s.like)
		}
		s.Fits = r.fits(*s, names)
	}
	return out
}

// headed is a heading over steps, the first of them, and the codes of the cases that they build alike.
type headed struct {
	at    run
	first int
	like  []string
}

// lead finds the first step under a heading: below it, in its column or one at the right of it.
func (h *headed) lead(steps []run) {
	for _, s := range steps {
		if n, _ := strconv.Atoi(s.text); s.page == h.at.page && s.y1 > h.at.y1 && s.x0 > h.at.x0-5 && (h.first == 0 || n < h.first) {
			h.first = n
		}
	}
}

var (
	ofSheets = regexp.MustCompile(`^Sheet (\d+) of (\d+): `)
	offcuts  = regexp.MustCompile(`^(\d+ offcuts?|scrap(, of this size)?|sheet \d+)$`)
)

// sheets reads which parts come free from every sheet, from the tables of cuts.
func (r *reader) sheets(list []run) {
	for i, h := range list {
		if m := ofSheets.FindStringSubmatch(h.text); m != nil && h.high() > 16 {
			r.sheet, _ = strconv.Atoi(m[1])
			for len(r.free) < r.sheet {
				r.free = append(r.free, nil)
			}
		}
		if h.text != "Cuts" || i+4 >= len(list) || list[i+1].text != "Work" || list[i+4].text != "Comes free" || r.sheet == 0 {
			continue
		}
		free, last, cell := list[i+4].x0, h.y1, ""
		done := func() {
			for _, g := range strings.Split(cell, ";") {
				if g = strings.TrimSpace(g); g == "" || offcuts.MatchString(g) {
					continue
				}
				m, err := marks(g)
				if err != nil {
					r.fault(h.page, "%v", err)
				}
				r.free[r.sheet-1] = append(r.free[r.sheet-1], m...)
			}
			cell = ""
		}
		for j := i + 5; j < len(list); j++ {
			c := list[j]
			if c.x1 < h.x0-9 { // of the picture beside the table
				continue
			}
			if c.y1-last > 2*lineStep || c.high() > h.high()+1 || c.x1 > free+2 && c.x0 < free-60 {
				break
			}
			last = c.y1
			switch {
			case near(c.x0, h.x0) && cutNumber.MatchString(c.text):
				done()
			case c.x0 > free-1.2:
				cell = strings.TrimSpace(cell + " " + c.text)
			}
		}
		done()
	}
}

// after gives the lines of the page that follows.
func (r *reader) after(list []run) []run {
	if len(list) == 0 || list[0].page >= len(r.runs) { // pages count from 1
		return nil
	}
	return r.runs[list[0].page]
}

// within tells whether a line goes on with a paragraph above it.
func within(list []run, s run) bool {
	return slices.ContainsFunc(list, func(x run) bool {
		return near(x.x0, s.x0) && near(x.high(), s.high()) && x.y1 < s.y1-2 && s.y1-x.y1 < lineStep
	})
}

// paragraph gives the lines from one on, over the end of its page where they go on there; the
// page that its last line is on, and the page after that.
func (r *reader) paragraph(list []run, first run, stop func(run) bool) (lines, on, then []run) {
	lines, on, then = below(list, first, stop), list, r.after(list)
	if last := lines[len(lines)-1]; last.y1 <= list[len(list)-1].y1-2 || len(then) == 0 {
		return lines, on, then
	}
	if n := then[0]; near(n.x0, first.x0) && near(n.high(), first.high()) && !stepLine.MatchString(n.text) && (stop == nil || !stop(n)) {
		return append(lines, below(then, n, stop)...), then, r.after(then)
	}
	return lines, on, then
}

// goOn adds what steps say further on in another column, under "Step 80, continued:".
func (r *reader) goOn(steps []Step) {
	for _, list := range r.runs {
		for _, x := range list {
			m := continued.FindStringSubmatch(x.text)
			if m == nil {
				continue
			}
			n, _ := strconv.Atoi(m[1])
			i := slices.IndexFunc(steps, func(s Step) bool { return s.N == n })
			if i < 0 {
				r.fault(x.page, "step %d goes on and never began", n)
				continue
			}
			steps[i].Text += " " + text(below(list, x, nil)[1:])
		}
	}
}

// points gives the lines with a dash that stand under the last line of a step, on the next page
// too where they go on there.
func points(list, next []run, s, last run) string {
	var out []string
	for {
		found := false
		y := last.y1
		for _, x := range list {
			if x.y1 > y+2 && x.y1-y < lineStep+2 && x.x0 > s.x0+2 && x.x0 < s.x0+40 && near(x.high(), s.high()) {
				if !found && len(out) == 0 && x.text != "–" {
					return ""
				}
				out = append(out, x.text)
				last, found = x, true
			}
		}
		if found {
			continue
		}
		if len(list) > 0 && last.y1 > list[len(list)-1].y1-2 && len(next) > 0 && next[0].x0 > s.x0+2 && next[0].x0 < s.x0+40 && near(next[0].high(), s.high()) {
			last = next[0]
			last.y1 -= lineStep
			list, next = next, nil
			continue
		}
		return strings.Join(out, " ")
	}
}

// boring reads the table of boring: a step to every setting of a tool.
func (r *reader) boring(list []run) (out []Step) {
	for i, h := range list {
		if h.text != "Step" || i+3 >= len(list) || list[i+1].text != "Tool" || list[i+2].text != "Work" || list[i+3].text != "Parts" {
			continue
		}
		tool, work, parts := list[i+1].x0, list[i+2].x0, list[i+3].x0
		last := h.y1
		var now *Step
		var who string
		done := func() {
			if now == nil {
				return
			}
			m, err := marks(who)
			if err != nil {
				r.fault(h.page, "step %d: %v", now.N, err)
			}
			now.Marks = m
			out = append(out, *now)
			now, who = nil, ""
		}
		for j := i + 4; j < len(list); {
			y := list[j].y1
			if y-last > 2*lineStep || list[j].high() > h.high()+1 || list[j].x1 > parts && list[j].x0 < work {
				break
			}
			last = y
			for ; j < len(list) && near(list[j].y1, y); j++ {
				c := list[j]
				switch {
				case near(c.x1, h.x1) && rowNumber.MatchString(c.text):
					done()
					n, _ := strconv.Atoi(strings.TrimSuffix(c.text, "."))
					now = &Step{N: n, Shop: true, Page: h.page}
				case now == nil:
				case c.x0 > parts-1.2:
					who = strings.TrimSpace(who + " " + c.text)
				case c.x0 > tool-1.2 && c.x0 < work-1.2:
					now.Tool = strings.TrimSpace(now.Tool + " " + c.text)
				case c.x0 > work-1.2:
					now.Text = strings.TrimSpace(now.Text + " " + c.text)
				}
			}
		}
		done()
	}
	return out
}

// sticks reads the table of what is crosscut from sticks: a step to every stick.
func (r *reader) sticks(list []run) (out []Step) {
	for i, h := range list {
		if h.text != "Step" || i+3 >= len(list) || list[i+1].text != "Stick" || list[i+2].text != "Stock" || list[i+3].text != "Pieces" {
			continue
		}
		last := h.y1
		for _, c := range list[i+4:] {
			if c.y1-last > 2*lineStep || c.high() > h.high()+1 {
				break
			}
			last = c.y1
			switch {
			case near(c.x1, h.x1) && rowNumber.MatchString(c.text):
				n, _ := strconv.Atoi(strings.TrimSuffix(c.text, "."))
				out = append(out, Step{N: n, Shop: true, Page: h.page})
			case len(out) > 0 && c.x0 > list[i+3].x0-1.2:
				out[len(out)-1].Text += " " + c.text
			}
		}
	}
	return out
}

var times = regexp.MustCompile(`(\d+) × `)

// fits counts the hardware that a step names, by the names of the shopping list.
func (r *reader) fits(s Step, names []string) map[string]int {
	out := map[string]int{}
	for _, m := range times.FindAllStringSubmatchIndex(s.Text, -1) {
		n, _ := strconv.Atoi(s.Text[m[2]:m[3]])
		rest := s.Text[m[1]:]
		i := slices.IndexFunc(names, func(name string) bool { return strings.HasPrefix(rest, name) })
		if i < 0 {
			r.fault(s.Page, "step %d takes %d of what is not on the shopping list: %.40s", s.N, n, rest)
			continue
		}
		out[names[i]] += n * s.Each
	}
	return out
}

// shopping reads the shopping list, and how much of what comes in packs is to spare.
func (r *reader) shopping() (things []Thing, spare int) {
	at := map[string]int{}
	for _, list := range r.runs {
		for i, h := range list {
			if m := sparing.FindStringSubmatch(h.text); m != nil {
				spare, _ = strconv.Atoi(m[1])
			}
			if h.text != "Thing" || i+2 >= len(list) || list[i+1].text != "Needed" || list[i+2].text != "On hand" {
				continue
			}
			needed := list[i+1].x1
			last := h.y1
			name, need := "", ""
			done := func() {
				name, _, _ = strings.Cut(name, "; ") // what is said of a thing beside its name
				if need != "" && name != "" {
					n, err := strconv.Atoi(need)
					if err != nil {
						n = -1
					}
					k, ok := at[name]
					if !ok {
						k = len(things)
						at[name] = k
						things = append(things, Thing{Name: name})
					}
					things[k].Need += n
					things[k].Lines++
				}
				name, need = "", ""
			}
			for j := i + 3; j < len(list); {
				y := list[j].y1
				for list[j].x0 > h.x1+0 && j < len(list)-1 && near(list[j].y1, h.y1) {
					j++ // the rest of the heading
					y = list[j].y1
				}
				if y-last > 2*lineStep || list[j].high() > h.high()+1 {
					break
				}
				last = y
				var line []run
				for ; j < len(list) && near(list[j].y1, y); j++ {
					line = append(line, list[j])
				}
				fresh := slices.ContainsFunc(line, func(c run) bool { return near(c.x1, needed) })
				if fresh || strings.HasPrefix(line[0].text, "Stage ") || strings.HasPrefix(line[0].text, "In all, ") {
					done()
				}
				for _, c := range line {
					switch {
					case near(c.x1, needed):
						need = c.text
					case near(c.x0, h.x0):
						name = strings.TrimSpace(name + " " + c.text)
					}
				}
			}
			done()
		}
	}
	return things, spare
}
