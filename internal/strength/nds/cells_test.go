package nds_test

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/strength/nds"
	"stowright/internal/strength/unit"
)

// Every cell of tables 12J, 12K, 12L, 12M, 12.2A, B, C and F for the sizes, species and thicknesses that they print, and
// of the combined load, against a program that shares no code with this one (testdata/cells.csv says from what it was made).
// Cells that are published and were read are in the tests beside this one: 12L 90, 73, 117; 12M 116; 12J 120, 80, 390; 12K 220.
func TestCellsOfAnotherProgram(t *testing.T) {
	f, err := os.Open("testdata/cells.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	seen := map[string]int{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		w := strings.Split(lines.Text(), ",")
		num := func(i int) float64 {
			v, err := strconv.ParseFloat(w[i], 64)
			if err != nil {
				t.Fatal(lines.Text(), err)
			}
			return v
		}
		ts, g, angle, want := num(2), num(3), num(4), num(5)
		var got float64
		switch w[0] {
		case "12L":
			got = tabulated(screw(t, int(num(1))), ts, g, 0, angle, angle).Lateral().Z / unit.PoundForce
		case "12M":
			got = tabulated(screw(t, int(num(1))), ts, g, nds.SteelSheet, angle, angle).Lateral().Z / unit.PoundForce
		case "12J":
			got = tabulated(lag(t, w[1]), ts, g, 0, angle, angle).Lateral().Z / unit.PoundForce
		case "12K":
			got = tabulated(lag(t, w[1]), ts, g, nds.SteelSheet, angle, angle).Lateral().Z / unit.PoundForce
		case "12.2A":
			per, _ := lag(t, w[1]).Withdrawal(g)
			got = per / unit.PoundPerInch
		case "12.2B":
			per, _ := screw(t, int(num(1))).Withdrawal(g)
			got = per / unit.PoundPerInch
		case "12.2C":
			per, _ := nail(t, w[1]).Withdrawal(g)
			got = per / unit.PoundPerInch
		case "12.2F":
			got = nds.PullThrough(num(1)*unit.Inch, ts*unit.Inch, g) / unit.PoundForce
		case "12.4 screw":
			got = screw(t, 10).Combined(num(1), ts, angle)
		case "12.4 nail":
			got = nail(t, "8d common").Combined(num(1), ts, angle)
		default:
			t.Fatalf("no table %s", w[0])
		}
		seen[w[0]]++
		if math.Abs(got-want) > 0.001*want+0.001 {
			t.Errorf("%s: %.3f", lines.Text(), got)
		}
	}
	for _, table := range []string{"12L", "12M", "12J", "12K", "12.2A", "12.2B", "12.2C", "12.2F", "12.4 screw", "12.4 nail"} {
		if seen[table] < 30 {
			t.Errorf("%d cells of %s", seen[table], table)
		}
	}
}
