package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"ripeby/calendar/address"
	"ripeby/calendar/edition"
	"ripeby/calendar/feed"
	"ripeby/schedule"
	"ripeby/schedule/readings"
)

// serveOptions are the options of ripeby serve.
type serveOptions struct {
	listen       string
	listenGiven  bool
	url          string
	cert, key    string
	own          bool // https with an authority of the kitchen's own
	every        string
	addresses    bool
	newAddresses string
	qr           bool
	demo         bool
}

// allAddresses is what --new-addresses is without a name.
const allAddresses = "all"

func (p *program) serveCommand() *cobra.Command {
	var opt serveOptions
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "Serve the plan to phones: calendars to subscribe to, and a page",
		Long: `Serves the plan that is kept for the kitchen folder: a calendar for everything, one
for each person, one of what stands in the cold places, and a page for the kitchen.
Each person also has a writing address: the same page, with buttons to say what
happened, in the folder record, as ripeby record does. Subscribing never gives it.
Over https, or on this machine, a calendar program ticks their work as tasks (CalDAV,
at /dav/), with the last part of that address as password; their page says how.
Each cold place, and the room, has an address to which its thermometer posts what it
reads, by curl -d 4.6 URL: the folder readings keeps it, and the page draws it.
When a file of the folder changes the plan is made anew in the background, as
"ripeby plan" makes it. While the folder cannot be read, the last good plan is
served and the page says what is wrong.

Each calendar, and the page, has an address of its own that cannot be guessed and
is all that is needed to read it. The addresses are kept beside the plan, for you
alone to read, and stay the same from one start to the next. Give each person only
theirs. With --new-addresses all are taken back, with --new-addresses=NAME only the
one of that name; phones must then subscribe again.

Only this machine can connect unless --listen says otherwise. Ctrl-C stops.

With --own-https it speaks https, so that nobody on the network reads along and the
page works on phones while there is no network. For that it makes an authority of the
kitchen's own, once, which each phone is told to trust: how, says a page that it shows
the address of, and nothing else is answered there over http.

Exit codes:
  0  it was stopped; or the addresses were shown
  1  anything else, such as a port that is taken
  2  the folder or the command line is wrong`,
		Example: `  ripeby serve -C my-kitchen
  ripeby serve -C my-kitchen --listen :7379
  ripeby serve -C my-kitchen --listen :7379 --own-https
  ripeby serve -C my-kitchen --addresses --qr
  ripeby serve -C my-kitchen --addresses --new-addresses=Nell`,
		Args: p.noArguments,
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&opt.listen, "listen", serveHome, "listen on `HOST:PORT`; :7379 is every network of this machine")
	f.StringVar(&opt.url, "url", "", "phones reach the server under this `URL`, such as https://kitchen.example\n(default: from --listen)")
	f.StringVar(&opt.cert, "tls-cert", "", "speak https with the certificate in `FILE`")
	f.StringVar(&opt.key, "tls-key", "", "the certificate's key is in `FILE`")
	f.BoolVar(&opt.own, "own-https", false, "speak https with an authority of the kitchen's own, which phones are told to trust")
	f.StringVar(&opt.every, "every", feed.LookEvery.String(), "look for changes after so `LONG`, from 100ms to 1h")
	f.BoolVar(&opt.addresses, "addresses", false, "show the addresses, as they were last served, and serve nothing")
	f.StringVar(&opt.newAddresses, "new-addresses", "", "take back all addresses, or the one with this `NAME`, and make new ones")
	f.Lookup("new-addresses").NoOptDefVal = allAddresses
	f.BoolVar(&opt.qr, "qr", false, "show each address as a QR code too")
	f.Int64("work", 0, "stop searching after `N` units of work, as ripeby plan does")
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		opt.demo, opt.listenGiven = *demo, cmd.Flags().Changed("listen")
		s, err := p.settings(cmd.Flags(), opt.demo)
		if err != nil {
			return err
		}
		return p.serve(cmd.Context(), s, opt)
	})
	return cmd
}

// lookEvery reads --every.
func lookEvery(text string) (time.Duration, error) {
	d, err := time.ParseDuration(text)
	if err != nil || d < 100*time.Millisecond || d > time.Hour {
		return 0, wrong("--every is %q; want a time from 100ms to 1h, such as 2s", text)
	}
	return d, nil
}

// serve is ripeby serve.
func (p *program) serve(ctx context.Context, s *settings, opt serveOptions) error {
	every, err := lookEvery(opt.every)
	if err != nil {
		return err
	}
	door, err := doorOf(opt.listen)
	if err != nil {
		return err
	}
	secure, root, err := p.httpsBy(opt)
	if err != nil {
		return err
	}
	k, out := kitchen{folder: s.folder, demo: opt.demo}, output{s.out}
	files := ownFiles{out, p.say}
	own, err := ownBy(opt, files, p.now)
	if err != nil {
		return err
	}
	book, err := p.book(k, out, files, opt)
	if err != nil {
		return err
	}
	shown := shownBook{book: book, look: p.look(s), qr: opt.qr}
	if opt.addresses {
		if root == "" && !opt.listenGiven {
			root = own.lastRoot(edition.LastRoot(files))
		}
		shown.site = siteOf(door, root, secure != nil || opt.own)
		if err := p.makeOwn(own, k, door, shown.site); err != nil {
			return err
		}
		return errors.Join(own.write(p.out, shown.look, opt.qr), shown.write(p.out))
	}
	l, err := listen(door)
	if err != nil {
		return err
	}
	defer l.Close()
	shown.site = siteOf(l.Addr().(*net.TCPAddr), root, secure != nil || opt.own)
	if err := p.makeOwn(own, k, door, shown.site); err != nil {
		return err
	}
	if opt.own {
		if secure, err = own.speak(door, shown.site); err != nil {
			return err
		}
	}
	if err := p.announce(l, shown, own, secure != nil); err != nil {
		return err
	}
	server, err := feed.New(newWatched(p, s, k), files, feed.Options{Site: shown.site, Version: version(), Every: every, Now: p.now, Say: p.say, Trust: own.pages(), Asks: asksOf(p, s, k), Warmth: warmthOf(k)})
	if err != nil {
		return err
	}
	serveTasks(server, files, shown.site, p)
	serveThermometers(server, k, p)
	var watching sync.WaitGroup
	watching.Go(func() { server.Watch(ctx) })
	err = server.Serve(ctx, l, secure)
	watching.Wait()
	if err != nil && ctx.Err() == nil {
		return other("serving ended: %w", err)
	}
	line(p.out, "Stopped.")
	return nil
}

// say tells whoever runs the server something, a line for each that it has.
func (p *program) say(text string) { fmt.Fprintf(p.err, "ripeby: %s\n", plainLines(text)) }

// book reads the addresses, takes back what is to be taken back and makes what is
// missing. A folder that cannot be read is an error only when there is no plan
// either.
func (p *program) book(k kitchen, out output, files ownFiles, opt serveOptions) (*address.Book, error) {
	if err := out.probe(); err != nil {
		return nil, err
	}
	people, places, err := p.toServe(k, out)
	if err != nil {
		return nil, err
	}
	book, err := address.Read(files)
	if err != nil {
		return nil, other("%w", err)
	}
	changed := false
	if name := opt.newAddresses; name != "" {
		if people == nil {
			people, places = personsOf(book), placesOf(book)
		}
		var labels []string
		if name == allAddresses {
			name = ""
		}
		if book, labels = book.Renew(name); len(labels) == 0 && name != "" {
			return nil, wrong("--new-addresses: there is no address for %q; there are those for %s", name, schedule.Listed(once(labelsOf(book))))
		}
		changed = true
		text := fmt.Sprintf("Taken back: %s. Phones that have them must subscribe again", schedule.Counted(len(labels), "address"))
		if slices.ContainsFunc(labels, func(l string) bool { return strings.HasPrefix(l, address.ThermometerOf("")) }) {
			text += ", thermometers must be told the new ones"
		}
		line(p.out, text+".")
		line(p.out, "")
	}
	book, added := book.Complete(people, places...)
	if added || changed {
		if err := book.Keep(files); err != nil {
			return nil, err
		}
	}
	return book, nil
}

// toServe are the people of the kitchen, and the places of which a thermometer may tell, none of the demo; nil
// when the folder cannot be read but there is a plan to serve.
func (p *program) toServe(k kitchen, out output) (people, places []string, err error) {
	problem, err := k.load("", p.now())
	if err == nil && k.demo {
		return namesOf(problem), nil, nil
	}
	if err == nil {
		return namesOf(problem), readings.Places(&problem.Kitchen), nil
	}
	if plan, kept := out.earlier(); plan == nil || kept != nil {
		return nil, nil, errors.Join(err, kept)
	}
	p.say("mind that the kitchen folder cannot be read; its last plan is served until it can\n" + err.Error())
	return nil, nil, nil
}

func namesOf(problem *schedule.Problem) []string {
	names := []string{}
	for _, person := range problem.Kitchen.People {
		names = append(names, person.Name)
	}
	return names
}

func personsOf(book *address.Book) []string {
	var names []string
	for _, a := range book.Addresses {
		if a.Kind == address.OnePerson {
			names = append(names, a.Person)
		}
	}
	return names
}

func placesOf(book *address.Book) []string {
	var names []string
	for _, a := range book.Addresses {
		if a.Kind == address.Thermometer {
			names = append(names, a.Place)
		}
	}
	return names
}

func labelsOf(book *address.Book) []string {
	var labels []string
	for _, a := range book.Addresses {
		labels = append(labels, a.Label())
	}
	return labels
}

// announce says where the server is, who can reach it and, on a terminal, what the
// addresses are. Elsewhere what is printed may be kept as a log.
func (p *program) announce(l net.Listener, shown shownBook, own *ownHTTPS, secure bool) error {
	at := l.Addr().(*net.TCPAddr)
	line(p.out, "Serving on "+shown.site.Root+"; Ctrl-C stops.")
	lines := exposure(at.IP, reachable(), secure)
	if at.IP.IsLoopback() && !shown.site.Loopback {
		lines = []string{"Only this machine can connect, and phones by way of whatever serves " + shown.site.Root + "."}
	}
	for _, text := range lines {
		_, _ = fmt.Fprintln(p.out, wrapped(plain(text), shown.look.width, ""))
	}
	line(p.out, "")
	_, terminal := terminalWidth(p.rawOut)
	if err := own.write(p.out, shown.look, terminal && (shown.qr || !shown.site.Loopback)); err != nil {
		return err
	}
	if !terminal {
		line(p.out, "The addresses are keys and are shown on a terminal only, or by: ripeby serve --addresses")
		return p.out.failed()
	}
	shown.pageQR = !shown.site.Loopback
	return shown.write(p.out)
}
