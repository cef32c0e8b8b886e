package packet

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"
)

// What goes on from a card comes after it, on the same sheet or a later one, however cards of all heights are packed.
func TestCardsGoOnAfterTheyBegin(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	parted := 0
	for range 400 {
		var list []card
		for i := range 3 + r.IntN(12) {
			c := card{group: i, high: 15 + 200*r.Float64(), at: len(list)}
			list = append(list, c)
			if r.IntN(3) == 0 {
				list[len(list)-1].high = 230
				list = append(list, card{group: i, high: 15 + 60*r.Float64(), at: len(list), more: true})
				parted++
			}
		}
		high := slices.Clone(list)
		slices.SortStableFunc(high, func(x, y card) int { return cmp.Compare(y.high, x.high) })
		for _, order := range [][]card{list, high} {
			begun, n := map[int]bool{}, 0
			for _, sheet := range stackCards(order, 2, 1+r.IntN(2), 230*r.Float64(), 240) {
				for _, column := range sheet.columns {
					for _, c := range column {
						n++
						if c.more && !begun[c.group] {
							t.Fatalf("the card of group %d goes on before it begins", c.group)
						}
						begun[c.group] = begun[c.group] || !c.more
					}
				}
			}
			if n != len(list) {
				t.Fatalf("%d of %d cards are put", n, len(list))
			}
		}
	}
	if parted == 0 {
		t.Error("no card was parted")
	}
}
