package packet_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/stock"
)

// What a job only says is on paper: its wishes and its stages with their times on the first sheet, and what each board is
// called where the sizes that follow its thickness stand.
func TestWhatIsOnlySaidIsOnPaper(t *testing.T) {
	r := plantest.Result(t, "ostler-row")
	doc := set(t, "ostler-row")
	read := func(pages []draw.Sheet) string {
		var words strings.Builder
		for i := range pages {
			for _, it := range pages[i].Items {
				if x, ok := it.(*draw.Text); ok {
					words.WriteString(x.Text + " ")
				}
			}
		}
		return strings.Join(strings.Fields(words.String()), " ")
	}
	first, all := read(doc.Pages[:1]), read(doc.Pages)
	said := 0
	for _, x := range r.Job.File.Wishes {
		said++
		if !strings.Contains(first, x) {
			t.Errorf("the first sheet does not say %q", x)
		}
	}
	for _, x := range r.Job.File.Stages {
		for _, w := range []string{x.Name, x.When} {
			if w == "" {
				continue
			}
			said++
			if !strings.Contains(first, w) {
				t.Errorf("the first sheet does not say %q of stage %s", w, x.ID)
			}
		}
	}
	called := func(b stock.Board) bool {
		for _, p := range r.Assembly.Parts {
			if p.Material == part.Board && p.Stock == b.ID {
				return b.Nominal > 0
			}
		}
		return false
	}
	named := 0
	for _, b := range r.Job.Catalogue.Boards {
		if called(b) && strings.Contains(all, b.Name+", called "+b.Nominal.Exact(r.Job.Print)) {
			named++
		}
	}
	if said < 4 || named == 0 {
		t.Errorf("%d words of the job are looked for; %d boards are called what they are called", said, named)
	}
}

// The first sheet calls what is built by words that stand on the sheets of it, too.
func TestTheFirstSheetUsesTheWordsOfTheSet(t *testing.T) {
	boards := 0
	for _, name := range []string{"marram-point", "fennel-street"} {
		for _, s := range set(t, name).Pages {
			for _, it := range s.Items {
				if x, ok := it.(*draw.Text); ok {
					if strings.Contains(strings.ToLower(x.Text), "hutch") {
						t.Errorf("%s: %q", name, x.Text)
					}
					if strings.Contains(x.Text, "hook board") {
						boards++
					}
				}
			}
		}
	}
	if boards == 0 {
		t.Error("no hook board is named")
	}
}

// What does not stand as it was measured is said to be on end, on edge or lying, by what is highest so: sail bags of 700 by 300
// by 300 on end in a rack, coils of rope 360 across on edge, flares 250 long lying in a drawer.
func TestHowGoodsAreTurnedIsSaid(t *testing.T) {
	var words strings.Builder
	for _, s := range set(t, "marram-point").Pages {
		for _, it := range s.Items {
			if x, ok := it.(*draw.Text); ok {
				words.WriteString(x.Text + " ")
			}
		}
	}
	all := strings.Join(strings.Fields(words.String()), " ")
	for _, w := range []string{"F, sail bags: 2 on the bottom (on end)", "K, rope coils: 8 on the bottom (on edge)", "C, rolling drawers: 4 in drawer 3 (lying)"} {
		if !strings.Contains(all, w) {
			t.Errorf("nothing says %q", w)
		}
	}
}

// Every cut that leaves nothing but dust on one side of the blade is called a shaving in the tables of cuts, no other is, and
// what has to be known of one is told where there is one. By area: what comes off is the kerf alone.
func TestShavingsAreTold(t *testing.T) {
	seen := 0
	for _, name := range []string{"one-case", "fennel-street", "marram-point"} {
		r := plantest.Result(t, name)
		rows := 0 // of tables of sheets; cuts at one setting share one
		for _, s := range r.Plan.Sheets {
			was := ""
			for _, c := range s.Cuts {
				if c.Work == cutting.Trimming {
					continue
				}
				whole, off := c.Of.L, c.At-c.Of.X
				if c.Axis == cutting.Y {
					whole, off = c.Of.W, c.At-c.Of.Y
				}
				this := ""
				if c.Work > cutting.Recut && (off == 0 || whole-off == c.Kerf) {
					this = fmt.Sprint(c.Setting, c.Axis)
				}
				if this != "" && this != was {
					rows++
				}
				was = this
			}
		}
		told, how := 0, 0
		for _, p := range set(t, name).Pages {
			for _, it := range p.Items {
				if x, ok := it.(*draw.Text); ok {
					if strings.HasSuffix(x.Text, ", shaving") {
						told++
					}
					how += strings.Count(x.Text, "Shaving:")
				}
			}
		}
		if seen += rows; told < rows || rows == 0 && told > 0 || (how > 0) != (rows > 0) {
			t.Errorf("%s: %d shavings, %d told, %d times how", name, rows, told, how)
		}
	}
	if seen < 5 {
		t.Errorf("%d shavings", seen)
	}
}
