package list

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/source"
)

// A shop's stock file has the offcuts of every board where a job has them:
//
//	boards:
//	  birch-18:
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

// ShopOffcuts reads the offcuts on hand from a shop's stock file. Each becomes a stock of its own with the id
// "BOARD/offcut-N", N its place in the board's list.
func ShopOffcuts(root *source.Node, u length.Unit) ([]cutting.Stock, source.Problems) {
	var list []cutting.Stock
	var ps source.Problems
	u = shopUnit(root, u)
	boards := root.Get("boards")
	if boards == nil {
		return nil, nil
	}
	for _, e := range boards.Entries {
		offcuts := e.Value.Get("offcuts")
		if offcuts == nil {
			continue
		}
		for i, n := range offcuts.Items {
			s := cutting.Stock{ID: fmt.Sprintf("%s/offcut-%d", e.Key, i+1), OnHand: true, Count: 1, Grain: cutting.GrainX}
			for _, side := range []struct {
				key string
				l   *length.Length
			}{{"length", &s.L}, {"width", &s.W}} {
				v := n.Get(side.key)
				if v == nil {
					ps.Add(source.Problem{Span: n.Span, Text: "the " + side.key + " of this offcut is missing", Hint: "write it like " + side.key + ": 762"})
					continue
				}
				l, err := length.Parse(v.Text, u)
				var le *length.Error
				if errors.As(err, &le) {
					ps.Add(source.Problem{Span: v.Span, Text: fmt.Sprintf("the %s %q %s", side.key, v.Text, le.Msg), Hint: le.Hint})
				} else if l <= 0 {
					ps.Add(source.Problem{Span: v.Span, Text: "the " + side.key + " is nothing or less", Hint: "write the size of the offcut"})
				}
				*side.l = l
			}
			if v := n.Get("count"); v != nil {
				c, err := strconv.Atoi(v.Text)
				if err != nil || c < 1 || c > most {
					ps.Add(source.Problem{Span: v.Span, Text: fmt.Sprintf("the count %q is no whole number from 1 to %d", v.Text, most), Hint: "write how many there are, like 2"})
				}
				s.Count = c
			}
			if v := n.Get("grain"); v != nil {
				g := slices.Index(grainWords[:], source.Normal(v.Text))
				if g < 0 {
					ps.Add(source.Problem{Span: v.Span, Text: fmt.Sprintf("the grain %q of an offcut is not known", v.Text), Hint: "write along-length, along-width or none"})
				}
				s.Grain = cutting.Grain(max(0, g))
			}
			list = append(list, s)
		}
	}
	return list, ps
}

// ShopLeft gives a shop's stock file as it is when a plan is done: offcuts that the plan uses are taken out, those that it
// leaves are put in, and every other byte, comments included, stays. read reads the file's notation.
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
		at := 0
		if _, err := fmt.Sscanf(s.ID, Kind(s.ID)+"/offcut-%d", &at); err != nil || n == 0 {
			continue
		}
		item := source.Path{}.Key("boards").Key(Kind(s.ID)).Key("offcuts").At(at - 1)
		err := edit(func(root *source.Node) (source.Edit, error) {
			if n < s.Count {
				return source.Replace(root, item.Key("count"), strconv.Itoa(s.Count-n))
			}
			return source.Delete(root, item)
		})
		if err != nil {
			return nil, err
		}
	}
	for _, s := range plan.Sheets {
		for _, o := range s.Offcuts {
			if o.Scrap {
				continue
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
