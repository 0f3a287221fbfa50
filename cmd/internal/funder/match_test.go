package funder

import (
	"bytes"
	"math"
	"strings"
	"testing"
)

func TestMatch(t *testing.T) {
	rows := []struct {
		name string
		got  Split
		want Split // cents
	}{
		// 60,000 / (1 - 0.40) = 100,000
		{"60,000 federal at 40 % of the total", Match{Share: 0.4, Base: OfTotal}.OfFederal(60000), Split{10000000, 6000000, 4000000}},
		// 0.40 x 36,000 = 14,400, which is 28.6 % of 50,400
		{"36,000 federal at 40 % of the federal money", Match{Share: 0.4, Base: OfFederal}.OfFederal(36000), Split{5040000, 3600000, 1440000}},
		{"100,000 at 40 % of the total", Match{Share: 0.4, Base: OfTotal}.OfCost(100000), Split{10000000, 6000000, 4000000}},
		// 50,400 x 0.4 / 1.4 = 14,400
		{"50,400 at 40 % of the federal money", Match{Share: 0.4, Base: OfFederal}.OfCost(50400), Split{5040000, 3600000, 1440000}},
		// 0.01 x 0.4 = 0.004, up to a cent
		{"never short", Match{Share: 0.4, Base: OfTotal}.OfCost(0.01), Split{1, 0, 1}},
	}
	for _, r := range rows {
		if r.got != r.want {
			t.Errorf("%s: %+v, want %+v", r.name, r.got, r.want)
		}
	}
}

func TestMatchIsPrintedWithItsBase(t *testing.T) {
	p := invented(t)
	rows := []struct {
		name  string
		match Match
		want  []string
	}{
		{"of the total", Match{Share: 0.4, Base: OfTotal, Federal: 60000}, []string{"40 % of the total cost", "| match from elsewhere | 40,000.00 | 40.0 | 66.7 |", "| **100,000.00** |"}},
		{"of the federal money", Match{Share: 0.4, Base: OfFederal, Federal: 36000}, []string{"40 % of the federal money", "| match from elsewhere | 14,400.00 | 28.6 | 40.0 |"}},
		{"in kind above the match", Match{Share: 0.4, Base: OfTotal, Federal: 60000, InKind: 50000}, []string{"in kind | 40,000.00", "in money | 0.00", "worth 50,000.00, more than the match"}},
		{"none", Match{}, []string{"No share is given", "14,400 beside 36,000"}},
	}
	for _, r := range rows {
		var b bytes.Buffer
		if err := WriteMarkdown(&b, p.folder, Options{Match: r.match}); err != nil {
			t.Fatal(err)
		}
		for _, want := range r.want {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: no %q", r.name, want)
			}
		}
	}
}

func TestMatchRefused(t *testing.T) {
	p := invented(t)
	for name, m := range map[string]Match{
		"no base": {Share: 0.4}, "base unknown": {Share: 0.4, Base: "all"}, "all of the total": {Share: 1, Base: OfTotal}, "below zero": {Share: -0.1, Base: OfTotal},
		"not a number": {Share: math.NaN(), Base: OfTotal}, "no share": {InKind: 5},
	} {
		if err := WriteMarkdown(&bytes.Buffer{}, p.folder, Options{Match: m}); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}
