package job_test

import (
	"context"
	"image"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/plan/scene"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// edited is the demo, and the demo with another value at a path, which takes over what it can.
func edited(t testing.TB, path, value string) (before, after *job.Mockup) {
	t.Helper()
	at, err := scene.ParsePath(path)
	if err != nil {
		t.Fatal(err)
	}
	w := &job.Workshop{}
	f, err := w.Read()
	if err != nil {
		t.Fatal(err)
	}
	g, err := f.Set(at, value)
	if err != nil {
		t.Fatal(err)
	}
	p, err := w.Build(f)
	if err != nil {
		t.Fatal(err)
	}
	if before, err = job.New(p); err != nil {
		t.Fatal(err)
	}
	before.Lit()
	if p, err = w.Build(g); err != nil {
		t.Fatal(err)
	}
	if after, err = before.Next(p); err != nil {
		t.Fatal(err)
	}
	return before, after
}

// The preview's pictures are off by less than 2/255 on average from those of the full light.
func TestPreview(t *testing.T) {
	long(t)
	for _, edit := range [][2]string{
		{"rows[right].centre", "55"}, {"tables[prints].against", "right"},
	} {
		_, m := edited(t, edit[0], edit[1])
		rough := picture.NewStage(m.Plan, m.Preview())
		full := picture.NewStage(m.Plan, m.Lit())
		for _, v := range m.Plan.Views {
			o := picture.Options{Width: 480, Height: 270}
			mean, most := off(rough.Draw(v, o), full.Draw(v, o))
			t.Logf("%s %s, %s: mean %.3f, %.2f %% of the pixels over 8", edit[0], edit[1], v.Name, mean, most)
			if mean > 2 {
				t.Errorf("%s %s, %s: the preview is off by %.2f/255 on average", edit[0], edit[1], v.Name, mean)
			}
		}
	}
}

// off is how far two pictures are from each other on average, in 255ths, and the share in per cent of pixels that are far off.
func off(a, b *image.NRGBA) (mean, far float64) {
	sum, n, over := 0, 0, 0
	for i := range a.Pix {
		if i%4 == 3 {
			continue
		}
		d := int(a.Pix[i]) - int(b.Pix[i])
		if d < 0 {
			d = -d
		}
		if n++; d > 8 {
			over++
		}
		sum += d
	}
	return float64(sum) / float64(n), 100 * float64(over) / float64(n)
}

// Who gives up waiting for light gets none, and the next who asks does.
func TestLightIsGivenUp(t *testing.T) {
	p, err := build("units: in\npitch: {width: 10ft, depth: 10ft, neighbours: none}\nwalls: [{side: back}]\nworks: [{name: a, size: 20 x 30, wall: back}]\n")
	if err != nil {
		t.Fatal(err)
	}
	m := mockupOf(t, p)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if m.LitUntil(ctx) != nil {
		t.Error("light, though nobody waits for it")
	}
	if soon := m.SoonUntil(ctx); soon == nil || len(soon.Surfaces) != len(light.Even(p).Surfaces) {
		t.Error("before any daylight there is no even light to look at")
	}
	if m.Lit() == nil {
		t.Error("no light for who waits")
	}
	next, err := m.Next(p)
	if err != nil {
		t.Fatal(err)
	}
	if next.SoonUntil(ctx) != nil {
		t.Error("a preview, though nobody waits for it")
	}
	if next.SoonUntil(context.Background()) != next.Preview() {
		t.Error("after daylight the preview is not what is shown soon")
	}
}
