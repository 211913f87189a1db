package check

import "boothmock/internal/plan/rules"

const (
	codeReach = 10.0 // distances of a telephone in sides of a square code
	iso18004  = "common practice: a code is read from ten times its side; the clear border of four of its squares is ISO/IEC 18004"
)

var codes = Check{
	Name: "square code", Doc: "A square code is large enough for the distance from which it is scanned.",
	Source: iso18004,
	Run: func(p *Pass) {
		far := p.rule(rules.ScanDistance)
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			if l := part.Lettering; l != nil && l.Code > 0 && l.Code < far/codeReach-hair {
				p.report(Caution, part, Finding{Figure: metres(l.Code, far/codeReach), Source: iso18004},
					"The square code of %s is %s wide: it reads from about %s away, not from %s. Make the sign larger or its address shorter, and keep the clear border",
					part.Name, p.finely(l.Code), p.length(l.Code*codeReach), p.length(far))
			}
		}
	},
}
