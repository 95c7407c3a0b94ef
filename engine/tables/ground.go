package tables

import (
	"fmt"
	"io/fs"
)

const (
	foot = 0.3048 // to m
)

func parsePlant(r *row) Plant {
	return Plant{
		ID: r.text("id"), Name: r.text("name"),
		P: r.num("p_kN_m", 1, 0.5, 200), Width: r.num("width_m", 1, 0.1, 3), Src: r.source(),
	}
}

func parseDig(r *row) DigRule {
	d := DigRule{
		Class: r.oneOf("class", "rock", "A", "B", "C"),
		N:     r.num("n", 1, 0, 5), MaxDepth: r.num("max_depth_ft", foot, 4, 100),
		ShortN: r.num("short_n", 1, 0, 5), ShortMax: r.num("short_max_ft", foot, 0, 100), ShortHrs: r.num("short_h", 1, 0, 1000),
		Src: r.source(),
	}
	if r.err == nil && d.ShortHrs > 0 && d.ShortN >= d.N {
		r.fail("short_n", r.raw("short_n"), "is not steeper than the lasting slope")
	}
	return d
}

func parseInterface(r *row) Interface {
	f := Interface{
		ID: r.text("id"), Against: r.text("against"), Soil: r.text("soil"),
		Min: r.num("delta_min_deg", 1, 5, 45), Max: r.num("delta_max_deg", 1, 5, 45), Src: r.source(),
	}
	if r.err == nil && f.Min > f.Max {
		r.fail("delta_max_deg", r.raw("delta_max_deg"), "is below the low end")
	}
	return f
}

// readVehicles reads the machines and gives each its wheels.
func readVehicles(files fs.FS) (list[Vehicle], error) {
	l, err := readList(files, "vehicles.csv", "id", func(r *row) Vehicle {
		return Vehicle{ID: r.text("id"), Name: r.text("name"), Src: r.source()}
	})
	if err != nil {
		return l, err
	}
	err = readRows(files, "wheels.csv", func(r *row) {
		id := r.text("vehicle")
		v, ok := l.by[id]
		if !ok {
			r.fail("vehicle", id, "is not in the table of vehicles")
			return
		}
		v.Wheels = append(v.Wheels, parseWheel(r))
		l.by[id] = v
	})
	if err != nil {
		return l, err
	}
	for _, v := range l.all() {
		if len(v.Wheels) == 0 {
			return l, fmt.Errorf("tables: vehicles.csv: %s has no wheels in wheels.csv", v.ID)
		}
	}
	return l, nil
}

func parseWheel(r *row) Wheel {
	r.source()
	return Wheel{
		U: r.num("u_m", 1, -20, 20), V: r.num("v_m", 1, -3, 3), P: r.num("p_kN", 1, 0.1, 500),
		A: r.num("a_m", 1, 0.05, 6), B: r.num("b_m", 1, 0.05, 2),
	}
}

// readPowerLines reads the clearances, in rising order of voltage.
func readPowerLines(files fs.FS) ([]PowerLine, error) {
	var out []PowerLine
	err := readRows(files, "powerlines.csv", func(r *row) {
		p := PowerLine{
			KV:        r.num("up_to_kV", 1, 1, 2000),
			Clearance: r.num("clearance_ft", foot, 1, 100),
			Src:       r.source(),
		}
		if n := len(out); n > 0 && (p.KV <= out[n-1].KV || p.Clearance < out[n-1].Clearance) {
			r.fail("up_to_kV", r.raw("up_to_kV"), "is out of order")
		}
		out = append(out, p)
	})
	return out, err
}
