package hydro_test
import ("testing";"siltstep/hydro";"math")
func TestZZ(t *testing.T){
 p:=analyze(t, country(true), func(c *hydro.Config){priced(c); c.Siting.CatchmentMaxM2=1e6; c.Siting.Engineer=true; c.Siting.BedWidthMaxM=12}, nil)
 var kept, likely,room [5]float64
 big:=0.0
 for i,d:=range p.Network.Drainages { 
   t.Logf("%s into %d ha %g series %d", d.ID, d.Into, p.Layouts[i].Sites[0].CatchmentM2/1e4, len(p.Layouts[i].SeriesTreatedM))
   if d.Into<0 { big+=p.Layouts[i].Sites[0].CatchmentM2/1e4 }
   k:=0; for _,r:=range p.Layouts[i].Reaches { t.Logf("   %.1f-%.1f %v %v %v", r.FromM,r.ToM,r.Eligible,r.Reasons,r.Notes)}
   for _,f:=range p.FillingOf(i) { if f.Series==0 { kept[k]+=f.High*f.RoomM3; likely[k]+=f.Likely*f.RoomM3;room[k]+=f.RoomM3; k++ } } }
 for k,y:=range []float64{1,2,5,10,20} { t.Logf("%g y: kept %g of %g (land yields %g); likely %g of %g", y,kept[k], big*3*y*.8, big*3*y, likely[k], big*y*math.Sqrt(1.5)*.5) }
}
