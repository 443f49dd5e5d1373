// Command ripeby works backward from the day a cheese must be ripe: it reads a
// kitchen folder and writes the plan, the calendar and the week table.
//
// # Flow of ripeby plan
//
//  1. settings: flags over environment over settings file over defaults
//  2. config reads the kitchen folder; what is wrong with it ends here (2)
//  3. the output folder is tried and locked, and the earlier plan in it is read; what follows
//     from it and from the record is worked out
//  4. schedule/planner makes the plan, and calendar/note numbers what its calendar
//     says; a first Ctrl-C takes the best so far
//  5. schedule/judge checks the plan; what fails is a fault of ripeby (1)
//  6. every file is made in memory, then written: what is kept of batches that have begun
//     (schedule/record/keep), then plan.json, then the rest
//  7. the summary and the coming week go to standard output
//
// Reading order: main.go (the table of exit codes), root.go, commandline.go (what may be wrong
// with a command line), settings.go, then one file a subcommand (plan.go, week.go, slip.go,
// fits.go, orders.go, why.go, cold.go with coldreadings.go (how warm it was), record.go, serve.go, check.go, new.go, keys.go, version.go), with fitsanswer.go, settledtext.go and
// slipanswer.go (what these two tell), slipcsv.go, fitscsv.go and whycsv.go (the same for a spreadsheet), and recordverbs.go
// (what may be said), recordmeasured.go (what of it is measured), recordkitchen.go (what it may refer to), recordcomplete.go and
// recordcsv.go, list.go (what to take along) with listjson.go, bring.go (how many), chance.go (how often that holds), sheet.go (a batch on one page), labels.go with labelled.go and labelledstock.go (of which batches and stock), mix.go with mixanswer.go (what is reckoned at the sink), and trace.go with traceanswer.go, tracebalance.go, tracecsv.go and tracejson.go (the same answer
// in three ways); learn.go with learnanswer.go, learnpicture.go, learntables.go (what was learned, told) and learnwrite.go (and written). Beside them: kitchen.go (where a problem comes from),
// newplan.go (the plan to be put in force), causes.go (what made its work move), emptied.go (a folder that wants nothing any more),
// output.go (the output folder), batchkeeping.go and batchfolder.go (what is kept of batches), kept.go (the plan that it keeps), position.go (where the kitchen
// stands by its record), recordmeans.go (what an entry means for the plan), turn.go, turn_unix.go and
// turn_other.go (one run at a time in it), pages.go (the files of a plan), summary.go, starts.go and
// moved.go (a plan in a few sentences), proof.go (how good it is known to be), understood.go
// (a kitchen as check prints it), changes.go (what is new), say.go and words.go (paragraphs
// and quantities), progress.go, terminal.go, zonedata.go. To serve belong servekitchen.go (the
// kitchen as it is watched), servesaid.go and servetasks.go (what is said on the page), servewarmth.go (what thermometers read), serveasks.go (what is asked on it) with
// servefits.go and serveanswers.go (the answers) and servewrites.go (what is written into targets.yaml from it),
// servefolder.go (what has changed in it), servefiles.go (the server's own files), servelisten.go (where it
// listens, and who can connect), serveown.go (https by an authority of the kitchen's own) and serveshow.go
// (addresses in the terminal). The demo kitchen is in demo.
package main
