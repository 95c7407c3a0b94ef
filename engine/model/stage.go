package model

// Kinds of stage: what the drawing shows and which parts exist.
const (
	StageNatural  = "natural"  // the hill as found
	StageCut      = "cut"      // the cut is open
	StageSet      = "set"      // the box stands in the cut
	StageBackfill = "backfill" // fill is part way up the walls
	StageService  = "service"  // finished
)

// Which water acts in a stage.
const (
	WaterNone     = "none"
	WaterSeasonal = "seasonal"
	WaterHigh     = "high"
)

// Stage switches things on. Every check names the stage that governs it.
type Stage struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Kind string `json:"kind"`
	// FillTo is how far the fill has come up the walls in a backfill stage,
	// as a share of its finished height beside the wall, 0 to 1.
	FillTo float64 `json:"fill_to,omitempty"`
	// OneSide is true when one side is ahead by Fill.MaxAhead.
	OneSide    bool     `json:"one_side,omitempty"`
	Compacting bool     `json:"compacting,omitempty"`    // the plant works beside the wall; in service its stress stays in any case
	Cover      bool     `json:"cover,omitempty"`         // the roof cover is on
	Water      string   `json:"water,omitempty"`         // WaterNone, WaterSeasonal, WaterHigh
	Blocked    bool     `json:"drain_blocked,omitempty"` // no drain takes water: blocked, or the pump dead
	Snow       bool     `json:"snow,omitempty"`
	Quake      bool     `json:"quake,omitempty"`
	Surcharges []string `json:"surcharges,omitempty"` // ids of those that act
	Years      float64  `json:"years,omitempty"`      // rust since the box was set
}

// DefaultStages is the ordinary order of work. Surcharges named in ids act in
// the plant stage.
func DefaultStages(ids ...string) []Stage {
	return []Stage{
		{ID: "natural", Name: "Natural hill", Kind: StageNatural},
		{ID: "cut", Name: "Cut open", Kind: StageCut},
		{ID: "set", Name: "Box set", Kind: StageSet},
		{ID: "lift-low", Name: "Backfill to one third, one side ahead", Kind: StageBackfill, FillTo: 1.0 / 3, OneSide: true, Compacting: true},
		{ID: "lift-mid", Name: "Backfill to two thirds, one side ahead", Kind: StageBackfill, FillTo: 2.0 / 3, OneSide: true, Compacting: true},
		{ID: "lift-top", Name: "Backfill to the top, compacting", Kind: StageBackfill, FillTo: 1, Compacting: true},
		{ID: "cover", Name: "Cover on", Kind: StageService, FillTo: 1, Cover: true, Compacting: true},
		{ID: "plant", Name: "Machine on top", Kind: StageService, FillTo: 1, Cover: true, Surcharges: ids},
		{ID: "dry", Name: "In service, dry", Kind: StageService, FillTo: 1, Cover: true, Water: WaterNone},
		{ID: "wet", Name: "In service, seasonal water", Kind: StageService, FillTo: 1, Cover: true, Water: WaterSeasonal},
		{ID: "high", Name: "In service, high water", Kind: StageService, FillTo: 1, Cover: true, Water: WaterHigh},
		{ID: "snow", Name: "Snow on the cover", Kind: StageService, FillTo: 1, Cover: true, Water: WaterSeasonal, Snow: true},
	}
}
