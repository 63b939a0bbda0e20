package basin

import (
	"bytes"
	"fmt"
	"testing"
)

// large is a basin of n units, a hundred to a reach.
func large(n int) (units, reaches []byte) {
	var u, r bytes.Buffer
	u.WriteString("id,area_ha,soil,cover,slope_percent,drained,to,length_m\n")
	r.WriteString("id,to,length_m,slope_percent,width_m,roughness\n")
	for i := range n {
		fmt.Fprintf(&u, "u%05d,%d,%s,corn; soybean,0.%d,%s,r%d,%d\n", i, 1+i%60, []string{"loam", "clay"}[i%2], 1+i%9, []string{"no", "yes"}[i%3/2], i/100, i%900)
	}
	for i := range (n + 99) / 100 {
		to := fmt.Sprintf("r%d", (i-1)/2)
		if i == 0 {
			to = Outlet
		}
		fmt.Fprintf(&r, "r%d,%s,800,0.05,2,0.035\n", i, to)
	}
	return u.Bytes(), r.Bytes()
}

// TestLarge: ten thousand units are read, and as many faults of one kind are one line.
func TestLarge(t *testing.T) {
	units, reaches := large(10_000)
	b, err := read(map[string][]byte{"units.csv": units, "reaches.csv": reaches})
	if err != nil || len(b.Units) != 10_000 || len(b.Reaches) != 100 {
		t.Fatal(err)
	}
	_, err = read(map[string][]byte{"units.csv": bytes.ReplaceAll(units, []byte(",clay,"), []byte(",peat,")), "reaches.csv": reaches})
	if err == nil || bytes.Count([]byte(err.Error()), []byte("\n")) != 0 {
		t.Errorf("%.500v", err)
	}
}

func BenchmarkRead(b *testing.B) {
	units, reaches := large(10_000)
	for b.Loop() {
		if _, err := read(map[string][]byte{"units.csv": units, "reaches.csv": reaches}); err != nil {
			b.Fatal(err)
		}
	}
}
