package kinds

import (
	"math"
	"strings"
	"testing"
	"time"

	"boothmock/internal/basis/unit"
)

func fairOf(text string) string {
	return "units: in\nfair: {dates: [2026-06-13, 2026-06-14], zone: America/Chicago, latitude: 42.5, longitude: -90, entrance faces: sw" + text + "}\n"
}

func TestFair(t *testing.T) {
	f := mustPlan(t, fairOf("")).Fair
	if f == nil || len(f.Days) != 2 || f.Sky != "clear" || math.Abs(f.Faces-225*deg) > 1e-12 || f.Longitude != -90*deg {
		t.Fatalf("%+v", f)
	}
	if want := time.Date(2026, 6, 14, 15, 0, 0, 0, time.UTC); !f.Days[1].From.Equal(want) { // 10:00 in summer, five hours behind
		t.Errorf("the second day begins %v, want %v", f.Days[1].From, want)
	}
	for zone, hours := range map[string]float64{"-5:00": 15, "-5": 15, "UTC+5:30": 4.5, "+0530": 4.5, "Europe/London": 9, "UTC": 10, "−5:00": 15} {
		f := mustPlan(t, strings.Replace(fairOf(""), "America/Chicago", "'"+zone+"'", 1)).Fair
		if got := f.Days[0].From.UTC(); math.Abs(float64(got.Hour())+float64(got.Minute())/60-hours) > 1e-9 || got.Day() != 13 {
			t.Errorf("zone %s: 10:00 is %v", zone, got)
		}
	}
	if mustPlan(t, "units: in\n").Fair != nil {
		t.Error("a scene that says nothing has a fair")
	}
}

func TestFairRefused(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"42.5", "91", "a.yaml:2:"}, {"42.5", "91", "91 is out of range"}, {"-90", "-181", "-181 is out of range"},
		{"[2026-06-13, 2026-06-14]", "[]", "there is no day in the list"},
		{"2026-06-14", "2026-06-13", "the days are not in order"},
		{"2026-06-14", "2026-06-31", "there is no day 2026-06-31"},
		{"sw", "up", "“up” is not a direction"},
		{"America/Chicago", "CST", "“CST” may mean several zones"},
		{"America/Chicago", "America/Chicgo", "there is no time zone"},
		{"America/Chicago", "Local", "may mean several zones"},
		{"America/Chicago", "America/../../etc", "there is no time zone"},
		{"America/Chicago", "'-15:00'", "no place is -15:00 from universal time"},
		{"zone: America/Chicago, ", "", "zone is missing"},
		{"latitude: 42.5, ", "", "latitude is missing"},
		{"sw", "sw, hours: 17 to 10", "end before they begin"},
		{"sw", "sw, sky: sunny", "is not one of clear, mixed or overcast"},
		// Clocks in Chicago go from 2:00 to 3:00 on 8 March 2026, and from 2:00 back to 1:00 on 1 November.
		{"[2026-06-13, 2026-06-14]", "[2026-03-08], hours: '2:30 to 9:00'", "on 8 March 2026 there is no 2:30: clocks skip it"},
		{"[2026-06-13, 2026-06-14]", "[2026-11-01], hours: '1:30 to 9:00'", "on 1 November 2026 clocks show 1:30 twice"},
	} {
		_, err := plan(t, strings.Replace(fairOf(""), c.old, c.new, 1))
		straight := strings.NewReplacer("“", `"`, "”", `"`)
		if err == nil || !strings.Contains(straight.Replace(err.Error()), straight.Replace(c.want)) {
			t.Errorf("%s for %s: %v; want %q", c.new, c.old, err, c.want)
		}
	}
	if _, err := plan(t, strings.Replace(fairOf(""), "[2026-06-13, 2026-06-14]", "[2026-11-01], hours: '10:00 to 17:00'", 1)); err != nil {
		t.Errorf("a day on which clocks are turned while the fair is closed: %v", err)
	}
	if at, err := Clock(unit.Date{Year: 2026, Month: 6, Day: 13}, 24*60, time.UTC); err != nil || !at.Equal(time.Date(2026, 6, 14, 0, 0, 0, 0, time.UTC)) {
		t.Errorf("midnight is %v, %v", at, err)
	}
}
