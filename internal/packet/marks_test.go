package packet

import (
	"strings"
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/part"
)

// Marks that count on stand as one, and no mark gets lost or is made up.
func TestMarksThatCountOn(t *testing.T) {
	var b book
	for _, x := range []struct {
		list []string
		want string
	}{
		{[]string{"A.left"}, "A.left"},
		{[]string{"A.left", "A.right", "B.left"}, "A.left, right; B.left"},
		{[]string{"C.6front", "C.5front", "C.4front"}, "C.4–6front"},
		{[]string{"C.6front", "C.5front", "C.3front"}, "C.6front, 5front, 3front"},
		{[]string{"A.1lip1", "A.1lip4", "A.2lip1", "A.2lip4", "A.3lip1", "A.3lip4"}, "A.1–3lip1, 1–3lip4"},
		{[]string{"A.block1", "A.block3", "A.block2", "A.block4", "B.block1"}, "A.block1–4; B.block1"},
		{[]string{"A.block1", "A.block2", "A.block9", "A.block10", "A.block11"}, "A.block1, block2, block9–11"},
		{[]string{"Top", "A.back"}, "Top; A.back"},
		{[]string{"B.rail2", "B.hang2", "B.hang1"}, "B.rail2, hang1, hang2"},
	} {
		if got := b.marks(x.list); got != x.want {
			t.Errorf("%q: %s; want %s", x.list, got, x.want)
		}
	}
}

// The names of boards that are alike stand in the order of their marks, whichever board comes first in its case.
func TestNamesStandInTheOrderOfTheirMarks(t *testing.T) {
	var b book
	name := map[string]string{"A.rail2": "rear stretcher", "A.hang1": "lower rail", "A.hang2": "upper rail"}
	for _, marks := range [][]string{{"A.rail2", "A.hang2", "A.hang1"}, {"A.hang2", "A.hang1"}, {"A.hang1", "A.rail2", "A.hang2"}, {"A.hang2", "A.rail2", "A.hang1"}} {
		var names, want []string
		for _, m := range marks {
			names = append(names, name[m])
		}
		_, told, _ := strings.Cut(b.marks(marks), ".")
		for _, m := range strings.Split(told, ", ") {
			want = append(want, name["A."+m])
		}
		if got := cutlist.Common(marks, names); got != strings.Join(want, ", ") {
			t.Errorf("%s: %s", b.marks(marks), got)
		}
	}
}

// The picture of a step shows what holds to the boards that it handles and is there: a top that is made before its
// frame is not on this yet, even when a board comes on that both will hold to.
func TestPicturesShowWhatIsThere(t *testing.T) {
	var b book
	for _, j := range [][2]string{{"rail", "leg1"}, {"rail", "leg2"}, {"cleat", "rail"}, {"cleat", "layer1"}, {"layer1", "layer2"}} {
		b.Assembly.Joints = append(b.Assembly.Joints, part.Joint{A: j[0], B: j[1]})
	}
	stood := map[string]bool{"layer1": true, "layer2": true, "leg1": true, "leg2": true, "rail": true, "shelf": true}
	for _, x := range []struct {
		pieces      []string
		shown, left []string
	}{
		{[]string{"cleat", "rail"}, []string{"rail", "leg1", "leg2"}, []string{"layer1", "layer2", "shelf"}},
		{[]string{"layer1", "layer2"}, []string{"layer1", "layer2"}, []string{"leg1", "rail"}},
		{[]string{"shelf"}, []string{"shelf", "layer1", "leg1", "rail"}, nil}, // which nothing holds: all of it
	} {
		got := b.held(x.pieces, stood)
		for _, m := range x.shown {
			if !got[m] {
				t.Errorf("%q: %s is not shown", x.pieces, m)
			}
		}
		for _, m := range x.left {
			if got[m] {
				t.Errorf("%q: %s is shown", x.pieces, m)
			}
		}
	}
}
