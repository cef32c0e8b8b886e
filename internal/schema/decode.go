package schema

import (
	"cmp"
	"fmt"
	"math/big"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/money"
	"stowright/internal/source"
)

// Decode reads a tree into what into points to and reports every mistake, sorted. What could be
// read is there even when there are mistakes; a value with a mistake keeps its zero or its default.
func Decode(n *source.Node, into any, o Options) source.Problems {
	return DecodeAt(n, nil, into, o)
}

// DecodeAt is Decode for a part of a tree that stands at a path.
func DecodeAt(n *source.Node, at source.Path, into any, o Options) source.Problems {
	n, misspelt := Respell(n, into, o)
	c := &Context{Options: o, problems: &misspelt, path: at}
	c.Decode(n, into)
	c.problems.Sort()
	return *c.problems
}

// maxProblems bounds what a broken file can make a reader collect.
const maxProblems = 1000

// Context is the state of reading, for types that read themselves.
type Context struct {
	Options  Options
	path     source.Path
	problems *source.Problems
	silent   bool // a default is read: a mistake in it is a bug
}

// Fail reports a mistake: what is wrong and what was expected, and what to write instead.
func (c *Context) Fail(at source.Span, text, hint string) {
	if c.silent {
		panic("schema: in a default: " + text)
	}
	if len(*c.problems) < maxProblems {
		c.problems.Add(source.Problem{Span: at, Text: text, Hint: hint})
	}
}

// Place gives the place of a value that is being read.
func (c *Context) Place(n *source.Node) Place { return Place{c.path, n.Span} }

// Key and At give the context for a value below.
func (c *Context) Key(key string) *Context { return c.below(c.path.Key(key)) }

// At gives the context of an item of a list.
func (c *Context) At(i int) *Context { return c.below(c.path.At(i)) }

func (c *Context) below(p source.Path) *Context {
	d := *c
	d.path = p
	return &d
}

// Decode reads a value into what into points to, like a field without tags. A Custom that calls it on itself
// must do so through a type without the method.
func (c *Context) Decode(n *source.Node, into any) bool {
	return c.value(n, reflect.ValueOf(into).Elem(), rules{})
}

// Length reads a length or an expression; false after a mistake.
func (c *Context) Length(n *source.Node) (l length.Length, ok bool) {
	if n.Kind != source.Text && n.Kind != source.Number {
		c.wrong(n, says(reflect.TypeFor[length.Length](), rules{}))
		return 0, false
	}
	l, m := evaluate(n.Text, c.Options)
	if m != nil {
		c.Fail(n.Span, m.text, m.hint)
		return 0, false
	}
	return l, true
}

// wrong reports a value of the wrong kind.
func (c *Context) wrong(n *source.Node, want string) {
	got := n.Kind.String()
	switch n.Kind {
	case source.Text, source.Number, source.Bool:
		got = strconv.Quote(shorten(n.Text))
	case source.Null:
		got = "nothing"
	}
	c.Fail(n.Span, fmt.Sprintf("expected %s, not %s", want, got), instead(n, want))
}

// instead says what to write where a value is of another kind than wanted.
func instead(n *source.Node, want string) string {
	if keys, is := strings.CutPrefix(want, "a mapping with keys such as "); is {
		key, _, _ := strings.Cut(keys, ",")
		switch {
		case n.Kind == source.Number && key == "count":
			return "write {count: " + shorten(n.Text) + "}"
		case n.Kind == source.Bool || n.Kind == source.Null || n.Text == "yes":
			return "write {} for what is usual, or keys and values in braces"
		}
		return fmt.Sprintf("write keys and values in braces, {%s: …}, or below it, indented", key)
	}
	switch {
	case strings.HasPrefix(want, "a mapping"):
		return "write a name, a colon, and its keys in braces: name: {…}"
	case strings.HasPrefix(want, "a list") && n.Kind != source.Map && n.Kind != source.Null:
		return "write it in brackets: [" + shorten(n.Text) + "]"
	case strings.HasPrefix(want, "a list"):
		return "write its entries in brackets, with commas between them"
	case strings.HasPrefix(want, "a whole number"):
		return "write a number without a fraction and without a unit"
	case strings.HasPrefix(want, "yes or no"):
		return "write yes or no"
	case strings.HasPrefix(want, "a length"):
		return "write it like 30 1/4 in, 762 mm or 76.2 cm"
	case strings.HasPrefix(want, "a text"):
		return "write one word or one line of text"
	}
	return ""
}

// value reads n into v, which can be set; false after a mistake.
func (c *Context) value(n *source.Node, v reflect.Value, r rules) bool {
	if v.Kind() == reflect.Pointer && v.Type().Elem() != reflect.TypeFor[source.Node]() {
		if v.IsNil() {
			p := reflect.New(v.Type().Elem())
			if !c.value(n, p.Elem(), r) {
				return false
			}
			v.Set(p)
			return true
		}
		return c.value(n, v.Elem(), r)
	}
	t := base(v.Type())
	k := kindOf(t)
	switch k {
	case kindCustom:
		before := len(*c.problems)
		v.Addr().Interface().(Custom).Decode(n, c)
		return len(*c.problems) == before
	case kindNode:
		v.Set(reflect.ValueOf(n))
		return true
	case kindStruct:
		return c.structure(n, v)
	case kindMap:
		return c.entries(n, v, r)
	case kindOneOrMany:
		if n.Kind != source.List {
			one := reflect.MakeSlice(v.Type(), 1, 1)
			if n.Kind == source.Null || !c.value(n, one.Index(0), r) {
				return n.Kind == source.Null
			}
			v.Set(one)
			return true
		}
		return c.items(n, v, r)
	case kindList:
		if n.Kind != source.List {
			c.wrong(n, says(t, r))
			return false
		}
		return c.items(n, v, r)
	}
	return c.scalar(n, v, t, k, r)
}

func (c *Context) scalar(n *source.Node, v reflect.Value, t reflect.Type, k kind, r rules) bool {
	if k == kindLength {
		l, ok := c.Length(n)
		if ok && c.inside(n, r, l.Exact(c.Options.Unit), func(bound string) int { return cmp64(int64(l), int64(mustLength(bound))) }) {
			v.SetInt(int64(l))
			return true
		}
		return false
	}
	if n.Kind == source.Null || n.Kind >= source.List || n.Kind == source.Bool && k != kindBool && k != kindString {
		c.wrong(n, says(t, r))
		return false
	}
	switch k {
	case kindMass:
		m, err := mass.Parse(n.Text)
		if err != nil {
			e := err.(*mass.Error)
			c.Fail(n.Span, fmt.Sprintf("%q %s", e.Input, e.Msg), e.Hint)
			return false
		}
		if !c.inside(n, r, n.Text, func(b string) int { return cmp64(int64(m), int64(must(mass.Parse(b)))) }) {
			return false
		}
		v.SetInt(int64(m))
	case kindPerArea:
		m, err := mass.ParsePerArea(n.Text)
		if err != nil {
			e := err.(*mass.Error)
			c.Fail(n.Span, fmt.Sprintf("%q %s", e.Input, e.Msg), e.Hint)
			return false
		}
		if !c.inside(n, r, n.Text, func(b string) int { return cmp64(int64(m), int64(must(mass.ParsePerArea(b)))) }) {
			return false
		}
		v.SetInt(int64(m))
	case kindMoney:
		a, err := money.Parse(n.Text)
		if err != nil {
			e := err.(*money.Error)
			c.Fail(n.Span, fmt.Sprintf("%q %s", e.Input, e.Msg), e.Hint)
			return false
		}
		if !c.inside(n, r, n.Text, func(b string) int { return cmp64(int64(a), int64(must(money.Parse(b)))) }) {
			return false
		}
		v.SetInt(int64(a))
	case kindRatio:
		q, err := ParseRatio(n.Text)
		if err != nil {
			c.Fail(n.Span, err.Error(), "write it like 1.25 or 3/4")
			return false
		}
		if !c.inside(n, r, n.Text, func(b string) int { return q.Cmp(must(ParseRatio(b))) }) {
			return false
		}
		v.Set(reflect.ValueOf(q))
	case kindInt:
		return c.whole(n, v, t, r)
	case kindBool:
		b, ok := yesNo(n)
		if !ok {
			c.wrong(n, "yes or no")
			return false
		}
		v.SetBool(b)
	case kindString:
		return c.text(n, v, t, r)
	}
	return true
}

func cmp64(a, b int64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// must gives a value of a tag; a tag that does not read is a bug.
func must[T any](v T, err error) T {
	if err != nil {
		panic("schema: in a tag: " + err.Error())
	}
	return v
}

func mustLength(s string) length.Length { return must(length.Parse(s, length.Millimetres)) }

// inside reports whether a value is within its bounds; against compares it with one.
func (c *Context) inside(n *source.Node, r rules, text string, against func(bound string) int) bool {
	low, high := r.min != "" && against(r.min) < 0, r.max != "" && against(r.max) > 0
	if !low && !high {
		return true
	}
	c.Fail(n.Span, fmt.Sprintf("%s is out of range", shorten(text)), "write "+c.bounds(r).span())
	return false
}

// bounds gives rules whose bounds of length are in the job's unit: a least of 1 mm is 1/16 in to a maker who reads inches.
// They are rounded inwards, so that what is written is taken.
func (c *Context) bounds(r rules) rules {
	if c.Options.Unit != length.Inches {
		return r
	}
	const step = length.Inch / 16
	in := func(bound string, to func(length.Length, length.Length) length.Length) string {
		l, err := length.Parse(bound, length.Inches)
		if err != nil || !strings.HasSuffix(bound, "mm") {
			return bound
		}
		return to(l, step).Exact(length.Inches)
	}
	r.min, r.max = in(r.min, length.Length.Up), in(r.max, length.Length.Down)
	return r
}

// span says the range of a value in words.
func (r rules) span() string {
	switch {
	case r.min != "" && r.max != "":
		return r.min + " to " + r.max
	case r.min != "":
		return r.min + " or more"
	case r.max != "":
		return r.max + " or less"
	}
	return ""
}

// maxWhole bounds a whole number whose field states no bound.
const maxWhole = 100_000

func (c *Context) whole(n *source.Node, v reflect.Value, t reflect.Type, r rules) bool {
	q, ok := new(big.Rat), n.Kind == source.Number && len(n.Text) <= 20 && !strings.ContainsAny(n.Text, "eE")
	if ok {
		_, ok = q.SetString(strings.TrimSuffix(n.Text, "."))
	}
	if !ok || !q.IsInt() {
		if n.Kind == source.Number && len(n.Text) > 20 {
			c.Fail(n.Span, shorten(n.Text)+" is out of all proportion", "write "+cmp.Or(r.span(), "a count of what there really is"))
			return false
		}
		c.wrong(n, says(t, r))
		return false
	}
	i := q.Num().Int64()
	if !q.Num().IsInt64() || r.max == "" && i > maxWhole || r.min == "" && i < -maxWhole {
		c.Fail(n.Span, n.Text+" is out of all proportion", "write "+cmp.Or(r.span(), "a count of what there really is"))
		return false
	}
	if !c.inside(n, r, n.Text, func(b string) int { return cmp64(i, must(strconv.ParseInt(b, 10, 64))) }) {
		return false
	}
	v.SetInt(i)
	return true
}

func yesNo(n *source.Node) (value, ok bool) {
	switch strings.ToLower(n.Text) {
	case "yes", "true", "on":
		return true, true
	case "no", "false", "off":
		return false, true
	}
	return false, false
}

func (c *Context) text(n *source.Node, v reflect.Value, t reflect.Type, r rules) bool {
	words := wordsOf(t, r)
	if words == nil {
		v.SetString(n.Text)
		if x, ok := v.Interface().(interface{ Wrong() (what, remedy string) }); ok {
			if what, remedy := x.Wrong(); what != "" {
				c.Fail(n.Span, what, remedy)
				return false
			}
		}
		return true
	}
	w := source.Normal(n.Text)
	if i := slices.IndexFunc(words, func(s string) bool { return source.Normal(s) == w }); i >= 0 {
		v.SetString(words[i])
		return true
	}
	hint := "the words are " + strings.Join(words, ", ")
	if near := source.Nearest(n.Text, words); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
		if len(words) <= 8 {
			hint += " The words are " + strings.Join(words, ", ")
		}
	}
	c.Fail(n.Span, fmt.Sprintf("the word %q is not known here", shorten(n.Text)), hint)
	return false
}

// items reads a list; an item with a mistake is left out.
func (c *Context) items(n *source.Node, v reflect.Value, r rules) bool {
	good := true
	list := reflect.MakeSlice(v.Type(), 0, len(n.Items))
	for i, item := range n.Items {
		e := reflect.New(v.Type().Elem()).Elem()
		if c.At(i).value(item, e, r) {
			list = reflect.Append(list, e)
		} else {
			good = false
			if base(e.Type()).Kind() == reflect.Struct {
				list = reflect.Append(list, e) // what could be read of it
			}
		}
	}
	v.Set(list)
	return good
}

// entries reads a mapping with free keys.
func (c *Context) entries(n *source.Node, v reflect.Value, r rules) bool {
	if n.Kind == source.Null {
		return true
	}
	if n.Kind != source.Map {
		c.wrong(n, says(v.Type(), r))
		return false
	}
	good := true
	list := reflect.MakeSlice(v.Type(), 0, len(n.Entries))
	for _, entry := range n.Entries {
		e := reflect.New(v.Type().Elem()).Elem()
		d := c.Key(entry.Key)
		e.FieldByName("Key").SetString(entry.Key)
		e.FieldByName("At").Set(reflect.ValueOf(Place{d.path, entry.KeySpan}))
		value := entry.Value
		if value.Kind == source.Null && kindOf(base(e.FieldByName("Value").Type())) == kindStruct {
			value = &source.Node{Kind: source.Map, Span: entry.KeySpan}
		}
		if !d.value(value, e.FieldByName("Value"), r) {
			good = false
		}
		list = reflect.Append(list, e)
	}
	v.Set(list)
	return good
}

// structure reads a mapping with declared keys.
func (c *Context) structure(n *source.Node, v reflect.Value) bool {
	f := formOf(v.Type())
	if f.at != nil {
		v.FieldByIndex(f.at).Set(reflect.ValueOf(c.Place(n)))
	}
	c.defaults(f, v)
	if n.Kind != source.Map {
		c.wrong(n, "a mapping with keys such as "+some(f))
		return false
	}
	good := true
	stated := map[string]bool{}
	for _, e := range n.Entries {
		key := source.Normal(e.Key)
		if !c.entry(f, v, e, key, stated) {
			good = false
		}
	}
	for _, x := range f.fields {
		if x.required && !stated[x.name] && v.FieldByIndex(x.index).IsZero() {
			c.missing(n, fmt.Sprintf("%q is missing", x.name), x.hint())
			good = false
		}
	}
	for _, s := range f.sockets {
		if s.required && !stated[socketKey(s)] {
			c.missing(n, fmt.Sprintf("a %s is missing", s.name), "one of "+strings.Join(kinds(c.Options.Plugs[s.name]), ", "))
			good = false
		}
	}
	return good
}

// missing reports at the start of a mapping, not at all of it.
func (c *Context) missing(n *source.Node, text, hint string) {
	at := n.Span
	if len(n.Entries) > 0 && n.Entries[0].KeySpan.File == at.File {
		at = n.Entries[0].KeySpan
	}
	c.Fail(at, text, hint)
}

func (x field) hint() string {
	switch {
	case x.example != "":
		return "add " + x.name + ": " + x.example
	case x.doc != "":
		return fmt.Sprintf("add %s (%s)", says(base(x.typ), x.rules), x.doc)
	}
	return "add " + says(base(x.typ), x.rules)
}

// socketKey is how a filled socket is marked among stated keys; no key has a space in Normal spelling.
func socketKey(s socket) string { return "socket " + s.name }

// entry reads one key of a mapping; false after a mistake.
func (c *Context) entry(f form, v reflect.Value, e source.Entry, key string, stated map[string]bool) bool {
	d := c.Key(e.Key)
	if i := slices.IndexFunc(f.fields, func(x field) bool { return x.name == key }); i >= 0 {
		x := f.fields[i]
		if e.Value.Kind == source.Null && kindOf(base(x.typ)) != kindNode {
			return true // not stated
		}
		stated[x.name] = true
		return d.value(e.Value, v.FieldByIndex(x.index), x.rules)
	}
	for _, s := range f.sockets {
		plugs := c.Options.Plugs[s.name]
		i := slices.IndexFunc(plugs, func(p PlugKind) bool { return p.Name == key })
		if i < 0 {
			continue
		}
		p := v.FieldByIndex(s.index).Addr().Interface().(*Plug)
		if stated[socketKey(s)] {
			c.Fail(e.KeySpan, fmt.Sprintf("there is a %s here already: %s", s.name, p.Kind), "keep one of the two; give each a place of its own")
			return false
		}
		stated[socketKey(s)] = true
		*p = Plug{Kind: plugs[i].Name, Value: plugs[i].New(), At: Place{d.path, e.KeySpan}}
		value := e.Value
		if value.Kind == source.Null {
			value = &source.Node{Kind: source.Map, Span: e.KeySpan}
		}
		return d.value(value, reflect.ValueOf(p.Value).Elem(), rules{})
	}
	text, hint := unknown(e, f.keys(c.Options))
	c.Fail(e.KeySpan, text, hint)
	return false
}

// keys gives all keys that a mapping may have.
func (f form) keys(o Options) []string {
	var r []string
	for _, x := range f.fields {
		r = append(r, x.name)
	}
	for _, s := range f.sockets {
		r = append(r, kinds(o.Plugs[s.name])...)
	}
	return r
}

// has says if a key in Normal spelling is one of them.
func (f form) has(key string, o Options) bool {
	return slices.ContainsFunc(f.fields, func(x field) bool { return x.name == key }) ||
		slices.ContainsFunc(f.sockets, func(s socket) bool {
			return slices.ContainsFunc(o.Plugs[s.name], func(p PlugKind) bool { return p.Name == key })
		})
}

func kinds(plugs []PlugKind) []string {
	var r []string
	for _, p := range plugs {
		r = append(r, p.Name)
	}
	return r
}

// some names the first keys of a mapping.
func some(f form) string {
	var r []string
	for _, x := range f.fields[:min(len(f.fields), 4)] {
		r = append(r, x.name)
	}
	return strings.Join(r, ", ")
}

// defaults sets what the tags say for keys that are absent; what is set already stays.
func (c *Context) defaults(f form, v reflect.Value) {
	d := *c
	d.silent = true
	d.Options.Sizes = nil
	for _, x := range f.fields {
		to := v.FieldByIndex(x.index)
		if !to.IsZero() {
			continue
		}
		if x.fallback != "" {
			d.value(fallbackNode(x), to, x.rules)
			continue
		}
		if to.Kind() == reflect.Struct && kindOf(to.Type()) == kindStruct { // a mapping that is absent has its own defaults
			d.defaults(formOf(to.Type()), to)
		}
	}
}

// fallbackNode gives a default as a value from a file.
func fallbackNode(x field) *source.Node {
	n := &source.Node{Kind: source.Text, Text: x.fallback}
	if source.IsNumber(x.fallback) {
		n.Kind = source.Number
	}
	if kindOf(base(x.typ)) == kindList { // "1 in, 2 in"
		n = &source.Node{Kind: source.List}
		for _, s := range strings.Split(x.fallback, ",") {
			s = strings.TrimSpace(s)
			item := &source.Node{Kind: source.Text, Text: s}
			if source.IsNumber(s) {
				item.Kind = source.Number
			}
			n.Items = append(n.Items, item)
		}
	}
	return n
}
