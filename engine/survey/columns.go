package survey

import (
	"slices"
	"strings"

	"hillset/engine/quantity"
)

// Role is what a column of a table holds.
type Role string

// The roles.
const (
	NameCol   Role = "point"
	Distance  Role = "distance" // horizontal, into the hill
	Level     Role = "level"
	SlopeDist Role = "slope distance"
	Angle     Role = "angle"
	Grade     Role = "grade"
	Backsight Role = "backsight"
	Between   Role = "intermediate sight"
	Foresight Role = "foresight"
	UpperHair Role = "upper hair"
	MidHair   Role = "middle hair"
	LowerHair Role = "lower hair"
	Ignored   Role = "" // a remark, or a heading that says nothing here
)

// Form is what a table is a table of.
type Form int

// The forms.
const (
	DistanceLevel Form = iota // points by distance and level
	SlopeShots                // slope distance with an angle or a grade
	LevelBook                 // backsight, intermediate sight, foresight
	StadiaSights              // three hairs and an angle
)

// layout says which columns a form needs and in which order they stand when
// there is no heading. The name may stand before them.
type layout struct {
	order    []Role
	need     []Role
	oneOf    []Role // one of these is needed too
	optional []Role // cells of these may be empty
}

var layouts = map[Form]layout{
	DistanceLevel: {order: []Role{Distance, Level}, need: []Role{Distance, Level}},
	SlopeShots:    {order: []Role{SlopeDist, Angle}, need: []Role{SlopeDist}, oneOf: []Role{Angle, Grade}},
	LevelBook: {order: []Role{Backsight, Between, Foresight}, need: []Role{Backsight, Foresight},
		optional: []Role{Backsight, Between, Foresight, Distance}},
	StadiaSights: {order: []Role{UpperHair, MidHair, LowerHair, Angle}, need: []Role{UpperHair, MidHair, LowerHair, Angle}},
}

func (l layout) wants(r Role) bool {
	return slices.Contains(l.need, r) || slices.Contains(l.oneOf, r) || slices.Contains(l.optional, r)
}

func kindOf(r Role) quantity.Kind {
	switch r {
	case Angle:
		return quantity.Angle
	case Grade:
		return quantity.Gradient
	}
	return quantity.Length
}

// Column is one column of a table as it was understood.
type Column struct {
	Heading string // as it stands; empty without headings
	Role    Role
	Unit    string // named in the heading; empty for the reader's own
}

// headings are the words for each role, in lower case.
var headings = map[Role][]string{
	NameCol:   {"point", "pt", "name", "id", "no", "nr", "peg", "mark"},
	Distance:  {"distance", "dist", "d", "x", "chainage", "ch", "station", "sta", "offset", "horizontal distance", "run", "horizontal"},
	Level:     {"level", "lev", "elevation", "elev", "z", "rl", "reduced level", "height", "altitude", "ground"},
	SlopeDist: {"slope distance", "slope dist", "slope", "sd", "s", "tape", "taped"},
	Angle:     {"angle", "vertical angle", "inclination", "slope angle", "theta", "θ"},
	Grade:     {"grade", "gradient", "percent", "pct"},
	Backsight: {"bs", "backsight", "back sight", "back"},
	Between:   {"is", "intermediate", "intermediate sight", "inter"},
	Foresight: {"fs", "foresight", "fore sight", "fore"},
	UpperHair: {"upper", "top", "upper hair", "u"},
	MidHair:   {"mid", "middle", "middle hair", "m hair", "axial"},
	LowerHair: {"lower", "bottom", "lower hair", "l"},
}

// headingUnits are the units that a heading may end in without brackets.
var headingUnits = []string{"m", "cm", "mm", "ft", "feet", "in", "deg", "degrees", "°", "%", "gon", "rad"}

// heading understands one cell of a heading row: "Distance (ft)", "x/m",
// "Level, m", "Slope %".
func heading(cell string) Column {
	c := Column{Heading: strings.TrimSpace(cell)}
	name := strings.ToLower(c.Heading)
	if i := strings.IndexAny(name, "([{"); i >= 0 {
		c.Unit = strings.Trim(name[i:], "()[]{} ")
		name = name[:i]
	} else if i := strings.LastIndexAny(name, ",/ "); i >= 0 && slices.Contains(headingUnits, strings.TrimSpace(name[i+1:])) {
		c.Unit = strings.TrimSpace(name[i+1:])
		name = name[:i]
	} else if strings.HasSuffix(name, "%") || strings.HasSuffix(name, "°") {
		r := []rune(name)
		c.Unit, name = string(r[len(r)-1:]), string(r[:len(r)-1])
	}
	name = strings.Join(strings.Fields(strings.Trim(strings.ReplaceAll(name, "_", " "), " .,:/")), " ")
	for role, words := range headings {
		if slices.Contains(words, name) {
			c.Role = role
		}
	}
	switch {
	case c.Unit == "%" && (c.Role == SlopeDist || c.Role == Angle || name == ""):
		c.Role = Grade
	case slices.Contains([]string{"°", "deg", "degrees", "gon", "rad"}, c.Unit) && (c.Role == SlopeDist || name == ""):
		c.Role = Angle
	}
	return c
}
