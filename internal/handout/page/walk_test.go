//go:build !race

package page_test

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/png"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/find/check"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/picture"
)

// The walk shows what the pictures show: the mean difference over all pixels of a view is at most 3 (CIEDE2000).
func TestAViewLooksLikeItsPicture(t *testing.T) {
	o := openDemo(t, 1280, 900)
	d, _ := demo()
	eval[any](o, `fine = 1; Object.assign(document.getElementById('stage').style, {width: '320px', height: '180px', maxHeight: 'none', aspectRatio: 'auto'}); 0`)
	for _, v := range d.Plan.Views {
		o.stand(v.Name)
		o.Until(`document.getElementById('stage').width === 320 && document.getElementById('stage').height === 180`)
		o.stand(v.Name)
		url := eval[string](o, `document.getElementById('stage').toDataURL('image/png')`)
		file, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(url, "data:image/png;base64,"))
		if err != nil {
			t.Fatal(err)
		}
		got, err := png.Decode(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		want := d.Stage().Draw(v, picture.Options{Width: 320, Height: 180})
		diff := difference(got, want)
		t.Logf("%s: %.2f", v.Name, diff)
		if diff > 3 {
			t.Errorf("%s: the page's view and the picture differ by %.2f", v.Name, diff)
		}
	}
}

func difference(a, b image.Image) float64 {
	sum, n := 0.0, 0
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			sum += colour.Difference(lab(a, x, y), lab(b, x, y))
			n++
		}
	}
	return sum / float64(n)
}

func lab(m image.Image, x, y int) colour.Lab {
	r, g, b, _ := m.At(x, y).RGBA()
	return colour.LabOf(uint8(r>>8), uint8(g>>8), uint8(b>>8))
}

// The hidden parts that the graphics find, pixel by pixel, are those that the sight kernel works out exactly.
func TestHiddenPartsAreThoseOfTheReport(t *testing.T) {
	o := openDemo(t, 1280, 900)
	d, _ := demo()
	eval[any](o, `fine = 1; Object.assign(document.getElementById('stage').style, {width: '480px', height: '270px', maxHeight: 'none', aspectRatio: 'auto'}); document.querySelector('.stage').style.overflow = 'hidden'; 0`)
	size := picture.Options{Width: 480, Height: 270, Eye: d.Plan.Eyes[0]}
	most := 0.0
	for _, v := range d.Plan.Views {
		if v.Name != "entrance" && v.Name != "aisle-left" && v.Name != "aisle-right" {
			continue
		}
		o.stand(v.Name)
		o.Until(`document.getElementById('stage').width === 480 && document.getElementById('stage').height === 270`)
		marked := eval[float64](o, `(async () => {
			const box = document.getElementById('show-hidden'), c = document.getElementById('stage'), k = new OffscreenCanvas(480, 270).getContext('2d', {willReadFrequently: true});
			const drawn = async (on) => { if (box.checked !== on) box.click(); await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
				k.drawImage(c, 0, 0); return k.getImageData(0, 0, 480, 270).data; };
			const a = await drawn(false), b = await drawn(true); let n = 0;
			for (let i = 0; i < a.length; i += 4) if (Math.abs(a[i] - b[i]) + Math.abs(a[i + 1] - b[i + 1]) + Math.abs(a[i + 2] - b[i + 2]) > 6) n++;
			return n; })()`)
		want := 0.0
		for _, veil := range check.Veils(d.Plan, v, size.Eye) {
			for _, piece := range veil.Pieces {
				if piece.Normal().Dot(v.From(size.Eye).Sub(piece[0])) > 0 {
					want += shown(d.Stage(), v, size, piece)
				}
			}
		}
		t.Logf("%s: %.0f pixels are marked, %.0f by the kernel", v.Name, marked, want)
		if math.Abs(marked-want) > 0.1*want+100 {
			t.Errorf("%s: %.0f pixels are marked as hidden, and it should be about %.0f", v.Name, marked, want)
		}
		most = max(most, want)
	}
	if most < 1250 {
		t.Errorf("no view hides more than %.0f pixels: the test shows nothing", most)
	}
}

// shown is how many pixels of a picture a polygon covers, by the shoelace formula, held to the picture's frame.
func shown(s *picture.Stage, v booth.View, o picture.Options, p geom.Polygon) float64 {
	inside, total := 0, 0.0
	var xs, ys []float64
	for _, c := range p {
		x, y, _, ok := s.Project(v, o, c)
		if !ok {
			return 0
		}
		xs, ys = append(xs, x), append(ys, y)
	}
	for i := range xs {
		k := (i + 1) % len(xs)
		total += xs[i]*ys[k] - xs[k]*ys[i]
	}
	// The share that is in the frame, counted over a grid of points of the polygon's bounds.
	for i := range 40 {
		for k := range 40 {
			a, b := (float64(i)+0.5)/40, (float64(k)+0.5)/40
			x := slices.Min(xs) + a*(slices.Max(xs)-slices.Min(xs))
			y := slices.Min(ys) + b*(slices.Max(ys)-slices.Min(ys))
			if x >= 0 && y >= 0 && x < float64(o.Width) && y < float64(o.Height) {
				inside++
			}
		}
	}
	return math.Abs(total) / 2 * float64(inside) / 1600
}

// press holds a key on the picture until a JavaScript expression is true.
func (o tab) press(code, until string) {
	o.Helper()
	eval[any](o, fmt.Sprintf(`document.getElementById('stage').focus(); document.getElementById('stage').dispatchEvent(new KeyboardEvent('keydown', {code: %q, bubbles: true, cancelable: true})); 0`, code))
	o.Until(until)
	eval[any](o, fmt.Sprintf(`document.getElementById('stage').dispatchEvent(new KeyboardEvent('keyup', {code: %q, bubbles: true})); 0`, code))
}

// A visitor who walks at the table is stopped by it, and never comes nearer to anything than half their width.
func TestWalkingStopsAtTheTable(t *testing.T) {
	o := openDemo(t, 360, 600)
	d, _ := demo()
	eval[any](o, `window.path = []; new MutationObserver(() => path.push(document.getElementById('stage').dataset.at)).observe(document.getElementById('stage'), {attributeFilter: ['data-at']}); 0`)
	table := d.Plan.Part("table/prints")
	if table == nil {
		t.Fatal("the demo has no print table")
	}
	middle := way.Footprint(table.Solids[0], 0.02, 1.5).Middle()
	x, z, _, _ := o.at()
	if want := math.Atan2(middle.X-x, z-middle.Z); want > 0 {
		t.Fatalf("the table should be to the left, at %v", want)
	} else {
		// Dragging the picture by its whole width turns by its whole angle.
		box := eval[[]float64](o, `(() => { const b = document.getElementById('stage').getBoundingClientRect(); return [b.left, b.top, b.width, b.height]; })()`)
		half := math.Tan(d.Plan.Views[0].Across/2) * max(1, box[2]/box[3]*9/16)
		dx := -want / (2 * math.Atan(half)) * box[2]
		from, y := box[0]+box[2]/2, box[1]+box[3]/2
		o.Do(chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, from, y, chromedp.ButtonLeft), chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, from+20, y, chromedp.ButtonLeft),
			chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, from+dx, y, chromedp.ButtonLeft), chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, from+dx, y, chromedp.ButtonLeft))
		o.Until(`parseFloat(document.getElementById('stage').dataset.at.split(' ')[2]) < -0.1`)
		if _, _, yaw, _ := o.at(); math.Abs(yaw-want) > 0.02 {
			t.Errorf("dragging turned to %.3f, want %.3f", yaw, want)
		}
	}
	key := func(kind string) {
		eval[any](o, `document.getElementById('stage').focus(); document.getElementById('stage').dispatchEvent(new KeyboardEvent('`+kind+`', {code: 'ArrowUp', bubbles: true})); 0`)
	}
	key("keydown")
	o.Until(`path.length > 0`)
	o.Still(place)
	key("keyup")
	path := eval[[]string](o, `path`)
	if len(path) < 5 {
		t.Fatalf("only %d places on the way", len(path))
	}
	nearest := math.Inf(1)
	for _, place := range path {
		var px, pz float64
		fmt.Sscan(place, &px, &pz)
		for _, part := range d.Plan.Parts {
			for _, c := range part.Solids {
				s := way.Footprint(c, 0.02, 1.5)
				if part.Flat || s == nil {
					continue
				}
				_, away := s.Nearest(way.Point{X: px, Z: pz})
				if away < 0.215 {
					t.Fatalf("at %s the visitor is %.3f m from %s", place, away, part.Name)
				}
				if part.ID == table.ID || part.Parent == table.ID {
					nearest = min(nearest, away)
				}
			}
		}
	}
	if nearest > 0.26 {
		t.Errorf("the visitor never came to the table: %.3f m", nearest)
	}
}

// Every work can be tapped from some place, and the card tells its title.
func TestEveryWorkCanBeTapped(t *testing.T) {
	o := openDemo(t, 360, 740)
	d, _ := demo()
	works := 0
	for i, p := range d.Plan.Parts {
		if p.Work == nil {
			continue
		}
		found := false
		for _, view := range []string{"inside", "entrance", "across"} {
			o.stand(view)
			eval[any](o, fmt.Sprintf(`[...document.querySelectorAll('#all-works button')][%d].click(); document.getElementById('card-shut').click(); window.scrollTo(0, 0); 0`, works))
			box := eval[[]float64](o, `(() => { const b = document.getElementById('stage').getBoundingClientRect(); return new Promise((done) => requestAnimationFrame(() => done([b.left + b.width / 2, b.top + b.height / 2]))); })()`)
			o.Do(chromedp.MouseClickXY(box[0], box[1]))
			title := eval[string](o, `document.getElementById('card').hidden ? '' : document.getElementById('card-title').textContent`)
			if title == p.Work.Title {
				found = true
				break
			}
		}
		if !found {
			t.Errorf("part %d, %s, cannot be tapped", i, p.Work.Title)
		}
		works++
	}
	if works < 10 {
		t.Errorf("only %d works", works)
	}
}

// While nothing moves nothing is drawn, and what one picture costs of the processor is told.
func TestNothingIsDrawnWhileNothingMoves(t *testing.T) {
	o := openDemo(t, 360, 740)
	o.Still(`spent.length`)
	eval[any](o, `spent.length = 0; 0`)
	o.Frames(60)
	if n := eval[int](o, `spent.length`); n != 0 {
		t.Errorf("%d pictures were drawn in sixty frames of standing still", n)
	}
	o.press("ArrowRight", `spent.length >= 10`)
	spent := eval[[]float64](o, `spent`)
	sum := 0.0
	for _, s := range spent {
		sum += s
	}
	t.Logf("%d pictures, %.2f ms of script each", len(spent), sum/float64(len(spent)))
}

// A phone that takes the graphics away gives them back later: the walk goes on.
func TestTheWalkOutlivesItsContext(t *testing.T) {
	o := openDemo(t, 360, 740)
	middle := `(() => { const c = document.getElementById('stage'), k = document.createElement('canvas').getContext('2d'); k.canvas.width = c.width; k.canvas.height = c.height;
		k.drawImage(c, 0, 0); return [...k.getImageData(c.width / 2, c.height / 2, 1, 1).data].join(); })()`
	before := eval[string](o, middle)
	eval[any](o, `window.lost = document.getElementById('stage').getContext('webgl2').getExtension('WEBGL_lose_context'); lost.loseContext(); 0`)
	o.Until(`document.getElementById('stage').getContext('webgl2').isContextLost()`)
	o.Frames(2) // the page hears of it
	eval[any](o, `lost.restoreContext(); 0`)
	o.Until(middle + ` === '` + before + `'`)
	_, _, yaw, _ := o.at()
	o.press("ArrowRight", fmt.Sprintf(`parseFloat(document.getElementById('stage').dataset.at.split(' ')[2]) > %v`, yaw))
}

// A finger on the buttons walks as long as it stays, a finger on the picture turns it, and lifts without walking on.
func TestFingers(t *testing.T) {
	o := openDemo(t, 360, 740)
	o.Do(chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile, chromedp.EmulateTouch))
	finger := func(kind input.DispatchTouchEventType, at ...float64) {
		t.Helper()
		p := input.DispatchTouchEventParams{Type: kind, TouchPoints: []*input.TouchPoint{}}
		if len(at) == 2 {
			p.TouchPoints = append(p.TouchPoints, &input.TouchPoint{X: at[0], Y: at[1]})
		}
		if _, err := chromedp.Call(o.Ctx, input.DispatchTouchEvent, p); err != nil {
			t.Fatal(err)
		}
	}
	middle := func(selector string) []float64 {
		return eval[[]float64](o, `(() => { const b = document.querySelector('`+selector+`').getBoundingClientRect(); return [b.left + b.width / 2, b.top + b.height / 2]; })()`)
	}
	_, z0, yaw0, _ := o.at()
	ahead := middle(`[data-move=ahead]`)
	finger(input.DispatchTouchEventTypeTouchStart, ahead...)
	o.Until(fmt.Sprintf(`%v - parseFloat(document.getElementById('stage').dataset.at.split(' ')[1]) > 0.1`, z0)) // it walks
	finger(input.DispatchTouchEventTypeTouchEnd)
	o.Still(place)
	_, z1, _, _ := o.at()
	picture := middle(`#stage`)
	finger(input.DispatchTouchEventTypeTouchStart, picture...)
	for k := range 5 {
		finger(input.DispatchTouchEventTypeTouchMove, picture[0]+float64(20*(k+1)), picture[1])
	}
	finger(input.DispatchTouchEventTypeTouchEnd)
	o.Still(place)
	x2, z2, yaw2, _ := o.at()
	if yaw2 > yaw0-0.1 {
		t.Errorf("a finger that drew the picture to the right turned from %v to %v", yaw0, yaw2)
	}
	o.Frames(40)
	if x, z, yaw, _ := o.at(); x != x2 || z != z2 || yaw != yaw2 || math.Abs(z-z1) > 0.001 {
		t.Errorf("after the finger was lifted the visitor went on from %v %v to %v %v", x2, z1, x, z)
	}
}

// A tap on the ground goes there.
func TestWalkingByTap(t *testing.T) {
	o := openDemo(t, 800, 700)
	x0, z0, _, _ := o.at()
	box := eval[[]float64](o, `(() => { const b = document.getElementById('stage').getBoundingClientRect(); return [b.left + b.width / 2, b.top + b.height * 0.93]; })()`)
	o.Do(chromedp.MouseClickXY(box[0], box[1]))
	o.Until(fmt.Sprintf(`Math.abs(parseFloat(document.getElementById('stage').dataset.at.split(' ')[1]) - %v) > 0.1`, z0))
	o.Still(place)
	if x, z, _, _ := o.at(); math.Hypot(x-x0, z-z0) < 0.1 {
		t.Errorf("a tap on the ground went from %v %v to %v %v", x0, z0, x, z)
	}
	if got := eval[string](o, `document.getElementById('view').value`); got != "" {
		t.Errorf("a visitor who walked off still stands at %q", got)
	}
}
