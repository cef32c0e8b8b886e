package packet_test

import (
	"strings"
	"testing"

	"stowright/internal/plan/plantest"
)

// What is found is told of things by the names that the drawings have, never by those of the job's file alone, of bays
// as the program counts them, or with what only the program understands.
func TestFindingsUseTheNamesOfTheDrawings(t *testing.T) {
	ids := 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		text := " " + words(set(t, name)) + " "
		for _, w := range []string{"in-drawer-", "-tray-", " --prefer", "(--", "/in/"} {
			if i := strings.Index(text, w); i >= 0 {
				t.Errorf("%s: %q: …%s…", name, w, text[max(0, i-60):min(len(text), i+60)])
			}
		}
		var named []string
		for _, o := range r.Assembly.Owners {
			named = append(named, strings.ToLower(o.Name))
		}
		for _, o := range r.Assembly.Owners {
			id := strings.ToLower(o.ID)
			if strings.Contains(strings.Join(named, " / "), id) || !strings.Contains(id, " ") || o.Name == "" {
				continue
			}
			ids++
			if i := strings.Index(strings.ToLower(text), " "+id); i >= 0 {
				t.Errorf("%s: %q is %q on the drawings: …%s…", name, o.ID, o.Name, text[max(0, i-60):min(len(text), i+60)])
			}
		}
	}
	if ids < 2 {
		t.Errorf("only %d names of the file differ from those of the drawings", ids)
	}
}
