package list

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/source"
)

// A shop's stock file has what is on hand of every board where a job has it:
//
//	boards:
//	  birch-18:
//	    on-hand: 3
//	    damaged:
//	      - {corner: start-near, length: 300, width: 200}
//	    offcuts:
//	      - {length: 800, width: 600, grain: along-length, count: 2}

var grainWords = [...]string{cutting.NoGrain: "none", cutting.GrainX: "along-length", cutting.GrainY: "along-width"}

// shopUnit is what a bare number means in a stock file: what it says itself, else u.
func shopUnit(root *source.Node, u length.Unit) length.Unit {
	if n := root.Get("unit"); n != nil {
		if own, err := length.ParseUnit(n.Text); err == nil {
			return own
		}
	}
	return u
}

// ShopStock reads what is on hand from a shop's stock file. Each offcut becomes a stock of its own with the id "BOARD/offcut-N", N its
// place in the board's list, each damaged sheet "BOARD/spoilt-N", the other whole sheets "BOARD/on-hand". A whole sheet is as large as
// its board says, else as that of the sheets which has its name, and is trimmed as they are.
func ShopStock(root *source.Node, u length.Unit, sheets []cutting.Stock) ([]cutting.Stock, source.Problems) {
	r := shopReader{unit: shopUnit(root, u)}
	boards := root.Get("boards")
	if boards == nil {
		return nil, nil
	}
	for _, e := range boards.Entries {
		if offcuts := e.Value.Get("offcuts"); offcuts != nil {
			for i, n := range offcuts.Items {
				s := cutting.Stock{ID: fmt.Sprintf("%s/offcut-%d", e.Key, i+1), OnHand: true, Count: 1, Grain: cutting.GrainX}
				s.L, s.W = r.length(n, "length", "of this offcut"), r.length(n, "width", "of this offcut")
				if v := n.Get("count"); v != nil {
					s.Count = r.count(v, 1)
				}
				if v := n.Get("grain"); v != nil {
					s.Grain = r.grain(v)
				}
				r.list = append(r.list, s)
			}
		}
		if n := e.Value.Get("on-hand"); n != nil {
			r.whole(e.Key, e.Value, n, sheets)
		}
	}
	return r.list, r.problems
}

// shopReader gathers what is on hand, and what is wrong with the file.
type shopReader struct {
	unit     length.Unit
	list     []cutting.Stock
	problems source.Problems
}

// whole reads the whole sheets on hand of a board, those with damaged places first.
func (r *shopReader) whole(name string, board, onHand *source.Node, sheets []cutting.Stock) {
	s := cutting.Stock{OnHand: true, Grain: cutting.GrainX}
	if i := slices.IndexFunc(sheets, func(s cutting.Stock) bool { return s.ID == name }); i >= 0 {
		s.L, s.W, s.Trim, s.Grain = sheets[i].L, sheets[i].W, sheets[i].Trim, sheets[i].Grain
	} else if len(sheets) > 0 {
		s.Trim = sheets[0].Trim
	}
	n := r.count(onHand, 0)
	if n == 0 {
		return
	}
	if s.L == 0 || board.Get("length") != nil {
		s.L = r.length(board, "length", "of these sheets")
	}
	if s.W == 0 || board.Get("width") != nil {
		s.W = r.length(board, "width", "of these sheets")
	}
	if v := board.Get("grain"); v != nil {
		s.Grain = r.grain(v)
	}
	if list := board.Get("damaged"); list != nil {
		for i, d := range list.Items[:min(n, len(list.Items))] {
			t := s
			t.ID, t.Count = fmt.Sprintf("%s/spoilt-%d", name, i+1), 1
			long, wide := r.length(d, "length", "of this damage"), r.length(d, "width", "of this damage")
			corner := "start-near"
			if v := d.Get("corner"); v != nil {
				if corner = source.Normal(v.Text); !slices.Contains(corners, corner) {
					r.problems.Add(source.Problem{Span: v.Span, Text: fmt.Sprintf("the corner %q of a sheet is not known", v.Text), Hint: "write " + strings.Join(corners, ", ")})
				}
			}
			t.Damage = []cutting.Rect{t.InCorner(corner, long, wide)}
			r.list = append(r.list, t)
			n--
		}
	}
	if n > 0 {
		s.ID, s.Count = name+"/on-hand", n
		r.list = append(r.list, s)
	}
}

var corners = []string{"start-near", "start-far", "end-near", "end-far"}

// length reads a size that has to be there.
func (r *shopReader) length(n *source.Node, key, of string) length.Length {
	v := n.Get(key)
	if v == nil {
		r.problems.Add(source.Problem{Span: n.Span, Text: "the " + key + " " + of + " is missing", Hint: "write it like " + key + ": 762"})
		return 0
	}
	l, err := length.Parse(v.Text, r.unit)
	var le *length.Error
	if errors.As(err, &le) {
		r.problems.Add(source.Problem{Span: v.Span, Text: fmt.Sprintf("the %s %q %s", key, v.Text, le.Msg), Hint: le.Hint})
	} else if l <= 0 {
		r.problems.Add(source.Problem{Span: v.Span, Text: "the " + key + " is nothing or less", Hint: "write the size " + of})
	}
	return l
}

func (r *shopReader) count(v *source.Node, least int) int {
	c, err := strconv.Atoi(v.Text)
	if err != nil || c < least || c > most {
		r.problems.Add(source.Problem{Span: v.Span, Text: fmt.Sprintf("the count %q is no whole number from %d to %d", v.Text, least, most), Hint: "write how many there are, like 2"})
		return least
	}
	return c
}

func (r *shopReader) grain(v *source.Node) cutting.Grain {
	g := slices.Index(grainWords[:], source.Normal(v.Text))
	if g < 0 {
		r.problems.Add(source.Problem{Span: v.Span, Text: fmt.Sprintf("the grain %q is not known", v.Text), Hint: "write along-length, along-width or none"})
	}
	return cutting.Grain(max(0, g))
}

// ShopLeft gives a shop's stock file as it is when a plan is done: offcuts and sheets that the plan uses are taken out, offcuts
// that it leaves are put in, but for those that a later stage of it uses (BOARD/left-N), and every other byte, comments included, stays. read reads the file's notation.
func ShopLeft(data []byte, read func([]byte) (*source.Node, error), p *cutting.Problem, plan *cutting.Plan) ([]byte, error) {
	edit := func(make func(*source.Node) (source.Edit, error)) error {
		root, err := read(data)
		if err != nil {
			return err
		}
		e, err := make(root)
		if err == nil {
			data, err = source.Apply(root.Span.File, e)
		}
		return err
	}
	used := map[string]int{}
	for _, s := range plan.Sheets {
		used[s.Stock]++
	}
	for i := len(p.Stocks) - 1; i >= 0; i-- { // from the last, so that places before it stay true
		s := &p.Stocks[i]
		n := used[s.ID]
		if n == 0 || !s.OnHand {
			continue
		}
		_, kind, _ := strings.Cut(s.ID, "/")
		kind, number, _ := strings.Cut(kind, "-")
		if kind == "left" { // never in the file
			continue
		}
		at, _ := strconv.Atoi(number)
		board := source.Path{}.Key("boards").Key(Kind(s.ID))
		item := board.Key("offcuts").At(at - 1)
		if kind == "spoilt" {
			item = board.Key("damaged").At(at - 1)
		}
		var err error
		if kind != "on" { // an item of its own
			err = edit(func(root *source.Node) (source.Edit, error) {
				if root.Find(item) == nil {
					return source.Edit{}, fmt.Errorf("the plan cuts from %s, which is not in the file", s.ID)
				}
				if n < s.Count {
					return source.Replace(root, item.Key("count"), strconv.Itoa(s.Count-n))
				}
				return source.Delete(root, item)
			})
		}
		if err == nil && kind != "offcut" {
			err = edit(func(root *source.Node) (source.Edit, error) {
				old := root.Find(board.Key("on-hand"))
				if old == nil {
					return source.Edit{}, fmt.Errorf("the plan cuts from %s, which is not in the file", s.ID)
				}
				have, _ := strconv.Atoi(old.Text)
				return source.Replace(root, board.Key("on-hand"), strconv.Itoa(have-n))
			})
		}
		if err != nil {
			return nil, err
		}
	}
	number := 0 // of offcuts, as stages name what they leave
	for _, s := range plan.Sheets {
		for _, o := range s.Offcuts {
			if o.Scrap {
				continue
			}
			if number++; used[fmt.Sprintf("%s/left-%d", Kind(s.Stock), number)] > 0 {
				continue // a later stage cuts it up
			}
			text := fmt.Sprintf("{length: %s mm, width: %s mm, grain: %s}", o.L.MM(), o.W.MM(), grainWords[s.Grain])
			if err := edit(func(root *source.Node) (source.Edit, error) { return put(root, Kind(s.Stock), text) }); err != nil {
				return nil, err
			}
		}
	}
	return data, nil
}

// put gives the edit that adds an offcut to a board's list; what is not there yet of the way to it is added too.
func put(root *source.Node, board, text string) (source.Edit, error) {
	if root.Kind != source.Map { // nothing but comments yet
		f := root.Span.File
		return source.Edit{Span: source.Span{File: f, Start: len(f.Data), End: len(f.Data)}, Text: "boards: {" + board + ": {offcuts: [" + text + "]}}\n"}, nil
	}
	at := source.Path{}
	for _, key := range []string{"boards", board, "offcuts"} {
		n := root.Find(at)
		next := n.Get(key)
		if next == nil || next.Kind != source.List && key == "offcuts" || next.Kind != source.Map && key != "offcuts" {
			switch key {
			case "offcuts":
				text = "[" + text + "]"
			case "boards":
				text = "{" + board + ": {offcuts: [" + text + "]}}"
			default:
				text = "{offcuts: [" + text + "]}"
			}
			if next != nil { // a key without a value
				return source.Replace(root, at.Key(key), text)
			}
			return source.Insert(root, at, key, text)
		}
		at = at.Key(key)
	}
	return source.Insert(root, at, "", text)
}
