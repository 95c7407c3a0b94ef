package model

import (
	"fmt"
	"reflect"
	"testing"
)

// filler gives every field a value of its own, so that a field that is not
// copied, or copied into the wrong place, is found by comparison.
type filler struct{ n int }

func (f *filler) fill(v reflect.Value) {
	f.n++
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f.fill(v.Field(i))
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 3, 5))
		for i := range 3 {
			f.fill(v.Index(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			f.fill(v.Index(i))
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		for range 3 {
			e := reflect.New(v.Type().Elem()).Elem()
			f.fill(e)
			v.SetMapIndex(reflect.ValueOf(fmt.Sprintf("key %d", f.n)), e)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.fill(v.Elem())
	case reflect.String:
		v.SetString(fmt.Sprintf("text %d", f.n))
	case reflect.Float64:
		v.SetFloat(float64(f.n) / 4)
	case reflect.Int:
		v.SetInt(int64(f.n))
	case reflect.Bool:
		v.SetBool(true)
	default:
		panic("model: no filler for " + v.Kind().String())
	}
}

// full is a project in which every field is set and every list has entries.
func full() *Project {
	p := new(Project)
	new(filler).fill(reflect.ValueOf(p).Elem())
	return p
}

// shared lists the paths at which a and b point at the same memory.
func shared(a, b reflect.Value, path string) (at []string) {
	same := func() {
		if a.Pointer() != 0 && a.Pointer() == b.Pointer() {
			at = append(at, path)
		}
	}
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			at = append(at, shared(a.Field(i), b.Field(i), path+"."+a.Type().Field(i).Name)...)
		}
	case reflect.Slice:
		same()
		for i := range min(a.Len(), b.Len()) {
			at = append(at, shared(a.Index(i), b.Index(i), fmt.Sprintf("%s[%d]", path, i))...)
		}
	case reflect.Map:
		same()
	case reflect.Pointer:
		same()
		if !a.IsNil() && !b.IsNil() {
			at = append(at, shared(a.Elem(), b.Elem(), path)...)
		}
	}
	return at
}

func TestCloneCopiesEverythingAndSharesNothing(t *testing.T) {
	p := full()
	q := p.Clone()
	if !reflect.DeepEqual(p, q) {
		t.Error("the clone differs from its original")
	}
	if at := shared(reflect.ValueOf(*p), reflect.ValueOf(*q), ""); len(at) > 0 {
		t.Errorf("the clone shares memory with its original at %v", at)
	}
}

func TestSharedFindsASharedField(t *testing.T) {
	p := full()
	q := *p
	got := shared(reflect.ValueOf(*p), reflect.ValueOf(q), "")
	if len(got) < 15 {
		t.Errorf("a shallow copy shares only %v; the test of Clone would see nothing", got)
	}
}

func TestCloneKeepsNil(t *testing.T) {
	p := new(Project)
	if q := p.Clone(); !reflect.DeepEqual(p, q) {
		t.Errorf("clone of the empty project = %+v", q)
	}
}

func BenchmarkClone(b *testing.B) {
	p := full()
	for b.Loop() {
		p.Clone()
	}
}
