package earth

// Room is memory for the diagrams of one face after another. The zero Room is
// ready for use; it serves one goroutine at a time.
type Room struct{ one, sum, next Diagram }

// Worst is level by level the largest pressure of several columns on one face:
// their Lateral diagrams, merged, with what compaction locks in unless e is
// nil. It lies in room and holds until room is used again; Slice makes it the
// caller's own. Errors are those of Lateral; no columns give no rows.
func Worst(st State, cols []Column, top, bottom float64, e *Envelope, room *Room) (Diagram, error) {
	room.sum = room.sum[:0]
	for i := range cols {
		var err error
		if room.one, err = cols[i].lateral(room.one[:0], st, top, bottom); err != nil {
			return nil, err
		}
		if i == 0 {
			room.one, room.sum = room.sum, room.one
			continue
		}
		room.next = room.next[:0].merged(room.sum, room.one)
		room.next, room.sum = room.sum, room.next
	}
	if e != nil {
		room.next = room.next[:0].compacted(room.sum, *e)
		room.next, room.sum = room.sum, room.next
	}
	return room.sum, nil
}
