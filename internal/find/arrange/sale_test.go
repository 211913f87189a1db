package arrange

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/find/check"
	"boothmock/internal/plan/booth"
)

const stall = `units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: none}
tent: {eave: 89}
walls: [{side: back, top: 82, bottom: 6, hang on: mesh, spacing: 2, holds: 40lb}, {side: left, top: 82}]
tables: [{name: desk, size: 40 x 24, height: 40, from left: 60, from front: 30}]
works:
  - {name: a, size: 24 x 30, weight: 8lb, family: sea}
  - {name: b, size: 20 x 20, weight: 4lb}
  - {name: like, size: 24 x 30, weight: 8lb}
  - {name: kin, size: 20 x 30, weight: 6lb, family: sea}
  - {name: small, size: 8 x 8, weight: 2lb}
  - {name: wide, size: 24 x 60, weight: 9lb}
  - {name: tall, size: 70 x 30, weight: 9lb}
  - {name: heavy, size: 24 x 30, weight: 60lb}
  - {name: gone, size: 24 x 30, weight: 5lb, sold: yes}
  - {name: mine, size: 24 x 30, weight: 8lb, status: not for sale}
  - {name: cousin, size: 6 x 8, weight: 1lb, family: sea}
rows:
  - {wall: back, works: [a, b], gap: 8}
`

func called(h []Heir) (out []string) {
	for _, x := range h {
		out = append(out, x.Title)
	}
	return out
}

// Which spares fit is told by hand: what is as large hangs on the same hooks (on a mesh one hook in the middle, as no wire is stated), what is too wide, too high, too heavy or sold does not.
func TestAfterSale(t *testing.T) {
	heirs, unfit := AfterSale(planOf(t, stall), "work/a")
	if got := strings.Join(called(heirs), " "); got != "kin like small cousin" {
		t.Errorf("in this order: %s", got)
	}
	for _, h := range heirs {
		if (h.New == 0) != strings.HasPrefix(h.Words, "same hooks") || h.Seen <= 0 || h.Seen > 1 {
			t.Errorf("%+v", h)
		}
	}
	if heirs[0].New != 0 || heirs[1].New != 0 || heirs[1].Words != "same hooks" || heirs[2].Words != "same hooks, 8 in lower; much smaller" {
		t.Errorf("%+v", heirs)
	}
	why := map[string]string{}
	for _, u := range unfit {
		why[u.Title] = u.Why
	}
	if len(why) != 4 || why["mine"] != "it is not for sale" || !strings.Contains(why["wide"], "b") || why["tall"] == "" || why["heavy"] != "the wall holds 40 lb, and would carry 64 lb" {
		t.Errorf("%v", why)
	}
	if h, u := AfterSale(planOf(t, stall), "work/small"); len(h)+len(u) != 0 {
		t.Errorf("of a work that hangs nowhere: %v %v", h, u)
	}
}

// What is promised of a spare is so when it hangs there: its place and hooks are those of the booth that the scene with the two
// works exchanged makes, and its share is the one that the checks measure, past a mesh too.
func TestHeirsKeepTheirPromise(t *testing.T) {
	veiled := strings.Replace(stall, "{side: left, top: 82}]", "{name: screen, from left: 30, from front: 40, width: 40, top: 80, hang on: mesh, spacing: 2}, {side: left, top: 82}]", 1)
	for name, text := range map[string]string{"plain": stall, "veiled": veiled} {
		plan := planOf(t, text)
		heirs, _ := AfterSale(plan, "work/a")
		for _, h := range heirs {
			if w := h.Hung.X1 - h.Hung.X0; math.Abs(w-(plan.Part("work/a").Work.Hung.X1-plan.Part("work/a").Work.Hung.X0)) > 1e-9 {
				continue // of another width the row would move its neighbours
			}
			short := strings.TrimPrefix(string(h.ID), "work/")
			next := planOf(t, strings.Replace(text, "works: [a, b]", fmt.Sprintf("works: [%s, b]", short), 1))
			got := next.Part(h.ID).Work.Hung
			if math.Abs(got.X0-h.Hung.X0)+math.Abs(got.Y0-h.Hung.Y0) > 1e-9 || fmt.Sprint(got.Hooks) != fmt.Sprint(h.Hung.Hooks) {
				t.Errorf("%s, %s: promised at %v, %v, it hangs at %v, %v", name, short, h.Hung.X0, h.Hung.Y0, got.X0, got.Y0)
			}
			seen, views := 0.0, 0.0
			passing := map[string]bool{}
			for _, v := range next.Views {
				if v.Passing {
					passing[v.Name] = true
					views++
				}
			}
			for _, l := range check.Run(next).Sightlines {
				if l.Work == booth.ID("work/"+short) && passing[l.From] && l.Eye == next.Eyes[0].Name && l.Turned > 0 {
					seen += l.Visible / views
				}
			}
			if math.Abs(seen-h.Seen) > 1e-6 {
				t.Errorf("%s, %s: promised to be seen %.6f, the checks say %.6f", name, short, h.Seen, seen)
			}
		}
	}
}

// The score is what the checks measure, wires of mesh included: the mean over the views of people who pass of the solid angles
// of all works.
func TestScoreIsWhatTheChecksMeasure(t *testing.T) {
	veiled := strings.Replace(stall, "{side: left, top: 82}]", "{name: screen, from left: 30, from front: 40, width: 40, top: 80, hang on: mesh, spacing: 2}, {side: left, top: 82}]", 1)
	for name, text := range map[string]string{"plain": stall, "veiled": veiled} {
		plan := planOf(t, text)
		views, sum := 0.0, 0.0
		passing := map[string]bool{}
		for _, v := range plan.Views {
			if v.Passing {
				passing[v.Name] = true
				views++
			}
		}
		for _, l := range check.Run(plan).Sightlines {
			if passing[l.From] && l.Eye == plan.Eyes[0].Name {
				sum += l.ViewSr / views
			}
		}
		if got, _ := Score(plan); math.Abs(got-sum) > 1e-6 || got <= 0 {
			t.Errorf("%s: the score is %.9f sr, the checks measure %.9f", name, got, sum)
		}
	}
	a, _ := Score(planOf(t, stall))
	if b, _ := Score(planOf(t, veiled)); b >= a {
		t.Errorf("a mesh before the works takes nothing: %v and %v", a, b)
	}
}
