package light

import "boothmock/internal/basis/geom"

// bounces is how often light goes from face to face before the surfaces gather it. What is left out after four is a few
// hundredths of the bounced light.
const bounces = 4

// settle works out how bright the faces are: what each gets from the sky, and from every other face, is gathered once,
// and then light goes from face to face.
func (r *room) settle() {
	var list []*face
	var owners, solids []int
	for k, fs := range r.faces {
		for i := range fs {
			if len(fs[i].points) > 0 && (r.solids[k].Owner != groundOwner || fs[i].n.Y > 0) {
				list, owners, solids = append(list, &fs[i]), append(owners, r.solids[k].Owner), append(solids, k)
			}
		}
	}
	type source struct {
		transfer
		at geom.Vec // the lit point
	}
	sources := make([][]source, len(list))
	r.each(len(list), nil, func(g *gatherer, i int) {
		var clear []geom.Vec
		for _, p := range list[i].points {
			if q, ok := r.free(p, list[i].n, owners[i]); ok {
				clear = append(clear, q)
			}
		}
		for _, q := range clear {
			for _, a := range g.arrive(q, list[i].n, -1) {
				a.share /= float64(len(clear))
				sources[i] = append(sources[i], source{a, q})
			}
		}
	})
	r.shine()
	r.shineLamps(list, solids)
	for range bounces {
		for i, f := range list {
			f.light = rgb{f.sun, f.sun, f.sun}.plus(f.lamps, 1)
			for k := range sources[i] {
				a := &sources[i][k]
				f.light = f.light.plus(r.bright(a.from, a.at), a.share)
			}
		}
		for k, fs := range r.faces {
			mean, total := rgb{}, 0.0
			for i := range fs {
				f := &fs[i]
				f.bright = f.colour.times(crossed(f.light, fs[f.back].light, f.colour, f.passes))
				if len(f.points) > 0 {
					mean, total = mean.plus(f.bright, f.area), total+f.area
				}
			}
			for i := range fs {
				if len(fs[i].points) == 0 && total > 0 && r.solids[k].Owner != groundOwner {
					fs[i].bright = rgb{}.plus(mean, 1/total)
				}
			}
		}
	}
}

// through is the factor by which light from behind counts on cloth of the given colour, so that the share passes of it
// comes through in the cloth's own hue.
func through(c rgb, passes float64) float64 {
	return passes / max(c[0], c[1], c[2], 0.05)
}

// crossed is the light on cloth of the given colour that counts on one side, of what arrives there and behind it: what passes through
// is not sent back too, so cloth gives back no more than it gets.
func crossed(light, behind, c rgb, passes float64) rgb {
	return rgb{}.plus(light, 1-passes).plus(behind, through(c, passes))
}
