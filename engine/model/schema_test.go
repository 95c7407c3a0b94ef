package model

import (
	"encoding/json"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the schema anew")

const schemaFile = "../../testdata/docs/hillset.schema.json"

// comments collects the comment of each struct field of this package, by type
// and field name, so that the schema says what the code says.
func comments(t *testing.T) map[string]string {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	fset := token.NewFileSet()
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			ts, ok := n.(*ast.TypeSpec)
			if !ok {
				return true
			}
			if st, ok := ts.Type.(*ast.StructType); ok {
				for _, field := range st.Fields.List {
					text := strings.TrimSpace(field.Doc.Text() + field.Comment.Text())
					for _, id := range field.Names {
						out[ts.Name.Name+"."+id.Name] = strings.Join(strings.Fields(text), " ")
					}
				}
			}
			return false
		})
	}
	return out
}

// schemaOf describes a type as JSON Schema does, with the ranges and the words
// that Validate asks for.
func schemaOf(t reflect.Type, path string, docs map[string]string) map[string]any {
	if t == vecType {
		return map[string]any{"type": "array", "minItems": 2, "maxItems": 2,
			"prefixItems": []any{numberSchema("number", path), numberSchema("number", path+".z")}}
	}
	switch t.Kind() {
	case reflect.Pointer:
		s := schemaOf(t.Elem(), path, docs)
		s["type"] = []any{s["type"], "null"}
		return s
	case reflect.Slice:
		return map[string]any{"type": []any{"array", "null"}, "maxItems": maxItems, "items": schemaOf(t.Elem(), path+"[]", docs)}
	case reflect.Map:
		return map[string]any{"type": []any{"object", "null"}, "additionalProperties": schemaOf(t.Elem(), path+".*", docs)}
	case reflect.Float64:
		return numberSchema("number", path)
	case reflect.Int:
		return numberSchema("integer", path)
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.String:
		if w := words[path]; w != nil {
			return map[string]any{"type": "string", "enum": append([]string{""}, strings.Fields(strings.Join(w, " "))...)}
		}
		return map[string]any{"type": "string"}
	}
	props := map[string]any{}
	for _, f := range fieldsOf(t) {
		s := schemaOf(t.Field(f.index).Type, join(path, f.name), docs)
		if d := docs[t.Name()+"."+t.Field(f.index).Name]; d != "" {
			s["description"] = d
		}
		props[f.name] = s
	}
	return map[string]any{"type": "object", "properties": props}
}

func numberSchema(kind, path string) map[string]any {
	r := ranges[path]
	low := r.Min
	if low > 0 {
		low = 0 // 0 stands for what is not known or not given yet
	}
	return map[string]any{"type": kind, "minimum": low, "maximum": r.Max}
}

func makeSchema(t *testing.T) []byte {
	s := schemaOf(reflect.TypeFor[Project](), "", comments(t))
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "Hillset project file"
	s["description"] = "All values in SI units (m, kN, kPa, kN/m3) and degrees. Fields not named here are kept. What is left out is zero, empty or not known."
	s["required"] = []string{"format"}
	data, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	return append(data, '\n')
}

func TestSchemaIsUpToDate(t *testing.T) {
	want := makeSchema(t)
	if *update {
		if err := os.MkdirAll(filepath.Dir(schemaFile), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(schemaFile, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Error("the schema in testdata/docs differs from the types: run go test ./engine/model -update")
	}
}

// The schema is checked against a file by a small reader of its own, so that a
// field which the schema forgets or misnames is found.
func TestSampleMatchesTheSchema(t *testing.T) {
	data, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	var schema, file any
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal([]byte(write(t, &Document{Project: sample()})), &file); err != nil {
		t.Fatal(err)
	}
	matches(t, file, schema.(map[string]any), "")
}

func matches(t *testing.T, v any, s map[string]any, path string) {
	t.Helper()
	kinds, _ := s["type"].([]any)
	if k, ok := s["type"].(string); ok {
		kinds = []any{k}
	}
	is := ""
	switch v := v.(type) {
	case map[string]any:
		is = "object"
		props, _ := s["properties"].(map[string]any)
		for name, kid := range v {
			sub, ok := props[name].(map[string]any)
			if !ok {
				sub, ok = s["additionalProperties"].(map[string]any)
			}
			if !ok {
				t.Errorf("%s.%s is not in the schema", path, name)
				continue
			}
			matches(t, kid, sub, path+"."+name)
		}
	case []any:
		is = "array"
		pre, _ := s["prefixItems"].([]any)
		for i, kid := range v {
			sub, ok := s["items"].(map[string]any)
			if !ok {
				sub = pre[i].(map[string]any)
			}
			matches(t, kid, sub, path+"[]")
		}
	case float64:
		is = "number"
		if v < s["minimum"].(float64) || v > s["maximum"].(float64) {
			t.Errorf("%s = %v is outside %v to %v", path, v, s["minimum"], s["maximum"])
		}
	case string:
		is = "string"
	case bool:
		is = "boolean"
	}
	for _, k := range kinds {
		if k == is || k == "integer" && is == "number" {
			return
		}
	}
	t.Errorf("%s is a %s, the schema wants %v", path, is, kinds)
}
