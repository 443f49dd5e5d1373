package config

import (
	"go.yaml.in/yaml/v3"

	"ripeby/resources"
)

// room reads how warm the make room is: all year the same, or by date. Of a list the first is given
// apart, too.
func room(o *object) (resources.MilliCelsius, []resources.RoomFrom) {
	n := o.get("room")
	if n != nil && n.Kind == yaml.MappingNode {
		o.fault("room", wrongKind("a temperature, or a list by date, is wanted here", n, "room: [{from: 2027-01-01, is: 17 °C}]"))
		return 0, nil
	}
	if n == nil || n.Kind != sequence {
		is, _ := take(o, "room", resources.ParseTemperature)
		return is, nil
	}
	var list []resources.RoomFrom
	nodes := o.objects("room", "room")
	for _, f := range nodes {
		from, ok := take(f, "from", resources.ParseDate)
		is, okIs := take(f, "is", resources.ParseTemperature)
		if !ok || !okIs {
			continue
		}
		if last := len(list) - 1; last >= 0 && !list[last].From.Before(from) {
			f.fault("from", Fault{What: "this is not after " + list[last].From.String() + ", which stands before it; the list goes by date", Got: from.String()})
			continue
		}
		list = append(list, resources.RoomFrom{From: from, Is: is})
	}
	if len(list) == 0 {
		if len(n.Content) == 0 {
			o.fault("room", Fault{What: "name at least one date", Want: "room: [{from: 2027-01-01, is: 17 °C}]"})
		}
		return 0, nil
	}
	return list[0].Is, list
}
