package phrases_test

import (
	"strings"
	"testing"

	"stowright/internal/phrases"
)

func TestSay(t *testing.T) {
	list := []phrases.Phrase{
		{"Fit {1} between {2} and {3}:", "{1} zwischen {2} und {3} einsetzen:"},
		{"lower edge {1} in up from the lower end.", "Unterkante {1} in über dem unteren Ende."},
		{"Glue and {1} × {2}.", "{2}, {1} Stück, mit Leim."},
		{"Try the parts together dry.", ""},
	}
	b := phrases.New("de", list, []string{"pocket screw 1 1/4 in, coarse", "left drawers", "back"})
	for _, c := range [][2]string{
		{"Fit A.rail1 between A.left and A.right: lower edge 26 1/2 in up from the lower end. Glue and 4 × pocket screw 1 1/4 in, coarse.",
			"A.rail1 zwischen A.left und A.right einsetzen: Unterkante 26 1/2 in über dem unteren Ende. pocket screw 1 1/4 in, coarse, 4 Stück, mit Leim."},
		{"Try the parts together dry.", "Try the parts together dry."},
		{"Left drawers (C): 12", "Left drawers (C): 12"},
		{"28 1/2 (28.582)", "28 1/2 (28.582)"},
	} {
		if got := b.Say(c[0]); got != c[1] {
			t.Errorf("%q\nis   %q\nmust %q", c[0], got, c[1])
		}
	}
	var asked []string
	for _, p := range b.Asked() {
		asked = append(asked, p.Text)
	}
	if got, want := strings.Join(asked, " | "), "Fit {1} between {2} and {3}: | lower edge {1} in up from the lower end. | Glue and {1} × {2}. | Try the parts together dry."; got != want {
		t.Errorf("asked %s\nmust  %s", got, want)
	}
	var none *phrases.Book
	if none.Say("as it is") != "as it is" {
		t.Error("no book changes a text")
	}
}

func TestFile(t *testing.T) {
	list := []phrases.Phrase{{`Mark it "A", then saw.`, "Mit {1}"}, {"Saw {1} in.", "{1} in sägen."}, {"Dry.", ""}}
	lang, again, wrong := phrases.Read(phrases.Write("de", list))
	if lang != "de" || len(again) != 3 || again[1] != list[1] || again[0] != list[0] {
		t.Errorf("read back as %q %q", lang, again)
	}
	if len(wrong) != 1 || !strings.HasPrefix(wrong[0], "line 2: {1} is not in the sentence") {
		t.Errorf("%q", wrong)
	}
	for file, want := range map[string]string{
		"":                                      "line 1: the file is empty",
		"de,x\n":                                `line 1: the first row is "en" and the other language, as "de"`,
		"en,de\na,b,c\nSaw {1}.,Sägen\n":        "line 2: 3 fields, not two: put a field with a comma in it in quotes; line 3: it leaves out {1}",
		"\ufeffen,de\r\nSaw {1}.,{1} sägen\r\n": "",
	} {
		if _, _, wrong := phrases.Read([]byte(file)); strings.Join(wrong, "; ") != want {
			t.Errorf("%q: %q", file, wrong)
		}
	}
}
