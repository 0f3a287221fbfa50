package workbook
import ("testing";"os";"siltstep/cmd/internal/facts";"siltstep/cmd/internal/field";"siltstep/cmd/internal/report";"io";"siltstep/cmd/internal/units")
func TestTry(t *testing.T){ f,err:=facts.Read("/tmp/d6c"); if err!=nil{t.Fatal(err)}
 os.MkdirAll("/tmp/fieldtry",0o755)
 for n,w:=range map[string]func(io.Writer)error{"plan.xlsx":func(w io.Writer)error{return Write(w,f)},"sites.gpx":func(w io.Writer)error{return field.WriteGPX(w,f,field.Options{})},"sites-us.gpx":func(w io.Writer)error{return field.WriteGPX(w,f,field.Options{System:units.US})},"sites.kml":func(w io.Writer)error{return field.WriteKML(w,f,field.Options{})},"sites.csv":func(w io.Writer)error{return field.WriteSites(w,f)},"stakeout.csv":func(w io.Writer)error{return field.WriteStakeout(w,f)},"plan.schema.json":report.WritePlanSchema}{
 o,_:=os.Create("/tmp/fieldtry/"+n); if err:=w(o);err!=nil{t.Error(n,err)}; o.Close()}}
