package check

import "boothmock/internal/plan/rules"

var tops = Check{
	Name: "table height", Doc: "Tops that people write or are served at are neither too low nor too high for somebody who sits.",
	Source: rules.TopLow.Source,
	Run: func(p *Pass) {
		low, high := p.rule(rules.TopLow), p.rule(rules.TopHigh)
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			if part.Top == nil {
				continue
			}
			if h := *part.Top; h < low-hair {
				p.report(Note, part, Finding{Figure: metres(h, low), Source: rules.TopLow.Source},
					"The top of %s is %s high; %s to %s suits people who stand and people who sit", part.Name, p.length(h), p.length(low), p.length(high))
			} else if h > high+hair {
				p.report(Note, part, Finding{Figure: metres(h, high), Source: rules.TopHigh.Source},
					"The top of %s is %s high; %s to %s suits people who stand and people who sit", part.Name, p.length(h), p.length(low), p.length(high))
			}
		}
	},
}
