package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/fitting"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/schema"
	"stowright/internal/source"
	"stowright/internal/stock"
)

// Sources are the trees that make up one job, lowest layer first. Reading a notation is the
// shell's.
type Sources struct {
	Shipped   *source.Node   // stock.Shipped, read by source/json
	Libraries []*source.Node // the maker's own, in the order in which the job names them
	Job       *source.Node
}

// Bounds of what one job may hold, so that a slip of the keyboard or a hostile file takes no
// time. All are far above what one room needs.
const (
	MostCases   = 300
	MostEntries = 1000 // of any other list or mapping of a job
	MostGoods   = 20_000
	MostBays    = 400 // in one case
	MostNesting = 12  // of bays
)

// sections are what a library may hold.
var sections = [...]string{"practices", "boards", "sticks", "edgings", "hardware", "materials", "species", "containers", "families", "patterns", "sizes"}

// MostLibraries is how many libraries of a job are read.
const MostLibraries = 20

// Libraries gives where a job names the maker's own libraries: texts, each a path beside the job. A shell reads them
// before the job is checked.
func Libraries(n *source.Node) []*source.Node {
	var r []*source.Node
	if l := n.Get("library"); l != nil {
		for _, i := range l.Items {
			if i.Kind == source.Text && len(r) < MostLibraries {
				r = append(r, i)
			}
		}
	}
	return r
}

// reader is the state of reading one job.
type reader struct {
	kinds    fitting.Set
	options  schema.Options
	tree     *source.Node // all layers
	own      *source.Node // the job alone
	names    names
	problems source.Problems
	file     File
	cases    []merged
}

func (r *reader) fail(at source.Span, text, hint string) {
	if len(r.problems) < 1000 {
		r.problems.Add(source.Problem{Span: at, Text: text, Hint: hint})
	}
}

// Read merges the layers of a job, reads them, and checks that every name is known and every
// size is stated. All mistakes are reported at once, sorted; with any, the Checked is not fit for
// building, but holds what could be read.
func Read(src Sources, kinds fitting.Set) (Checked, source.Problems) {
	r := &reader{kinds: kinds, own: src.Job}
	if src.Job == nil || src.Job.Kind != source.Map {
		at := source.Span{}
		if src.Job != nil {
			at = src.Job.Span
		}
		r.fail(at, "a job file is a mapping with keys such as stowright, name, unit, cases", "start one with `stowright new`")
		return Checked{}, r.problems
	}
	job, ok := r.upgrade(src.Job)
	if !ok {
		return Checked{}, r.problems
	}
	job, misspelt := schema.Respell(job, File{}, Options(kinds))
	r.problems.Add(misspelt...)
	r.own = job
	r.layers(src.Shipped, src.Libraries, job)
	if !r.bounded() {
		r.problems.Sort()
		return Checked{}, r.problems
	}
	r.tree = replace(r.tree, "practice", r.practice())
	r.tree = replace(r.tree, "goods", r.goods())
	r.options = Options(kinds)
	r.options.Unit = r.unit()
	r.options.Sizes = r.sizes(nil, r.tree.Get("sizes"))
	r.names = gather(r.tree)
	r.merge()
	r.decode()
	r.refer()
	c := r.check()
	r.problems.Sort()
	return c, r.problems
}

// Options gives what the schema needs to know of the fittings.
func Options(kinds fitting.Set) schema.Options {
	o := schema.Options{Plugs: map[string][]schema.PlugKind{}}
	for _, k := range kinds {
		w := string(k.Where)
		o.Plugs[w] = append(o.Plugs[w], schema.PlugKind{Name: k.Name, Doc: k.Doc, New: func() any { return k.New() }})
	}
	return o
}

// version is the newest that is read.
const version = 1

// upgrade brings a job of an older version to the newest by changing its tree; a newer one
// is refused. There is one version so far.
func (r *reader) upgrade(n *source.Node) (*source.Node, bool) {
	v := n.Get("stowright")
	if v == nil || v.Kind != source.Number {
		return n, true // the schema says what is wrong
	}
	if len(v.Text) > 1 && !strings.HasPrefix(v.Text, "-") || v.Text > "1" && !strings.HasPrefix(v.Text, "-") {
		if source.IsNumber(v.Text) && !strings.ContainsAny(v.Text, ".eE+") {
			r.fail(v.Span, fmt.Sprintf("this job is of version %s of the format, and version %d is the newest known here", short(v.Text), version), "use a newer stowright")
			return n, false
		}
	}
	return n, true
}

func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:37]) + "..."
	}
	return s
}

// layers puts the libraries over the shipped tables and the job over both.
func (r *reader) layers(shipped *source.Node, libraries []*source.Node, job *source.Node) {
	base := shipped
	for _, lib := range libraries {
		if lib == nil {
			continue
		}
		if lib.Kind != source.Map {
			r.fail(lib.Span, "a library is a mapping with keys such as boards, hardware, patterns", "write what it holds under such a key, or take it out of the job's library")
			continue
		}
		kept := *lib
		kept.Entries = nil
		for _, e := range lib.Entries {
			switch k := source.Normal(e.Key); {
			case slices.Contains(sections[:], k):
				kept.Entries = append(kept.Entries, e)
			case k == "stowright", k == "name", k == "author", k == "date":
			default:
				r.fail(e.KeySpan, fmt.Sprintf("%q does not belong in a library", short(e.Key)), "a library holds "+strings.Join(sections[:], ", "))
			}
		}
		base = source.Merge(base, &kept)
	}
	r.tree = source.Merge(base, job)
}

// bounded reports whether the job is of a size that can be worked on.
func (r *reader) bounded() bool {
	good := true
	if l := r.own.Get("library"); l != nil && len(l.Items) > MostLibraries {
		r.fail(l.Items[MostLibraries].Span, fmt.Sprintf("at most %d libraries are read", MostLibraries), "put them in one file")
		good = false
	}
	for _, e := range r.own.Entries {
		most, what := MostEntries, source.Normal(e.Key)
		if what == "cases" {
			most = MostCases
		}
		if n := max(len(e.Value.Entries), len(e.Value.Items)); n > most {
			r.fail(e.KeySpan, fmt.Sprintf("%s has %d entries; at most %d are read", short(e.Key), n, most), "split the job in several")
			good = false
		}
	}
	return good
}

// replace gives a mapping with one entry replaced or added; nil leaves it as it is.
func replace(n *source.Node, key string, value *source.Node) *source.Node {
	if value == nil {
		return n
	}
	c := *n
	c.Entries = slices.Clone(n.Entries)
	for i, e := range c.Entries {
		if source.Normal(e.Key) == key {
			c.Entries[i].Value = value
			return &c
		}
	}
	c.Entries = append(c.Entries, source.Entry{Key: key, KeySpan: value.Span, Value: value})
	return &c
}

// without gives a mapping without some of its entries.
func without(n *source.Node, keys ...string) *source.Node {
	if n == nil {
		return nil
	}
	c := *n
	c.Entries = nil
	for _, e := range n.Entries {
		if !slices.Contains(keys, source.Normal(e.Key)) {
			c.Entries = append(c.Entries, e)
		}
	}
	return &c
}

// text gives a value as a word, "" when it is none.
func text(n *source.Node) string {
	if n == nil || n.Kind != source.Text && n.Kind != source.Number && n.Kind != source.Bool {
		return ""
	}
	return n.Text
}

// practice gives the job's practice with those it starts from below it. Where the job names
// none, its unit chooses one.
func (r *reader) practice() *source.Node {
	all := r.tree.Get("practices")
	n := r.tree.Get("practice")
	if n == nil || n.Kind == source.Null {
		n = &source.Node{Kind: source.Map, Span: r.own.Span}
	}
	if n.Kind == source.Text && all.Get(n.Text) != nil {
		r.fail(n.Span, fmt.Sprintf("the practice %s is written as a mapping, so that rules of your own can follow", short(n.Text)), "write practice: {from: "+short(n.Text)+"}")
		return &source.Node{Kind: source.Map, Span: n.Span}
	}
	if n.Kind != source.Map {
		return n // the schema says what is wrong
	}
	from := n.Get("from")
	name := text(from)
	if from == nil {
		switch source.Normal(text(r.tree.Get("unit"))) {
		case "in":
			name = "inch-shop"
		case "mm":
			name = "metric-shop"
		default:
			at := r.own.Span
			if len(r.own.Entries) > 0 {
				at = r.own.Entries[0].KeySpan
			}
			r.fail(at, "neither a unit nor a practice is stated", "add unit: in, or unit: mm")
			name = "metric-shop"
		}
	}
	seen := map[string]bool{}
	var below *source.Node
	for base := all.Get(name); base != nil && base.Kind == source.Map && !seen[name]; base = all.Get(name) {
		seen[name] = true
		below = source.Merge(base, below)
		name = text(base.Get("from"))
	}
	return source.Merge(without(below, "from"), n)
}

// unit gives the unit of bare numbers: the job's, else the practice's.
func (r *reader) unit() length.Unit {
	word := text(r.tree.Get("unit"))
	if word == "" {
		word = text(r.tree.Get("practice").Get("unit"))
	}
	return unitOf(word)
}

func unitOf(word string) length.Unit {
	if u, err := length.ParseUnit(word); err == nil {
		return u
	}
	return length.Millimetres
}

// goods gives the job's goods with the containers that they are like below them.
func (r *reader) goods() *source.Node {
	n := r.tree.Get("goods")
	if n == nil || n.Kind != source.Map {
		return nil
	}
	known := r.tree.Get("containers")
	c := *n
	c.Entries = slices.Clone(n.Entries)
	for i, e := range c.Entries {
		like := known.Get(text(e.Value.Get("like")))
		if like == nil || like.Kind != source.Map {
			continue
		}
		// A size that is stated takes the place of all sizes of the container: round
		// things do not become square by one word.
		if e.Value.Get("diameter") != nil {
			like = without(like, "width", "depth")
		}
		if e.Value.Get("width") != nil || e.Value.Get("depth") != nil {
			like = without(like, "diameter")
		}
		c.Entries[i].Value = source.Merge(without(like, "source"), e.Value)
	}
	return &c
}

// sizes reads named sizes, which may be said by those before and after them, and gives them
// with those of an outer mapping.
func (r *reader) sizes(outer map[string]length.Length, n *source.Node) map[string]length.Length {
	all := make(map[string]length.Length, len(outer))
	for k, v := range outer {
		all[k] = v
	}
	if n == nil || n.Kind != source.Map {
		return all
	}
	left := slices.Clone(n.Entries)
	o := r.options
	o.Sizes = all
	for _, e := range left {
		delete(all, source.Normal(e.Key))
	}
	read := func(e source.Entry) (length.Length, source.Problems) {
		var l length.Length
		p := schema.DecodeAt(e.Value, source.Path{{Key: e.Key}}, &l, o)
		return l, p
	}
	settle := func() {
		for progress := true; progress; {
			progress = false
			left = slices.DeleteFunc(left, func(e source.Entry) bool {
				l, p := read(e)
				if len(p) > 0 {
					return false
				}
				all[source.Normal(e.Key)], progress = l, true
				return true
			})
		}
	}
	stand := func(e source.Entry) { all[source.Normal(e.Key)] = 100 * length.MM } // so that its users are not refused too
	settle()
	for _, e := range left {
		stand(e)
	}
	var waiting []source.Entry // no mistake of its own: a name that waits for another
	for _, e := range left {
		if _, p := read(e); len(p) > 0 {
			r.problems.Add(p...)
		} else {
			waiting = append(waiting, e)
		}
	}
	for _, e := range waiting {
		delete(all, source.Normal(e.Key))
	}
	left = waiting
	settle()
	for _, e := range left {
		stand(e)
	}
	// uses says that a size is said by another: without that one it does not read.
	uses := func(e, of source.Entry) bool {
		k := source.Normal(of.Key)
		was := all[k]
		delete(all, k)
		_, p := read(e)
		all[k] = was
		return len(p) > 0
	}
	for _, round := range rounds(left, uses) {
		text := "it is said by itself"
		if len(round) > 1 {
			var names []string
			for _, e := range round {
				names = append(names, short(e.Key))
			}
			text = strings.Join(names, " and ") + " are said by each other"
		}
		for _, e := range round {
			r.fail(e.Value.Span, fmt.Sprintf("%s cannot be worked out: %s", short(e.Key), text), "write one of them as a length")
		}
	}
	return all
}

// rounds gives the rings among entries, those of each ring together. What only waits for a ring is in none.
func rounds(left []source.Entry, uses func(e, of source.Entry) bool) [][]source.Entry {
	n := len(left)
	to := make([][]bool, n) // which lead to which, by one step or several
	for i := range to {
		to[i] = make([]bool, n)
		for k := range to[i] {
			to[i][k] = uses(left[i], left[k])
		}
	}
	for m := range n {
		for i := range n {
			for k := range n {
				to[i][k] = to[i][k] || to[i][m] && to[m][k]
			}
		}
	}
	var list [][]source.Entry
	done := make([]bool, n)
	for i := range n {
		var round []source.Entry
		for k := i; k < n; k++ {
			if !done[k] && to[i][k] && to[k][i] {
				done[k], round = true, append(round, left[k])
			}
		}
		if len(round) > 0 {
			list = append(list, round)
		}
	}
	return list
}

// decode reads the file but for what merge has read.
func (r *reader) decode() {
	t := without(r.tree, "cases", "patterns", "sizes")
	r.problems.Add(schema.Decode(t, &r.file, r.options)...)
	for _, e := range entries(r.tree.Get("sizes")) {
		r.file.Sizes = append(r.file.Sizes, schema.Entry[L]{Key: e.Key, At: schema.Place{Path: source.Path{{Key: "sizes"}, {Key: e.Key}}, Span: e.KeySpan}, Value: r.options.Sizes[source.Normal(e.Key)]})
	}
	if r.file.Unit == "" {
		r.file.Unit = r.file.Practice.Unit
	}
	if r.file.Print == "" {
		r.file.Print = r.file.Unit
	}
	for _, c := range r.cases {
		r.file.Cases = append(r.file.Cases, schema.Entry[Case]{Key: c.id, At: c.at, Value: c.value})
	}
}

// catalogue sorts what can be named.
func (f *File) catalogue() stock.Catalogue {
	return stock.Catalogue{
		Boards:    listed(f.Boards, func(b *stock.Board) *string { return &b.ID }),
		Sticks:    listed(f.Sticks, func(b *stock.Stick) *string { return &b.ID }),
		Edgings:   listed(f.Edgings, func(b *stock.Edging) *string { return &b.ID }),
		Hardware:  listed(f.Hardware, func(b *stock.Hardware) *string { return &b.ID }),
		Goods:     listed(f.Goods, func(b *stock.Goods) *string { return &b.ID }),
		Materials: listed(f.Materials, func(b *stock.Material) *string { return &b.ID }),
		Species:   listed(f.Species, func(b *stock.Species) *string { return &b.ID }),
	}
}

// listed gives the entries of a mapping, each with its id, sorted by it.
func listed[T any](m schema.Map[T], id func(*T) *string) []T {
	at := make([]int, len(m)) // entries are large: their places are sorted
	for i := range at {
		at[i] = i
	}
	order.Stable(at, func(a, b int) int { return cmp.Compare(m[a].Key, m[b].Key) })
	var r []T
	for _, i := range at {
		e := m[i]
		*id(&e.Value) = e.Key
		r = append(r, e.Value)
	}
	return r
}
