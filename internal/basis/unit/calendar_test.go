package unit

import (
	"math"
	"strings"
	"testing"
)

func TestCalendar(t *testing.T) {
	for s, want := range map[string]string{"2026-06-13": "2026-06-13", " 2024-2-29 ": "2024-02-29", "1900-01-01": "1900-01-01", "2199-12-31": "2199-12-31"} {
		var d Date
		if err := d.UnmarshalText([]byte(s)); err != nil {
			t.Errorf("%q: %v", s, err)
		}
		if b, _ := d.MarshalText(); string(b) != want {
			t.Errorf("%q: %s, want %s", s, b, want)
		}
	}
	for s, want := range map[string]string{"2025-02-29": "there is no day", "13 June": "is not a date", "1899-12-31": "too long ago", "2200-01-01": "too far ahead", "1492-08-03": "too long ago", "": "is empty"} {
		var d Date
		if err := d.UnmarshalText([]byte(s)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", s, err, want)
		}
	}
	for s, want := range map[string]Hours{"10:00 to 17:00": {600, 1020}, "10am to 5pm": {600, 1020}, "9-12": {540, 720}, "12am to 12pm": {0, 720}, "1am to 12:59 pm": {60, 779}, "9:30 am - 6 pm": {570, 1080}, "18:00 to 24:00": {1080, 1440}} {
		var h Hours
		if err := h.UnmarshalText([]byte(s)); err != nil || h != want {
			t.Errorf("%q: %v, %v, want %v", s, h, err, want)
		}
	}
	for _, s := range []string{"", "10", "17:00 to 10:00", "10:60 to 12", "20 to 24:01", "13pm to 14", "10 to 25", "0am to 3pm"} {
		var h Hours
		if err := h.UnmarshalText([]byte(s)); err == nil {
			t.Errorf("%q is read as %v", s, h)
		}
	}
	if b, _ := (Hours{600, 1025}).MarshalText(); string(b) != "10:00 to 17:05" {
		t.Errorf("hours are written as %s", b)
	}
}

func TestBearing(t *testing.T) {
	for s, want := range map[string]float64{"north": 0, "N": 0, "south-west": 225, "South West": 225, "WNW": 292.5, "225": 225, "22.5°": 22.5, "360": 0, "12 deg": 12} {
		var b Bearing
		if err := b.UnmarshalText([]byte(s)); err != nil || math.Abs(float64(b)*180/math.Pi-want) > 1e-9 {
			t.Errorf("%q: %v, %v, want %v", s, b, err, want)
		}
	}
	for _, s := range []string{"", "up", "361", "-20", "southish"} {
		var b Bearing
		if err := b.UnmarshalText([]byte(s)); err == nil {
			t.Errorf("%q is read as %v", s, b)
		}
	}
	for d, want := range map[float64]string{0: "north", 225: "south-west", 230: "230°", 359: "359°"} {
		if b, _ := Bearing(d * math.Pi / 180).MarshalText(); string(b) != want {
			t.Errorf("%v: %s, want %s", d, b, want)
		}
	}
	for d, want := range map[float64]string{359: "north", -1: "north", -22.5: "north-north-west", 348.7: "north-north-west", 348.8: "north"} { // a point is 11.25 degrees to both sides
		if w := Bearing(d * math.Pi / 180).Word(); w != want {
			t.Errorf("%v degrees are %s, want %s", d, w, want)
		}
	}
}
