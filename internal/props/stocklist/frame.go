package stocklist

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
)

// Frame is what a list says of a work's frame.
type Frame struct {
	Width  unit.Length // of the frame's face with its mat; 0: not stated
	Colour string      // a name of the SVG 1.1 list, or #rrggbb; empty: not stated
}

// frameColours are what frames are called, each with a colour: woods as they look oiled; common practice, no source.
var frameColours = []struct {
	begins []string // words that begin so: schwarzer, weisser
	colour string
}{
	{list("black|musta|cern|μαυρ|черн|schwarz|noir|negr|ner|zwart|ebony|svart|sort|czarn|pret"), "#1d1b19"},
	{list("white|valkoi|bil|λευκ|ασπρ|бел|gwyn|weiss|blanc|bianc|wit|vit|hvit|hvid|bial|branc"), "white"},
	{list("walnut|nussbaum|noyer|nogal|noce|brown|braun|dark|dunkel|mahogany|marron"), "#5c4130"},
	{list("oak|tammi|puu|dub|drev|derw|δρυ|ξυλ|дуб|дерев|eiche|chene|roble|rovere|eik|natur|wood|holz|ash|beech|buche|pine|kiefer|maple|ahorn|light|hell|bois|legno|madera|ek|dab|carvalho|drewn|bjork"), "#c2a173"},
	{list("gold|kulta|zlat|χρυσ|золот|gilt|vergoldet|dor|oro|goud|brass|guld|zlot|dourad"), "#b8964e"},
	{list("silver|hopea|stribr|ασημ|сереб|silber|argent|plata|zilver|alu|metal|steel|srebr|prata"), "#b4b6b8"},
	{list("grey|harmaa|sed|γκρι|сер|gray|grau|gris|grigi|grijs|gra|szar|cinz"), "#808080"},
}

var (
	isFramed = list("baklijst|lijst|cerceveli|額装|額付|kehystetty|ramovany|s ramem|framed|gerahmt|encadre|encadree|enmarcado|incorniciato|ingelijst|frame|rahmen|cadre|cornice|floater|floating|tray|box|plain|simple|standard|leiste|schattenfuge|baguette|caisse|moulding|marco|lijst|ram|inramad|list|rama|oprawiony|ramka|moldura|emoldurado|sous verre|glazed|unter glas|hinter glas")
	isBare   = list("passe partout|passepartout wit|in passe partout|v pasparte|pasparta|paspatur|パネル|matted|passepartout|con passepartout|mit passepartout|im passepartout|sous passe partout|canvas only|gallery wrap|gallery wrapped|wrapped|stretched|unstretched|mounted|mounted only|mount only|board|keilrahmen|auf keilrahmen|chassis|chassis seul|rolled|raw|unframed|ungerahmt|not framed|oramad|sin enmarcar")
)

// colourOf is the colour of a frame that a text, folded, speaks of; empty for none.
func colourOf(text string) string {
	for _, f := range frameColours {
		for _, word := range strings.Fields(text) {
			if slices.ContainsFunc(f.begins, func(b string) bool { return strings.HasPrefix(word, b) }) {
				return f.colour
			}
		}
	}
	return ""
}

// bareOf is whether a text, folded, says that there is no frame.
func bareOf(text string) bool {
	return no.are(text) || isBare.are(text) || unframed.MatchString(text)
}

var compound = regexp.MustCompile(`(?:rahmen|leiste|lijst|ram|ramme)\b`) // of frames, as German, Dutch and Swedish write it in one word

var sizeInText = regexp.MustCompile(measureText + `\s*[x×]\s*` + measureText)

var frameWidth = regexp.MustCompile(`\d[\d ./,½¼¾⅛⅜⅝⅞]*(?:in\b|inch|inches|"|″|cm\b|mm\b)`)

// usualFrame is the width of a frame of which only is said that there is one; common practice, no source.
const usualFrame = 0.75 * unit.Inch

// framed is the frame of a row's work; nil for none. Where only the size with the frame is stated, the picture is smaller by a
// frame of the usual width; note says so.
func (d *reading) framed(r *Row, outer unit.Size) (note string) {
	said, c := d.heads.say(d.line, frameMeaning)
	_, sizeColumn := d.heads.say(d.line, sizeMeaning)
	if said != "" && folded(said) != "" && !bareOf(folded(said)) {
		r.Frame = &Frame{Colour: colourOf(folded(said))}
		_, plain := isFramed.in(oneForm(folded(said)))
		plain = plain || compound.MatchString(folded(said))
		if at := sizeInText.FindString(said); at != "" && outer.A == 0 { // oak, 28 x 40 in
			if size, _, err := d.sizeOf(at, sizeColumn); err == nil {
				outer, plain, said = size, true, strings.Replace(said, at, "", 1)
			}
		}
		if w := frameWidth.FindString(said); w != "" {
			v, err := unit.ParseLength(commaDecimal.ReplaceAllString(w, "$1.$2$3"), unit.Inches, false)
			if err == nil && v >= unit.Inch/8 && v <= 12*unit.Inch {
				r.Frame.Width = v
			}
		}
		if r.Frame.Colour == "" && r.Frame.Width == 0 && !yes.are(folded(said)) && !plain {
			note = fmt.Sprintf("%s: %s says neither yes, no, a colour nor a width; a plain frame is drawn", c.heading, unit.Quote(said))
		}
	}
	if outer.A == 0 {
		return note
	}
	d.around = true
	if r.Frame == nil {
		r.Frame = &Frame{}
	}
	if r.Size.A == 0 {
		if r.Frame.Width == 0 {
			r.Frame.Width = usualFrame
		}
		r.Size = unit.Size{A: outer.A - 2*r.Frame.Width, B: outer.B - 2*r.Frame.Width}
		if r.Size.A <= 0 || r.Size.B <= 0 {
			r.Size, r.Frame = outer, nil
		}
		return note
	}
	a, b := (outer.A-r.Size.A)/2, (outer.B-r.Size.B)/2
	switch {
	case a < 0 || b < 0:
		r.Frame = nil
		return "the size with frame is smaller than the size without: drawn without a frame"
	case max(a, b) == 0:
		r.Frame = nil
		return note
	case math.Abs((a - b).M()) > (unit.Inch / 4).M():
		note = "the frame is wider at the sides than above and below, or the other way round; it is drawn alike all round, as wide as the wider"
	}
	r.Frame.Width = max(a, b)
	return note
}

// say is what stands in the first column of a meaning.
func (h headings) say(l line, m meaning) (string, column) {
	c, ok := h.find(m)
	if !ok {
		return "", c
	}
	return l.text(c.at), c
}
