package resources

import "fmt"

// What the program reads and never prints is printed here, so that reading it can be
// held to its inverse.

// formatTemperatureRange prints "2-6 °C", and a range of one temperature as that
// temperature.
func formatTemperatureRange(low, high MilliCelsius) string {
	if low == high {
		return FormatTemperature(low)
	}
	return decimals(int64(low), 3) + "-" + FormatTemperature(high)
}

// formatSize prints width x depth x height: "40 x 30 x 12 cm".
func formatSize(s Size) string {
	return fmt.Sprintf("%s x %s x %s", decimals(int64(s.Width), 4), decimals(int64(s.Depth), 4), FormatLength(s.Height))
}

// formatHours prints a weekly window: "mon-fri 06:00-08:00".
func formatHours(h Hours) string {
	return FormatWeekdays(h.Days) + " " + FormatClock(h.From) + "-" + FormatClock(h.Until)
}
