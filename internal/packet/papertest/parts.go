package papertest

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Op is one working of a part. Sizes are mm from the datum corner; Depth is negative for
// through. Faces are called as paper calls them: "inside face", "lower end"; a pocket to either end
// or edge goes towards the "start end" or the "far end", the "face edge" or the "far edge".
type Op struct {
	Kind, Face, Towards string
	X, Y, L, W, Dia     float64
	Depth               float64
	Angle               int
	For, Tool           string
}

// Part is one part as paper tells it.
type Part struct {
	Mark, Name, Board, Bands string
	Size                     [3]float64 // finished: along, across, thick
	Sawn                     [2]float64
	Grain                    string // "along", "across"
	Ops                      []Op
	Along, Across, Up        string // where tapes are hooked: an end, an edge, a face
	Mirror                   bool   // drawn as its mirror image: all is at the same places, on its own faces
	Bought                   bool
	page                     int // of the row in the table of parts
	worked                   int // page of the drawing, 0 for none
}

// reader collects what the pages say, and what is wrong with how they say it.
type reader struct {
	inches bool
	runs   [][]run
	parts  map[string]*Part
	order  []string
	faults []string
	sheet  int        // whose cuts are read
	free   [][]string // marks that come free, by sheet
	board  string     // of the last row of the last table
	thick  float64
	bought bool
}

func (r *reader) fault(page int, format string, a ...any) {
	r.faults = append(r.faults, fmt.Sprintf("sheet %d: ", page)+fmt.Sprintf(format, a...))
}

func (r *reader) size(page int, s string) float64 {
	v, err := size(s, r.inches)
	if err != nil {
		r.fault(page, "%v", err)
	}
	return v
}

// tables reads the tables of parts: a heading of columns, then rows whose cells stand under it.
func (r *reader) tables() {
	for _, list := range r.runs {
		for i, h := range list {
			if h.text == "Mark" && i+3 < len(list) && list[i+1].text == "Name" && list[i+2].text == "No." && list[i+3].text == "Along" {
				r.table(list, i)
			}
		}
	}
}

func (r *reader) table(list []run, at int) {
	type column struct {
		name   string
		x0, x1 float64
	}
	var cols []column
	head := list[at]
	for _, h := range list[at:] {
		if !near(h.y1, head.y1) {
			break
		}
		cols = append(cols, column{h.text, h.x0, h.x1})
	}
	name, along := cols[1].x0, cols[3].x0
	board, thick, bought := r.board, r.thick, r.bought // a table that goes on from the sheet before
	var cells map[string]string
	flush := func() {
		if cells != nil {
			r.row(head.page, cells, board, thick, bought)
		}
		cells = nil
		r.board, r.thick, r.bought = board, thick, bought
	}
	defer flush()
	last := head.y1
	for i := at + len(cols); i < len(list); {
		y := list[i].y1
		var line []run
		for ; i < len(list) && near(list[i].y1, y); i++ {
			line = append(line, list[i])
		}
		first := line[0]
		if y-last > 2*lineStep || first.x0 < head.x0-1.2 || first.high() > head.high()+1 {
			return // a heading or something farther down
		}
		last = y
		if len(line) == 1 && near(first.x0, head.x0) && (strings.HasSuffix(first.text, " thick") || strings.HasSuffix(first.text, ", bought")) {
			flush()
			thick = 0
			board, bought = strings.CutSuffix(first.text, ", bought")
			if !bought {
				j := strings.LastIndex(board, ", ")
				if j < 0 {
					r.fault(first.page, "%q names no board", board)
					continue
				}
				thick = r.size(first.page, strings.TrimSuffix(board[j+2:], " thick"))
				board = board[:j]
			}
			continue
		}
		if (first.x1 > along || strings.HasPrefix(first.text, "Before edging:") || elsewhere(first)) && near(first.x0, head.x0) {
			return // a paragraph
		}
		row := map[string]string{}
		for _, c := range line {
			k := ""
			switch {
			case c.x0 < name-1.2:
				k = "Mark"
			case near(c.x1, cols[2].x1):
				k = "No."
			case c.x0 < along-1.2:
				k = "Name"
			default:
				for _, col := range cols[3:] {
					if c.x0 > col.x0-1.2 {
						k = col.name
					}
				}
			}
			row[k] = strings.TrimSpace(row[k] + " " + c.text)
		}
		if row["No."] != "" {
			flush()
			cells = row
			continue
		}
		if cells == nil {
			return
		}
		for k, v := range row { // a cell of several lines
			cells[k] = strings.TrimSpace(cells[k] + " " + v)
		}
	}
}

// row enters the parts of one row of a table.
func (r *reader) row(page int, c map[string]string, board string, thick float64, bought bool) {
	list, err := marks(c["Mark"])
	if err != nil {
		r.fault(page, "%v", err)
		return
	}
	if n, _ := strconv.Atoi(c["No."]); n != len(list) {
		r.fault(page, "%s: the table counts %s and names %d", c["Mark"], c["No."], len(list))
	}
	name, grain := c["Name"], "along"
	for word, runs := range map[string]string{"across": "across", "either way": "free"} {
		if n, ok := strings.CutSuffix(name, " (grain "+word+")"); ok {
			name, grain = n, runs
		}
	}
	for _, m := range list {
		p := &Part{Mark: m, Name: name, Board: board, Grain: grain, Bands: c["Edging on"], Bought: bought, page: page}
		p.Size = [3]float64{r.size(page, c["Along"]), r.size(page, c["Across"]), thick}
		p.Sawn = [2]float64{p.Size[0], p.Size[1]}
		if r.parts[m] != nil {
			r.fault(page, "%s stands in two tables of parts", m)
			continue
		}
		r.parts[m] = p
		r.order = append(r.order, m)
	}
}

// elsewhere tells the paragraph that says which boards are drawn in an earlier chapter.
func elsewhere(x run) bool { return strings.HasPrefix(x.text, "Drawn in an earlier chapter") }

// beforeEdging reads which parts are sawn smaller than the tables tell, below these.
func (r *reader) beforeEdging() {
	const lead = "Before edging: "
	for _, list := range r.runs {
		for _, s := range list {
			if !strings.HasPrefix(s.text, lead) {
				continue
			}
			lines, _, _ := r.paragraph(list, s, elsewhere)
			t := strings.TrimPrefix(text(lines), lead)
			for _, m := range sawnSmaller.FindAllStringSubmatch(t, -1) {
				list, err := marks(strings.TrimSpace(m[1]))
				if err != nil {
					r.fault(s.page, "%v", err)
				}
				for _, mark := range list {
					if p := r.parts[mark]; p != nil {
						p.Sawn = r.sawn(s.page, m[2])
					} else {
						r.fault(s.page, "%s is sawn smaller and stands in no table of parts", mark)
					}
				}
			}
			if left := strings.TrimSpace(sawnSmaller.ReplaceAllString(t, "")); left != "" {
				r.fault(s.page, "%q tells no sawn size", left)
			}
		}
	}
}

func (r *reader) sawn(page int, s string) (out [2]float64) {
	a, b, ok := strings.Cut(s, " × ")
	if !ok {
		r.fault(page, "%q is no sawn size", s)
		return
	}
	return [2]float64{r.size(page, a), r.size(page, b)}
}

// card is the text under the drawing of a piece.
type card struct {
	page   int
	head   string
	about  string
	works  []string
	mirror string
}

var (
	scaleLine = regexp.MustCompile(`^Scale \d+:\d+(?:, [a-z ]+)?\. `)
	aboutLine = regexp.MustCompile(`^Scale \d+:\d+(?:, [a-z ]+)?\. (` + figure + `) × (` + figure + `) × (` + figure + `)\. `)
	letter    = regexp.MustCompile(`^[a-z]{1,2}$`)
)

// cards finds the drawings of pieces by the line with their scale and size.
func (r *reader) cards() (out []card) {
	for _, list := range r.runs {
		for _, s := range list {
			if !scaleLine.MatchString(s.text) {
				continue
			}
			c := card{page: s.page}
			lines := below(list, s, func(x run) bool { return x.high() > s.high()+1 })
			// letters stand at the left edge, their text to the right of it
			last := s
			for _, l := range lines {
				if letter.MatchString(l.text) {
					break
				}
				c.about += " " + l.text
				last = l
			}
			c.about = strings.TrimSpace(c.about)
			if !aboutLine.MatchString(c.about) {
				continue // the scale of a whole chapter's figures
			}
			c.works = workings(list, s, last)
			c.head = headOver(list, s)
			out = append(out, c)
		}
	}
	for _, list := range r.runs { // lists that go on in another column
		for _, h := range list {
			if head, ok := strings.CutSuffix(h.text, ", continued"); ok {
				i := slices.IndexFunc(out, func(c card) bool { return c.head == head })
				if i < 0 {
					r.fault(h.page, "%q goes on and never began", head)
					continue
				}
				out[i].works = append(out[i].works, workings(list, h, h)...)
			}
		}
	}
	return out
}

// workings gives the lines of a list that stands below a line: letters at the left edge of s,
// their text to the right of it.
func workings(list []run, s, last run) (out []string) {
	for gap := lineStep + 6.0; ; gap = lineStep {
		var l, t *run
		for i := range list {
			x := &list[i]
			if x.y1 <= last.y1+2 || x.y1-last.y1 >= gap {
				continue
			}
			switch {
			case near(x.x0, s.x0) && letter.MatchString(x.text):
				l = x
			case x.x0 > s.x0+8 && x.x0 < s.x0+14:
				t = x
			}
			if l != nil && t != nil {
				break
			}
		}
		if t == nil || l == nil && len(out) == 0 {
			return out
		}
		if l != nil {
			out = append(out, t.text)
		} else {
			out[len(out)-1] += " " + t.text
		}
		last = *t
	}
}

// headOver gives the heading over a drawing: the nearest larger text above at the same edge.
func headOver(list []run, s run) string {
	var heads []run
	for i := len(list) - 1; i >= 0; i-- {
		h := list[i]
		if h.y1 >= s.y1 || !near(h.x0, s.x0) || h.high() < s.high()+1 || h.high() > 1.3*s.high() || h.x1-h.x0 < h.high() {
			continue
		}
		if n := len(heads); n > 0 && heads[n-1].y1-h.y1 > 16 {
			break
		}
		heads = append(heads, h)
	}
	slices.Reverse(heads)
	return text(heads)
}

// aFace is how paper calls a face, an end or an edge.
const aFace = `(?:[a-z]+ (?:face|end|edge)|face side|other side|underside)`

var (
	alikeNote   = regexp.MustCompile(`, (\d+) alike$`)
	mirrored    = regexp.MustCompile(` Mirror image: (.*?) \(.*?\)(?:, with (.*?))?\.`)
	hooks       = regexp.MustCompile(` Along is from the (` + aFace + `), across from the (` + aFace + `)(?:, up from the (` + aFace + `))?\.`)
	sawnSmaller = regexp.MustCompile(`(.+?) (?:is|are) sawn (` + figure + ` × ` + figure + `)\.`)
	edged       = regexp.MustCompile(` Edging: (.*?)\.`)
	faceWord    = regexp.MustCompile(`\. ([A-Z][a-z]+ (?:face|end|edge)|Face side|Other side|Underside)(, |: |\.$)`)
)

// works gives the parts of the cards their workings, and holds each card against the table.
func (r *reader) works() {
	for _, c := range r.cards() {
		who, name, ok := strings.Cut(c.head, ": ")
		if !ok {
			r.fault(c.page, "the drawing with %q has no heading", c.about)
			continue
		}
		list, err := marks(who)
		if err != nil {
			r.fault(c.page, "%v", err)
			continue
		}
		n := 1
		if m := alikeNote.FindStringSubmatch(name); m != nil {
			n, _ = strconv.Atoi(m[1])
		}
		if n != len(list) {
			r.fault(c.page, "%q names %d marks and counts %d", c.head, len(list), n)
		}
		m := aboutLine.FindStringSubmatch(c.about)
		var ops []Op
		for _, w := range c.works {
			o, err := r.work(w)
			if err != nil {
				r.fault(c.page, "%s: %v", list[0], err)
			}
			ops = append(ops, o...)
		}
		sizes := [3]float64{r.size(c.page, m[1]), r.size(c.page, m[2]), r.size(c.page, m[3])}
		hook := hooks.FindStringSubmatch(c.about)
		if hook == nil {
			r.fault(c.page, "%s: its drawing does not say where along and across are from", list[0])
			continue
		}
		hold := func(mark string, mirror bool, called *strings.Replacer) {
			p := r.parts[mark]
			if p == nil {
				r.fault(c.page, "%s has a drawing and stands in no table of parts", mark)
				return
			}
			ops := slices.Clone(ops)
			for i := range ops {
				ops[i].Face, ops[i].Towards = called.Replace(ops[i].Face), called.Replace(ops[i].Towards)
			}
			if p.worked > 0 && !same(p.Ops, ops) {
				r.fault(c.page, "%s has two drawings that differ", mark)
			}
			p.worked, p.Ops = c.page, ops
			p.Along, p.Across, p.Up, p.Mirror = called.Replace(hook[1]), called.Replace(hook[2]), called.Replace(hook[3]), mirror
			if p.Size != sizes {
				r.fault(c.page, "%s: the table says %v, the drawing %v", mark, p.Size, sizes)
			}
			bands := ""
			if m := edged.FindStringSubmatch(c.about); m != nil {
				bands = called.Replace(m[1])
			}
			if sorted(bands) != sorted(p.Bands) {
				r.fault(c.page, "%s: the table has edging on %q, the drawing on %q", mark, p.Bands, bands)
			}
			if strings.Contains(c.about, " The grain runs across.") != (p.Grain == "across") {
				r.fault(c.page, "%s: the table and the drawing tell two ways of the grain", mark)
			}
		}
		for _, mark := range list {
			hold(mark, false, strings.NewReplacer())
		}
		if m := mirrored.FindStringSubmatch(c.about); m != nil {
			other, err := marks(m[1])
			if err != nil {
				r.fault(c.page, "%v", err)
			}
			var pairs []string // its right edge for the left edge
			for _, x := range strings.Split(strings.ReplaceAll(m[2], " and ", ", "), ", ") {
				if theirs, ours, ok := strings.Cut(x, " for "); ok {
					pairs = append(pairs, ours, theirs)
				}
			}
			for _, mark := range other {
				hold(mark, true, strings.NewReplacer(pairs...))
			}
		}
	}
	r.elsewhere()
}

// sorted puts a list of edges in order.
func sorted(s string) string {
	list := strings.Split(s, ", ")
	slices.Sort(list)
	return strings.Join(list, ", ")
}

// same tells whether two lists of workings are the same, in whatever order.
func same(a, b []Op) bool {
	rest := slices.Clone(b)
	for _, o := range a {
		i := slices.Index(rest, o)
		if i < 0 {
			return false
		}
		rest = slices.Delete(rest, i, i+1)
	}
	return len(rest) == 0
}

// elsewhere reads which parts are drawn with those of an earlier chapter.
func (r *reader) elsewhere() {
	const lead = "Drawn in an earlier chapter: "
	for _, list := range r.runs {
		for _, s := range list {
			if !strings.HasPrefix(s.text, lead) {
				continue
			}
			lines, _, _ := r.paragraph(list, s, nil)
			t := strings.TrimSuffix(strings.TrimPrefix(text(lines), lead), ".")
			for _, c := range strings.Split(t, "; ") {
				flip := false
				a, b, ok := strings.Cut(c, " as the mirror image of ")
				if !ok {
					if a, b, ok = strings.Cut(c, " the mirror image of "); ok {
						flip = true
					} else {
						a, b, ok = strings.Cut(c, " as ")
					}
				} else {
					flip = true
				}
				list, err := marks(a)
				like := r.parts[b]
				if !ok || err != nil || like == nil || like.worked == 0 {
					r.fault(s.page, "%q leads to no drawing", c)
					continue
				}
				for _, m := range list {
					p := r.parts[m]
					switch {
					case p == nil:
						r.fault(s.page, "%s stands in no table of parts", m)
						continue
					case p.worked > 0:
						continue // the drawing names it too
					case p.Size != like.Size || p.Board != like.Board || p.Sawn != like.Sawn:
						r.fault(s.page, "%s is drawn as %s, but is no such piece", m, b)
					}
					p.worked, p.Ops = s.page, like.Ops
					p.Along, p.Across, p.Up, p.Mirror = like.Along, like.Across, like.Up, like.Mirror != flip
				}
			}
		}
	}
}
