package drawtest_test

import (
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
)

// What is planted on a sound sheet is found: a text and a line outside the frame, a word cut short, a sheet with
// nothing on it.
func TestJudgeBites(t *testing.T) {
	sheet := func() *draw.Sheet {
		s := draw.A4().Sheet(false)
		s.Strip(draw.TitleBlock{Title: "x", SheetNo: 1, Sheets: 1})
		for i := range 8 {
			s.Text(draw.Pt(40, 40+8*float64(i)), draw.LeastCap, "sound", draw.Start)
		}
		return s
	}
	for _, c := range []struct {
		want  string
		plant func(s *draw.Sheet)
	}{
		{"", func(*draw.Sheet) {}},
		{"stands outside the frame", func(s *draw.Sheet) { s.Text(draw.Pt(14, 120), draw.LeastCap, "out", draw.Start) }},
		{"leaves the frame", func(s *draw.Sheet) { s.Poly(draw.Narrow, draw.Pt(40, 150), draw.Pt(12, 150)) }},
		{"is cut short", func(s *draw.Sheet) { s.Text(draw.Pt(40, 160), draw.LeastCap, "cut sho…", draw.Start) }},
		{"struck by a line", func(s *draw.Sheet) { s.Poly(draw.Narrow, draw.Pt(30, 39), draw.Pt(60, 39)) }},
		{"heading \"Last\" stands alone", func(s *draw.Sheet) { s.Text(draw.Pt(40, 270), 4.2, "Last", draw.Start).Bold = true }},
		{"holds next to nothing", func(s *draw.Sheet) { s.Items = s.Items[:len(s.Items)-8] }},
	} {
		s := sheet()
		c.plant(s)
		got := strings.Join(drawtest.Judge(&draw.Document{Title: "t", Lang: "en", Pages: []draw.Sheet{*s}}), "; ")
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("planted %q, found %q", c.want, got)
		}
	}
}

// A sheet with lines down to its middle is full enough, one with three of them is not, and the share is that of the height.
func TestEmptySheetsAreFound(t *testing.T) {
	for _, c := range []struct {
		lines int
		empty bool
	}{{3, true}, {8, true}, {16, false}, {25, false}} {
		s := draw.A4().Sheet(false)
		s.Strip(draw.TitleBlock{Title: "x", SheetNo: 1, Sheets: 1})
		for i := range c.lines {
			s.Text(draw.Pt(30, 22+10*float64(i)), draw.LeastCap, "line", draw.Start)
		}
		got := drawtest.Empty(&draw.Document{Pages: []draw.Sheet{*s}})
		if (len(got) > 0) != c.empty {
			t.Errorf("%d lines: %q", c.lines, got)
		}
		if h, area := drawtest.Fullness(s); h < float64(c.lines-1)/25 || h > float64(c.lines+1)/25 || area >= h {
			t.Errorf("%d lines fill %.2f of the height and %.2f of the area", c.lines, h, area)
		}
	}
}
