package report

import (
	"bytes"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/hydro/checkdam"
)

// A trench of bed 2 m at 100 m with banks 1:1, samples 1 m apart; a dam whose top stands at 100.8 m and whose notch, 1 m wide with
// sides 1:1, has its sill at 100.5 m. By hand: the top meets the banks at ∓1.8 m, the notch opens at ∓0.8 m and reaches the sill at ∓0.5 m.
func TestDamSectionTable(t *testing.T) {
	ground := []checkdam.Point{{OffsetM: -3, LevelM: 102}, {OffsetM: -2, LevelM: 101}, {OffsetM: -1, LevelM: 100}, {OffsetM: 0, LevelM: 100}, {OffsetM: 1, LevelM: 100}, {OffsetM: 2, LevelM: 101}, {OffsetM: 3, LevelM: 102}}
	rise := func(x, z, crest float64) checkdam.Rise {
		return checkdam.Rise{OffsetM: x, GroundM: z, CrestM: crest}
	}
	notched := []checkdam.Rise{rise(-1.8, 100.8, 100.8), rise(-1, 100, 100.8), rise(-0.8, 100, 100.8), rise(-0.5, 100, 100.5), rise(0.5, 100, 100.5), rise(0.8, 100, 100.8), rise(1, 100, 100.8), rise(1.8, 100.8, 100.8)}
	const head = "offset_m,ground_m,dam_m\n"
	for _, test := range []struct {
		name   string
		noData []int // samples
		dam    [][]checkdam.Rise
		want   string
	}{
		{"with a notch", nil, [][]checkdam.Rise{notched}, "-3.000,102.000,\n-2.000,101.000,\n-1.800,100.800,100.800\n-1.000,100.000,100.800\n-0.800,100.000,100.800\n-0.500,100.000,100.500\n" +
			"0.000,100.000,100.500\n0.500,100.000,100.500\n0.800,100.000,100.800\n1.000,100.000,100.800\n1.800,100.800,100.800\n2.000,101.000,\n3.000,102.000,\n"},
		{"upright notch, two rows at its side", nil, [][]checkdam.Rise{{rise(-1.8, 100.8, 100.8), rise(0, 100, 100.8), rise(0, 100, 100.5), rise(1.5, 100.5, 100.5)}},
			"-3.000,102.000,\n-2.000,101.000,\n-1.800,100.800,100.800\n-1.000,100.000,100.800\n0.000,100.000,100.800\n0.000,100.000,100.500\n1.000,100.000,100.500\n1.500,100.500,100.500\n2.000,101.000,\n3.000,102.000,\n"},
		{"no data at the thalweg and outside", []int{0, 3}, [][]checkdam.Rise{notched},
			"-3.000,,\n-2.000,101.000,\n-1.800,100.800,100.800\n-1.000,100.000,100.800\n-0.800,,100.800\n-0.500,,100.500\n" +
				"0.000,,100.500\n0.500,,100.500\n0.800,,100.800\n1.000,100.000,100.800\n1.800,100.800,100.800\n2.000,101.000,\n3.000,102.000,\n"},
		{"two stretches", nil, [][]checkdam.Rise{{rise(-1.5, 100.5, 100.5), rise(-1, 100, 100.5), rise(-0.5, 100.5, 100.5)}, {rise(1, 100, 100.5), rise(1.5, 100.5, 100.5)}},
			"-3.000,102.000,\n-2.000,101.000,\n-1.500,100.500,100.500\n-1.000,100.000,100.500\n-0.500,100.000,100.500\n0.000,100.000,\n1.000,100.000,100.500\n1.500,100.500,100.500\n2.000,101.000,\n3.000,102.000,\n"},
		{"no dam", nil, nil, "-3.000,102.000,\n-2.000,101.000,\n-1.000,100.000,\n0.000,100.000,\n1.000,100.000,\n2.000,101.000,\n3.000,102.000,\n"},
	} {
		t.Run(test.name, func(t *testing.T) {
			g := slices.Clone(ground)
			for _, i := range test.noData {
				g[i].LevelM = math.NaN()
			}
			var b bytes.Buffer
			if err := WriteDamSection(&b, g, test.dam); err != nil {
				t.Fatal(err)
			}
			if got := b.String(); got != head+test.want {
				t.Errorf("got\n%s\nwant\n%s", got, head+test.want)
			}
		})
	}
	if err := WriteDamSection(fullDisk{}, ground, nil); err == nil || !strings.Contains(err.Error(), "disk full") {
		t.Errorf("a full disk: %v", err)
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("disk full") }
