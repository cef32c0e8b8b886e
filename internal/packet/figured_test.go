package packet_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// firstMark is the first mark of a head such as "C.2–4front; E.2–4front: box front of drawer, 6 alike".
var firstMark = regexp.MustCompile(`^(\S+?)\.(?:(\d+)–\d+)?([^ ,;:–]+)`)

// bevelled finds the angle of a bevel in what is done.
var bevelled = regexp.MustCompile(`bevel at (\d+°)`)

// drawnFace is what a drawing of a part prints of one face: the figures above and below it, which count along the board,
// and those right of it, which count across.
type drawnFace struct {
	outline       draw.Rect
	along, across []string
	letters       string // and the angles of bevels, of the face and of what is folded out beside it
}

// drawnParts gives the faces of every part that a sheet draws, by its first mark.
func drawnParts(s *draw.Sheet) map[string][]drawnFace {
	out := map[string][]drawnFace{}
	mark, heads := "", false // in which drawing, and whether its head is still to come
	for _, it := range s.Items {
		faces := out[mark]
		switch x := it.(type) {
		case *draw.Anchor:
			mark, heads = "", strings.HasPrefix(x.Name, "card ")
		case *draw.Path:
			if mark != "" && x.Layer == "Part" && x.Line == draw.Visible && len(x.Steps) == 5 {
				out[mark] = append(faces, drawnFace{outline: draw.Rect{X: x.Steps[0].P[0].X, Y: x.Steps[0].P[0].Y, W: x.Steps[2].P[0].X - x.Steps[0].P[0].X, H: x.Steps[2].P[0].Y - x.Steps[0].P[0].Y}})
			}
		case *draw.Text:
			if m := firstMark.FindStringSubmatch(x.Text); heads && m != nil {
				mark, heads = m[1]+"."+m[2]+m[3], false
				out[mark] = nil
			}
			if len(faces) > 0 && x.Layer == "Part" {
				faces[len(faces)-1].letters += x.Text + " "
			}
			if x.Layer != "Dimensions" || len(faces) == 0 {
				continue
			}
			f := &faces[len(faces)-1]
			text, _, _ := strings.Cut(x.Text, " (") // of two units the first
			switch b := x.Box(); {
			case x.Up && (b.Bottom() < f.outline.Y || b.Y > f.outline.Bottom()):
				f.along = append(f.along, text)
			case !x.Up && b.X > f.outline.Right():
				f.across = append(f.across, text)
			}
		}
	}
	delete(out, "")
	return out
}

// placed gives the places that the words under a part's drawing tell of one face and, for the first, of the edges and
// ends beside it, as its drawing prints them: each once, of an even row the first and the last, none at the edge of the board.
func placed(p part.Part, f part.Face, first bool, u view.Units) (along, across []string) {
	say := func(list []string, at []length.Length, most length.Length) []string {
		if len(at) > 4 {
			even := true
			for i := 2; i < len(at); i++ {
				even = even && (at[i]-at[i-1]-at[1]+at[0]).Abs() <= 2
			}
			if even {
				at = []length.Length{at[0], at[len(at)-1]}
			}
		}
		for _, a := range at {
			if t := a.Marked(u.Unit); a > 0 && a < most && !slices.Contains(list, t) {
				list = append(list, t)
			}
		}
		return list
	}
	for _, w := range view.Works(p, u) {
		switch {
		case w.Places() == "": // a bevel or a taper: its figures stand in its words
		case w.Face == f:
			along, across = say(along, w.X, p.Size[0]), say(across, w.Y, p.Size[1])
		case first && (w.Face == part.Near || w.Face == part.Far):
			along = say(along, w.X, p.Size[0])
		case first && (w.Face == part.Start || w.Face == part.End):
			across = say(across, w.X, p.Size[1])
		}
	}
	return along, across
}

// Every place that the words of a part tell stands as a figure in its drawing, at the face it is of and along the edge it
// is measured along, on every paper and in both units; so nothing is cut or bored by words alone.
func TestEveryPlaceHasItsFigure(t *testing.T) {
	list := some()
	for _, name := range list {
		r := plantest.Result(t, name)
		units, papers := []length.Unit{r.Job.Print}, []draw.Paper{paperOf(r.Job.Print)}
		if !testing.Short() && slices.Contains(names, name) {
			units, papers = []length.Unit{length.Inches, length.Millimetres}, []draw.Paper{draw.A4(), draw.Letter(), draw.A3()}
		}
		for _, u := range units {
			for _, paper := range papers {
				r.Job.Print = u
				doc := setOn(t, name, u, paper)
				everyPlace(t, fmt.Sprintf("%s, %s in %s", name, paper.Name, u), r, doc, view.Units{Unit: u})
			}
		}
	}
}

func everyPlace(t *testing.T, what string, r plan.Result, doc draw.Document, u view.Units) {
	parts := map[string]part.Part{}
	for _, p := range r.Assembly.Parts {
		parts[p.Mark] = p
	}
	seen, drawings := 0, 0
	for n := range doc.Pages {
		for mark, faces := range drawnParts(&doc.Pages[n]) {
			p, ok := parts[mark]
			if !ok {
				t.Errorf("%s, sheet %d: a drawing of %q, which is no part", what, n+1, mark)
				continue
			}
			drawings++
			first := view.FirstFace(p)
			for _, w := range view.Works(p, u) {
				want := []string{w.Letter}
				if m := bevelled.FindStringSubmatch(w.What); m != nil && (w.Face == part.Start || w.Face == part.End) {
					want = append(want, m[1])
				}
				for _, x := range want {
					if w.Face > part.Lower && (len(faces) == 0 || !slices.Contains(strings.Fields(faces[0].letters), x)) {
						t.Errorf("%s, sheet %d, %s: no %s at the %s; it has %v", what, n+1, mark, x, view.FaceName(w.Face), faces)
					}
				}
			}
			for k, f := range []part.Face{first, first.Not()} {
				along, across := placed(p, f, k == 0, u)
				var got drawnFace
				if k < len(faces) {
					got = faces[k]
				}
				for _, x := range []struct {
					way       string
					want, has []string
				}{{"along", along, got.along}, {"across", across, got.across}} {
					for _, fig := range x.want {
						if seen++; !slices.Contains(x.has, fig) {
							t.Errorf("%s, sheet %d, %s, %s: no figure %s %s; it has %s", what, n+1, mark, view.FaceName(f), x.way, fig, strings.Join(x.has, ", "))
						}
					}
				}
			}
		}
	}
	t.Logf("%s: %d figures in %d drawings", what, seen, drawings)
	if seen == 0 {
		t.Errorf("%s: no figures", what)
	}
}
