package hydro

import (
	"context"
	"math"
	"testing"
)

// A plan on a drawn gully: each dam holds what bH²/(2k) + zH³/(3k) says, or less where the toe of the next one cuts it off at L:
// b(HL − kL²/2) + z(H²L − HkL² + k²L³/3).
func TestStorageOfAPlan(t *testing.T) {
	d := gully{bedM: 2, side: 2, bankM: 1.6, cellM: .5, way: way{10, 0}}
	grid, _ := d.draw(1)
	cfg := Defaults()
	cfg.Channels.StartAreaM2, cfg.Channels.MinLengthM = 60, 20
	cfg.Siting.CatchmentMinM2, cfg.Siting.MinIncisionM, cfg.Siting.DepositRatio = 0, 0, .5
	p, err := Analyze(context.Background(), grid, cfg, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for i := range p.Layouts {
		sites := p.Layouts[i].Sites
		for k, m := range p.measured(i) {
			s := &sites[k]
			if m.Why != "" {
				t.Logf("%s at %.1f m: %s", s.ID, s.StationM, m.Why)
				continue
			}
			hM, kk := s.EffectiveHeightM, gullySlope*(1-cfg.Siting.DepositRatio)
			body := p.body()
			if dam := p.Designs[i][min(k+1, len(sites)-1)].Dam; dam != nil {
				body = dam.Body
			}
			l := min(hM/kk, storageEndM(sites, k, body)-s.StationM)
			want := d.bedM*(hM*l-kk*l*l/2) + d.side*(hM*hM*l-hM*kk*l*l+kk*kk*l*l*l/3)
			if !(math.Abs(m.SedimentM3/want-1) <= 0.05) { // q is 0.42 and more for dams of 0.6 m and less; see TestStorageOfPrisms
				t.Errorf("%s: %.2f m³ over %.1f m, want %.2f over %.1f; H %.2f", s.ID, m.SedimentM3, m.WedgeLengthM, want, l, hM)
			}
			if !(m.PondM3 <= m.SedimentM3) || !(m.HalfM3 < m.SedimentM3) || !(m.SedimentLowM3 <= m.SedimentM3) {
				t.Errorf("%s: %+v", s.ID, m)
			}
			checked++
		}
	}
	if checked < 2 {
		t.Errorf("%d dams measured", checked)
	}
}
