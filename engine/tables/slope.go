package tables

// SlopeFactor is the factor of safety that is asked of a slope in one
// situation.
type SlopeFactor struct {
	ID, Name string
	Factor   float64
	Src      Source
}

func parseSlopeFactor(r *row) SlopeFactor {
	return SlopeFactor{ID: r.text("id"), Name: r.text("name"), Factor: r.num("factor", 1, 1, 3), Src: r.source()}
}

// SlopeFactor gives the factor asked for in a situation; false where there is
// none.
func (s *Set) SlopeFactor(id string) (SlopeFactor, bool) { return s.slopes.get(id) }

// SlopeFactorIDs gives the situations.
func (s *Set) SlopeFactorIDs() []string { return s.slopes.ids }
