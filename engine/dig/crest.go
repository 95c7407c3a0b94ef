package dig

import (
	"errors"
	"fmt"

	"hillset/engine/quantity"
)

// ErrNoDaylight says that a batter never meets a ground that rises as fast.
var ErrNoDaylight = errors.New("the face never meets the ground: the hill rises as fast as the batter")

// steepest is the steepest ground that a cut is reckoned in, rise per run.
const steepest = 10.0

// Crest is where the back face of a cut in a hillside meets the ground:
// height above the toe and distance behind it, m. d0 is the height of the
// ground over the toe, rise the rise of the ground per metre uphill (negative
// where it falls), n the batter (H:V). h = d0/(1 − n·rise), x = n·h (derived).
// Where n·rise reaches 1 the error is ErrNoDaylight; other errors name the
// value out of range. The rules of slope look at h, not at d0.
func Crest(d0, rise, n float64) (h, x float64, err error) {
	if err := quantity.Within("ground over the toe", d0, 0, mostHeight, quantity.Length); err != nil {
		return 0, 0, err
	}
	k, err := closing(rise, n)
	if err != nil {
		return 0, 0, err
	}
	h = d0 / k
	return h, n * h, nil
}

// DeepestToe is the greatest height of ground over the toe, m, that keeps the
// crest within the 20 ft for which the table of slopes holds (derived).
// Arguments and errors are those of Crest.
func DeepestToe(rise, n float64) (float64, error) {
	k, err := closing(rise, n)
	return tabulatedTo * k, err
}

// closing is 1 − n·rise: how fast the face gains on the ground.
func closing(rise, n float64) (float64, error) {
	if err := quantity.Range("rise of the ground", rise, -steepest, steepest); err != nil {
		return 0, err
	}
	if err := quantity.Range("batter (H:V)", n, 0, mostRun); err != nil {
		return 0, err
	}
	k := 1 - n*rise
	if k <= slopeTol {
		return 0, fmt.Errorf("batter %g:1 in ground rising %s: %w", n, quantity.Text(rise, quantity.Gradient), ErrNoDaylight)
	}
	return k, nil
}

// Layer is one layer of ground that a cut goes through.
type Layer struct {
	Class  string
	Height float64 // m
}

// LayeredRun is the least horizontal run of a face through layers given from
// the top down, level ground above, and the slope of each layer in the same
// order (R8). A height of more than 20 ft in all sets engineer.
func LayeredRun(layers []Layer) (run float64, n []float64, engineer bool, err error) {
	in := BatterInput{}
	at := 0.0
	for i := len(layers) - 1; i >= 0; i-- {
		top := at + layers[i].Height
		in.Pieces = append(in.Pieces, Piece{Stratum: layers[i].Class, Class: layers[i].Class, Foot: at, Top: top})
		at = top
	}
	if err := in.check(); err != nil {
		return 0, nil, false, err
	}
	req := Requirement{N: make([]float64, len(in.Pieces))}
	req.classify(in)
	req.layers()
	n = make([]float64, len(layers))
	for i, l := range layers {
		n[i] = req.N[len(layers)-1-i]
		run += n[i] * l.Height
	}
	return run, n, exceeds(at, tabulatedTo), nil
}
