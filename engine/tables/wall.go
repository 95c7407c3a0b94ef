package tables

// WallFactor is the factor of safety that is asked of a gravity wall in one
// respect.
type WallFactor struct {
	ID, Name string
	Factor   float64
	Src      Source
}

func parseWallFactor(r *row) WallFactor {
	return WallFactor{ID: r.text("id"), Name: r.text("name"), Factor: r.num("factor", 1, 1, 3), Src: r.source()}
}

// WallFactor gives the factor asked for in a respect; false where there is
// none.
func (s *Set) WallFactor(id string) (WallFactor, bool) { return s.walls.get(id) }

// WallFactorIDs gives the respects.
func (s *Set) WallFactorIDs() []string { return s.walls.ids }

// Block is a kind of dry-stacked block.
type Block struct {
	ID, Name string
	Gamma    float64 // kN/m3
	TanJoint float64 // friction of block on block without keys
	Src      Source
}

func parseBlock(r *row) Block {
	return Block{ID: r.text("id"), Name: r.text("name"), Gamma: r.num("gamma_kN_m3", 1, 10, 30), TanJoint: r.num("tan_joint", 1, 0.1, 1.5), Src: r.source()}
}

// Block gives a kind of block; false where there is none.
func (s *Set) Block(id string) (Block, bool) { return s.blocks.get(id) }

// BlockIDs gives the kinds of block.
func (s *Set) BlockIDs() []string { return s.blocks.ids }
