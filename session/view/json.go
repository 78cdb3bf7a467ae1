package view

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"unicode/utf16"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/writing"
)

// Schema is the published JSON Schema of a line, with a version in its $id.
//
//go:embed lines.schema.json
var Schema string

// Replayed is what a replay knows of a statement beside its entry.
type Replayed struct {
	File     string
	Recorded string // the record as it stands in the file, or empty
	Agrees   *bool  // nil if there is no record to agree with
}

// number is a number in JSON: null where it is infinite or none, which JSON has no words for.
type number float64

// MarshalJSON writes the number, or null.
func (n number) MarshalJSON() ([]byte, error) {
	if n-n != 0 {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n))
}

// numbers are some as JSON has them.
func numbers(of []float64) []number {
	out := make([]number, len(of))
	for i, v := range of {
		out[i] = number(v)
	}
	return out
}

// object is one line of JSON; the order of its fields is the order of printing.
type object struct {
	File       string        `json:"file,omitempty"`
	Line       int           `json:"line"`
	Statement  string        `json:"statement"`
	Name       string        `json:"name,omitempty"`
	Meaning    string        `json:"meaning,omitempty"`
	Value      *number       `json:"value,omitempty"`
	Values     []number      `json:"values,omitempty"`
	Count      int           `json:"count,omitempty"`
	Components []number      `json:"components,omitempty"`
	Vectors    [][]number    `json:"vectors,omitempty"`
	Magnitude  *number       `json:"magnitude,omitempty"`
	Direction  *number       `json:"direction,omitempty"`
	U          *number       `json:"u,omitempty"`
	UValues    []number      `json:"u_values,omitempty"`
	UParts     []number      `json:"u_components,omitempty"`
	UVectors   [][]number    `json:"u_vectors,omitempty"`
	SIUnit     string        `json:"si_unit,omitempty"`
	Dimension  string        `json:"dimension,omitempty"`
	Shown      string        `json:"shown,omitempty"`
	ShownValue *number       `json:"shown_value,omitempty"`
	ShownUnit  string        `json:"shown_unit,omitempty"`
	Quantity   string        `json:"quantity,omitempty"`
	Holds      *bool         `json:"holds,omitempty"`
	Told       []string      `json:"told,omitempty"`
	Fit        *fitObject    `json:"fit,omitempty"`
	Graph      *graphObject  `json:"graph,omitempty"`
	Table      *tableObject  `json:"table,omitempty"`
	Bars       *barsObject   `json:"bars,omitempty"`
	Arrows     *arrowsObject `json:"arrows,omitempty"`
	Budget     *budgetObject `json:"budget,omitempty"`
	Working    []workObject  `json:"working,omitempty"`
	Recorded   string        `json:"recorded,omitempty"`
	Agrees     *bool         `json:"agrees,omitempty"`
	Findings   []foundObject `json:"findings"`
}

// fitObject is how well the values of a statement fit readings.
type fitObject struct {
	R2         number     `json:"r2"`
	ResidualSD number     `json:"residual_sd"`
	N          int        `json:"n"`
	ChiSquared *number    `json:"chi2_per_dof,omitempty"`
	Covariance [][]number `json:"covariance"`
}

// foundObject is one finding in JSON.
type foundObject struct {
	ID       string   `json:"id"`
	Severity string   `json:"severity"`
	Message  string   `json:"message"`
	Hint     string   `json:"hint,omitempty"`
	Readings []string `json:"readings,omitempty"`
	Cause    int      `json:"cause,omitempty"`
	From     int      `json:"from"`
	To       int      `json:"to"`
}

// JSON writes an entry as JSON Lines: one object, or one for each value of a
// statement that has several.
func JSON(w io.Writer, e *entry.Entry, r Replayed) error {
	base := object{File: r.File, Line: e.Line, Statement: e.Text, Meaning: e.Meaning(), Recorded: r.Recorded, Agrees: r.Agrees, Findings: found(e.Findings)}
	e.Visit(filler{&base})
	values := e.Values()
	if len(values) == 0 {
		return encode(w, base)
	}
	for i := range values {
		o := base
		o.take(&values[i])
		if fit := e.Result().Fit; fit != nil {
			o.Told = nil
		}
		if err := encode(w, o); err != nil {
			return err
		}
	}
	if fit := e.Result().Fit; fit != nil {
		base.Fit = &fitObject{number(fit.R2), number(fit.SD), fit.N, (*number)(fit.ChiSquared), nil}
		for _, row := range fit.Covariance {
			base.Fit.Covariance = append(base.Fit.Covariance, numbers(row))
		}
		return encode(w, base)
	}
	return nil
}

// take fills in the fields of a value.
func (o *object) take(v *entry.Value) {
	si, shown := number(v.SI+0), number(v.InUnit+0) // minus zero is zero
	o.Name, o.Value, o.ShownValue = v.Name, &si, &shown
	o.SIUnit = unitText(units.Preferred(v.Dim, v.Tag))
	if v.U > 0 {
		o.U = (*number)(&v.U)
	}
	o.Dimension = v.Dim.String()
	o.Shown, o.ShownUnit = v.Shown(units.File), unitText(v.Unit)
	o.Quantity = v.Quantity
	switch {
	case v.IsVector():
		size, parts := number(v.Magnitude().SI), numbers(v.List.SI)
		for i := range parts {
			parts[i] += 0 // no minus zero
		}
		o.Value, o.ShownValue, o.Components, o.UParts, o.Magnitude = nil, nil, parts, numbers(v.List.U), &size
		o.Direction = direction(v)
	case v.List != nil && v.List.Axes > 0:
		o.Value, o.ShownValue, o.Count = nil, nil, v.List.Len()
		for _, one := range v.Vectors() {
			o.Vectors = append(o.Vectors, numbers(one.List.SI))
			if one.List.U != nil {
				o.UVectors = append(o.UVectors, numbers(one.List.U))
			}
		}
	case v.List != nil:
		o.Value, o.ShownValue = nil, nil
		o.Values, o.UValues, o.Count = numbers(v.List.SI), numbers(v.List.U), len(v.List.SI)
	}
}

// direction is the angle of a vector in degrees, or nil.
func direction(v *entry.Value) *number {
	turn, ok := v.Direction()
	if !ok {
		return nil
	}
	degrees := number(turn.InUnit)
	return &degrees
}

// unitText is a unit that can be typed back; that of a pure number is 1.
func unitText(u *units.Unit) string {
	if text := u.Text(); text != "" {
		return text
	}
	return "1"
}

// found lists the findings; the list is there even if it is empty.
func found(all []finding.Finding) []foundObject {
	out := make([]foundObject, len(all))
	for i, f := range all {
		out[i] = foundObject{
			ID: string(f.ID), Severity: f.Severity.String(), Message: f.Message, Hint: f.Hint,
			Readings: f.Offers(), Cause: f.Cause, From: f.At.From, To: f.At.To,
		}
	}
	return out
}

// problemObject is a file that can't be replayed, in JSON.
type problemObject struct {
	File     string        `json:"file"`
	Line     int           `json:"line"`
	Findings []foundObject `json:"findings"`
}

// ProblemJSON writes what is wrong with a file as a whole as one object.
func ProblemJSON(w io.Writer, file string, line int, id, message, hint string) error {
	if id == "" {
		id = string(finding.File)
	}
	return encode(w, problemObject{File: file, Line: line, Findings: []foundObject{{ID: id, Severity: "error", Message: message, Hint: hint}}})
}

// encode writes one line of JSON. What must not reach a screen raw is written as
// \u and its number; the characters of JSON itself are none of these.
func encode(w io.Writer, o any) error {
	var line bytes.Buffer
	enc := json.NewEncoder(&line)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(o); err != nil {
		return err
	}
	out := line.Bytes()
	if bytes.ContainsFunc(out, writing.Escaped) {
		var safe []byte
		for _, r := range line.String() {
			if !writing.Escaped(r) {
				safe = utf8.AppendRune(safe, r)
				continue
			}
			for _, half := range utf16.AppendRune(nil, r) {
				safe = fmt.Appendf(safe, `\u%04x`, half)
			}
		}
		out = safe
	}
	_, err := w.Write(out)
	return err
}
