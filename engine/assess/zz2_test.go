package assess
import ("testing";"context";"fmt";"hillset/engine/model";"hillset/engine/tables")
func TestYY(t *testing.T){
  d,_,_ := model.ReadFile("../../testdata/potato-store-put-right.hillset")
  f := func(v float64)*float64{return &v}
   p := d.Project.Clone()
   for i := range p.Site.Soils { if p.Site.Soils[i].ID=="drift" { p.Site.Soils[i].DigClass="B"; p.Site.Soils[i].Set=append(p.Site.Soils[i].Set,"dig_class") } }
   p.Box.Front, p.Box.Level = 9.2, 100.1
   p.Cut.Batter, p.Cut.SideBatter = 1,1
   p.Cut.Ladders=1
   p.Fill.Backfill="stone"
   p.Fill.FrontTop, p.Fill.BackTop = 0.3,0.35
   p.Box.Ballast = 5200
   p.Bedding.Toe = model.ToeBeam{Depth:1.4, Width:2.4}
   p.Site.Water.DesignHigh, p.Site.Water.Seasonal = f(100.0), f(99.8)
   p.Strengthening.Ribs = model.Ribs{Spacing: 1.2, Post: "shs100x5", RoofBeam: "shs100x5", FloorTie: "shs80x5", Purlins: 2, Purlin: "shs75x4"}
   p.Strengthening.Wales = []model.Wale{{Height: 0.75, Section: "shs60x4"}, {Height: 1.5, Section: "shs60x4"}}
   p.Strengthening.BackWales = []model.Wale{{Height: 0.7, Section: "shs100x5"}, {Height: 1.4, Section: "shs100x5"}, {Height: 2.3, Section: "shs80x5"}}
   r,_ := Run(context.Background(), p, tables.Default())
   for _,b := range r.Blocks { fmt.Println("  ", b.Error()) }
   for i,c := range r.Checks { if i<22 {fmt.Printf("%-18s %-22s %-10s x=%.2f asd %.2f lrfd %.2f  D=%.3f C=%.3f %s\n", c.ID, c.Part, c.Stage, c.Station, c.Ratio, c.RatioLRFD, c.Demand.Val, c.Capacity.Val, c.Missing)
     if c.ID=="sliding"||c.ID=="resultant" { for _,l := range c.Working { fmt.Printf("     %s %s = %.3f  %v\n", l.Text, l.Formula, l.Result.Val, l.Terms)}}} }
   for _,v := range r.Views { if v.Stage.ID=="cut" { fmt.Println("cut height", v.CutHeight, v.Toe, v.Crest)}}
   for _, c := range []float64{-2.3,-2,-1.9,-1.7,-1.2,-1,-0.5,-0.1,0,0.1} { q:=p.Clone(); q.Fill.FrontTop,q.Fill.BackTop=c,c; if c<0.06 {q.Fill.Roof=nil}; rr,_:=Run(context.Background(), q, tables.Default()); g:=rr.Governing(); fmt.Println(c,g.ID,g.Worst()); for _,b := range rr.Blocks { fmt.Println("     ", b.Error()) } }
   Answers(context.Background(), r, tables.Default()); fmt.Printf("%+v\n%+v\n", r.Depth, r.WaterUp)
}
