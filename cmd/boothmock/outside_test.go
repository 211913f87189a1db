package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boothmock/internal/job"
)

// held says which test holds a question, or a formula under it, against something outside of this project, and what that is. The
// words must stand in that test or in what is written over it.
var held = []struct{ question, file, test, source string }{
	{"hidden", "find/check/findings_test.go", "TestHiddenShareByHand", "similar triangles"},
	{"hidden", "basis/sight/gaze_test.go", "TestSolidAngle", "Van Oosterom and Strackee"},
	{"hidden", "job/sightlines_test.go", "TestSightlinesAreDrawn", "rays"},
	{"unseen", "find/check/findings_test.go", "TestTurnedAway", "practice"},
	{"behind", "find/check/findings_test.go", "TestBehindTheTable", "By hand"},
	{"turned", "find/check/limits_test.go", "TestLimits", "NUREG-0700"},
	{"entrance", "find/check/limits_test.go", "TestLimits", "ADA 403.5.1"},
	{"reach", "find/check/limits_test.go", "TestLimits", "ADA 403.5.1"},
	{"reach", "basis/way/squares_test.go", "TestWidestAgreesWithSquares", "squares"},
	{"turning circle", "find/check/limits_test.go", "TestLimits", "ADA 304.3.1"},
	{"headroom", "find/check/limits_test.go", "TestLimits", "ADA 307.4"},
	{"sticking out", "find/check/limits_test.go", "TestLimits", "ADA 307.2"},
	{"table height", "find/check/limits_test.go", "TestLimits", "ADA 902.3"},
	{"fit", "find/check/limits_test.go", "TestLimits", "common practice, no source"},
	{"gaps", "find/check/limits_test.go", "TestLimits", "common practice, no source"},
	{"centres", "find/check/limits_test.go", "TestLimits", "common practice, no source"},
	{"shape", "find/check/limits_test.go", "TestLimits", "common practice, no source"},
	{"inside the pitch", "find/check/limits_test.go", "TestLimits", "common practice, no source"},
	{"two in one place", "basis/geom/meeting_test.go", "TestMeetingByHand", "by hand"},
	{"tipping", "find/check/limits_test.go", "TestLimits", "kern of a rectangle"},
	{"standing walls", "job/store_test.go", "TestStandingWalls", "common practice, no source"},
	{"falling over", "find/check/knocked_test.go", "TestKnockedOver", "By hand"},
	{"wind", "find/hang/loose_test.go", "TestLooseByHand", "By hand"},
	{"store", "job/store_test.go", "TestStore", "common practice, no source"},
	{"fair", "find/check/asked_test.go", "TestWhatAFairAsks", "sheet's own words"},
	{"legible", "find/check/reading_test.go", "TestArcMinutes", "FAA Human Factors Design Standard"},
	{"legible", "find/check/reading_test.go", "TestLettersOnSigns", "2010 ADA Standards, table 703.5.5"},
	{"read", "find/check/limits_test.go", "TestLimits", "common practice, no source"},
	{"square code", "props/lettering/sign_test.go", "TestCodesAreRead", "gozxing"},
	{"within reach", "find/check/reading_test.go", "TestReachOver", "2010 ADA Standards 308.2.2"},
	{"watched", "find/check/reading_test.go", "TestWatched", "Common practice"},
	{"view", "find/check/limits_test.go", "TestLimits", "common practice, no source"},
	{"hold", "plan/hook/taut_test.go", "TestPublishedStatics", "Printed problems of statics"},
	{"loads", "plan/hook/taut_test.go", "TestTensionTable", "2 sin"},
	{"wind", "basis/wind/wind_test.go", "TestPublishedExample", "ASCE 7-10"},
	{"wind", "basis/wind/wind_test.go", "TestHeightFactor", "ASCE 7-05 Table 6-3"},
	{"wind", "basis/wind/wind_test.go", "TestBeaufort", "delta-s.org"},
	{"rain", "find/hang/standing_test.go", "TestShortCurtains", "By hand"},
	{"hands", "find/order/schedule_test.go", "TestPublishedInstance", "optimum"},
	{"time", "find/order/network_test.go", "TestTimesOfPublishedNetworks", "Render, Stair and Hanna"},
	{"time", "find/order/times_test.go", "TestPublishedEstimates", "PERT"},
	{"carried", "find/order/rehearsal_test.go", "TestLoadsAndTrips", "by hand"},
	{"list", "find/check/listed_test.go", "TestMissingWorksAreTold", "nothing outside"},
	{"folder", "plan/start/start_test.go", "TestDraft", "nothing outside"},
	{"waiting", "find/check/waiting_test.go", "TestWaitingWorksAreTold", "nothing outside"},

	{"light on works", "view/light/adapt_test.go", "TestAroundOnAnOpenField", "CIE overcast sky"},
	{"sun on works", "basis/sun/sun_test.go", "TestWorkedExamples", "NREL/TP-560-34302"},
	{"sun on works", "basis/sun/sun_test.go", "TestAmounts", "IES 1984"},
	{"sun on works", "find/shade/shade_test.go", "TestShadowOfABoard", "similar triangles"},
	{"sun on works", "find/shade/shade_test.go", "TestShadowOfADay", "equinox"},
	{"sun on works", "find/shade/shade_test.go", "TestSensitivity", "CIE 157"},
	{"sun in the eye", "basis/sun/sun_test.go", "TestToward", "noon sun"},
	{"nightfall", "basis/sun/sun_test.go", "TestSunriseAndSunset", "SPA's example"},

	{"lamplight", "view/light/lamps_test.go", "TestLampOverATable", "cosine law"},
	{"lamplight", "view/light/lamps_test.go", "TestLampsAgainstPathTracer", "Monte Carlo"},
	{"lamplight", "basis/lamp/lm63_test.go", "TestReadLambert", "Lambert"},
	{"aim of lamps", "find/shade/lamps_test.go", "TestAim", "Common practice"},
	{"glare", "find/shade/lamps_test.go", "TestGlare", "EN 12464-1"},
	{"power", "find/shade/lamps_test.go", "TestPower", "common practice, no source"},
	{"reflections", "basis/glass/glass_test.go", "TestFresnel", "Fresnel"},
	{"reflections", "view/light/panes_test.go", "TestMirrorBySimilarTriangles", "law of reflection"},
	{"reflections", "basis/glass/glass_test.go", "TestFresnelsTable", "Hecht"},
	{"reflections", "find/shade/mirror_test.go", "TestReflections", "WCAG"},
	{"lamps at hand", "find/shade/lamps_test.go", "TestClothBeforeALamp", "Common practice"},

	// What light and colours rest on.
	{"", "view/light/factor_test.go", "TestFactorOfAnElement", "Siegel and Howell"},
	{"", "view/light/factor_test.go", "TestFactorBetweenRectangles", "Published"},
	{"", "view/light/gather_test.go", "TestOvercastSky", "CIE overcast sky"},
	{"", "view/light/gather_test.go", "TestSkyView", "Oke"},
	{"", "basis/colour/colour_test.go", "TestDifference", "Sharma"},
	{"", "basis/colour/colour_test.go", "TestLinear", "IEC 61966-2-1"},
	{"", "basis/unit/unit_test.go", "TestPublishedConversions", "NIST"},
}

func TestEveryQuestionIsHeldAgainstSomethingOutside(t *testing.T) {
	questions := map[string]bool{}
	for _, h := range held {
		questions[h.question] = true
		text := functionOf(t, filepath.Join("../../internal", h.file), h.test)
		if text == "" {
			t.Errorf("%s: there is no %s in %s", h.question, h.test, h.file)
		} else if !strings.Contains(text, h.source) {
			t.Errorf("%s: %s in %s does not speak of %q", h.question, h.test, h.file, h.source)
		}
	}
	for _, c := range job.Asked() {
		if !questions[c.Name] {
			t.Errorf("%q is held against nothing outside", c.Name)
		}
	}
}

// functionOf is the text of a test with what is written over it; lines that are broken inside of a comment are joined.
func functionOf(t *testing.T, file, name string) string {
	t.Helper()
	source, err := os.ReadFile(file)
	if err != nil {
		t.Error(err)
		return ""
	}
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, source, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range tree.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Name.Name == name {
			return f.Doc.Text() + string(source[set.Position(f.Pos()).Offset:set.Position(f.End()).Offset])
		}
	}
	return ""
}
