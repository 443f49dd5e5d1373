package label

import (
	"fmt"
	"net/url"

	"ripeby/resources"
)

// The application identifiers of GS1 that a label tells. Of (310n) the last digit says how many
// decimals a weight in kilograms has; it is for what is sold by weight, whose GTIN begins with 9.
const (
	aiItem       = "01"
	aiLot        = "10"
	aiBestBefore = "15"
	aiUseBy      = "17"
	aiKilograms  = "3103"
)

// sixDigits is a date as element strings have it, YYMMDD.
func sixDigits(d resources.Date) string {
	return fmt.Sprintf("%02d%02d%02d", d.Year%100, int(d.Month), d.Day)
}

func aiOfDate(bestBefore bool) string {
	if bestBefore {
		return aiBestBefore
	}
	return aiUseBy
}

// DigitalLink is the address that a code of a GTIN says (GS1 Digital Link: lot in the path, date in
// the query).
func DigitalLink(gtin resources.GTIN, lot string, date resources.Date, bestBefore bool) string {
	return "https://id.gs1.org/" + aiItem + "/" + string(gtin) + "/" + aiLot + "/" + url.PathEscape(lot) + "?" + aiOfDate(bestBefore) + "=" + sixDigits(date)
}

// Elements is the element string of a GTIN in letters, each identifier in brackets; what has no
// length of its own, the lot, comes last.
func Elements(gtin resources.GTIN, lot string, date resources.Date, bestBefore bool, weight resources.Milligrams) string {
	text := "(" + aiItem + ")" + string(gtin) + "(" + aiOfDate(bestBefore) + ")" + sixDigits(date)
	if gtin[0] == '9' && weight >= gram && weight < 1_000_000*gram {
		text += fmt.Sprintf("(%s)%06d", aiKilograms, weight/gram)
	}
	return text + "(" + aiLot + ")" + lot
}
