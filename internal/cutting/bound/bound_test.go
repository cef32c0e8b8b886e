package bound

import "testing"

// Half a sheet cannot be bought: worked by hand from the areas alone. Seven halves of a sheet lie on one
// sheet on hand and on three bought ones, of which the last is half empty.
func TestWholeSheetsAreBought(t *testing.T) {
	halves := []Part{{Ways: [][2]int32{{100, 50}}, Count: 7}}
	for _, c := range []struct {
		name   string
		sheets []Sheet
		want   int64
	}{
		{"one size", []Sheet{{100, 100, 94, 1000}}, 4 * 94},
		{"one on hand", []Sheet{{100, 100, 0, 1}, {100, 100, 94, 1000}}, 3 * 94},
		{"two prices", []Sheet{{100, 100, 0, 1}, {100, 100, 94, 1000}, {100, 50, 50, 1000}}, 2*94 + 50},
		{"the dear one alone", []Sheet{{100, 100, 0, 3}, {100, 100, 94, 1000}, {100, 50, 95, 1000}}, 94},
		{"all on hand", []Sheet{{100, 100, 0, 4}, {100, 100, 94, 1000}}, 0},
	} {
		if got := Cost(c.sheets, halves); got != c.want {
			t.Errorf("%s: at least %d, want %d", c.name, got, c.want)
		}
	}
}

// With many prices only what divides them all is sure.
func TestManyPrices(t *testing.T) {
	sheets := []Sheet{{100, 100, 60, 9}, {100, 90, 56, 9}, {90, 90, 52, 9}, {80, 80, 48, 9}}
	if got := Cost(sheets, []Part{{Ways: [][2]int32{{100, 50}}, Count: 1}}); got != 32 {
		t.Errorf("at least %d, want 32: half of 60 rounded up to a whole four", got)
	}
}
