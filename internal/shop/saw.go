package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/length"
)

// saw follows the cutting plan: one step for every sheet; its settings stand in the table of
// the sheet.
func (s *steps) saw() {
	saw := "saw"
	caution := eyes
	for _, t := range s.Practice.Tools {
		switch t.Kind {
		case "table-saw", "panel-saw":
			saw, caution = t.Name, tableSaw
		case "track-saw", "circular-saw":
			if caution == eyes {
				saw, caution = t.Name, handSaw
			}
		}
	}
	for i, sh := range s.Plan.Sheets {
		cuts, settings := 0, 0
		var axis cutting.Axis
		last := length.Length(-1)
		for _, c := range sh.Cuts {
			if c.Work == cutting.Trimming {
				continue
			}
			cuts++
			if c.Axis != axis || c.Setting != last {
				settings++
			}
			axis, last = c.Axis, c.Setting
		}
		st := Step{Phase: Saw, Parts: slices.Clone(s.Marks[i]), Tool: cmp.Or(saw, "saw"), Caution: caution,
			Text: fmt.Sprintf("Sheet %d, %s: trim the edges that will be used, then make its %d cuts at %d settings in the order of its table. Write its mark on every part as it comes off.", i+1, s.board(sh.Stock), cuts, settings)}
		for _, w := range s.Plan.Warnings {
			if w.Sheet == i && w.Kind == cutting.TooHeavy {
				st.Caution = heavy + " " + caution
			}
		}
		s.add(st)
	}
}

// board gives the name of the board that a stock of the cutting plan is.
func (s *steps) board(id string) string {
	id, _, _ = strings.Cut(id, "/")
	if b, ok := s.Catalogue.Board(id); ok {
		return cmp.Or(b.Name, id)
	}
	return id
}
