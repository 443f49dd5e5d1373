package feed

import (
	"net/http"

	"ripeby/calendar/address"
	"ripeby/calendar/said"
	"ripeby/schedule"
	"ripeby/schedule/readings"
)

// Beside has tasks for calendar programs served beside the page, which tells that programs begin at a path
// (calendar/dav). The handler looks at methods and bodies itself. It is called before Serve.
func (s *Server) Beside(tasks http.Handler, at string) { s.tasks, s.tasksAt = tasks, at }

// Thermometers has thermometers listened to beside the page (calendar/thermometer), at /t/TOKEN. The handler
// looks at methods and bodies itself. It is called before Serve.
func (s *Server) Thermometers(h http.Handler) { s.warm = h }

// beside is who answers at a path beside the page, nil for nobody: where tasks are, or where programs ask for
// them (RFC 6764, 5), and where thermometers post.
func (s *Server) beside(parts []string) http.Handler {
	switch {
	case s.tasks != nil && len(parts) > 0 && (parts[0] == "dav" || len(parts) == 2 && parts[0] == ".well-known" && parts[1] == "caldav"):
		return s.tasks
	case s.warm != nil && len(parts) == 2 && parts[0] == "t":
		return s.warm
	}
	return nil
}

// placesOf are the places of which a thermometer may tell.
func (s *Server) placesOf(p *schedule.Problem) []string {
	if s.opt.Warmth == nil {
		return nil
	}
	return readings.Places(&p.Kitchen)
}

// Book has the addresses that there are.
func (s *Server) Book() *address.Book { return s.board.Load().book }

// Shown is the kitchen and the plan that are shown, nil before the first, and what was said.
func (s *Server) Shown() (*schedule.Problem, *schedule.Plan, *said.Told) {
	b := s.board.Load()
	if b.made == nil {
		return nil, nil, b.told
	}
	return b.made.Problem, b.made.Plan, b.told
}

// Take has the kitchen write down what somebody says at an address, and shows it. The errors are those of a
// kitchen and *[said.TooOften].
func (s *Server) Take(a address.Address, saying said.Saying) (said.Heard, error) {
	if often := s.tooOften(a); often != nil {
		return said.Heard{}, often
	}
	return s.put(a, saying)
}
