package main

// What the shell help prints. Each text ends with the caution.

const caution = `
A study aid: not for engineering, medical or safety decisions; local codes and
licensed practice come first.
`

const about = `steelyard carries units through a physics problem.

  steelyard                        the scratchpad: a line goes in, a checked
                                   quantity comes out
  steelyard eval [STATEMENT…]      work out statements, here or on standard input
  steelyard replay FILE…           work worksheets out again and compare every
                                   line with its record
  steelyard print FILE…            print worksheets: a key, or a handout
  steelyard help [WORD]            look up a unit, a quantity, a formula, a
                                   statement
  steelyard COMMAND --help         what a command takes
  steelyard --version              the version

Without a terminal, steelyard alone works out the lines of standard input, as
eval does.

Exit status: 0 if all holds (cautions and notes too); 1 if there is an error, a
mismatch, a failed check or a difference from a record; 2 if the command line or
a file as a whole can't be used; 130 if Ctrl-C stopped the work.
`

const evalHelp = `steelyard eval [--json] [STATEMENT…]

Works out statements, one after the other. Each is in quotes, and later
ones can use what earlier ones define. Without any, the lines of standard input
are the statements; a line that begins with a blank belongs to the one above.
A line that fails does not stop the others.

  --json    print one JSON object a line for each statement

  steelyard eval 'm = 0.080 kg' 'v = 3.4 m/s' '1/2*m*v^2 in J'
  steelyard eval '100 km/h in m/s'
  steelyard eval < lines.txt

Exit status: 0 if all holds; 1 if a line has an error, a mismatch or a failed
check; 2 if the command line can't be used.
`

const replayHelp = `steelyard replay [OPTIONS] FILE…

Works every line of each worksheet out again and compares the results with
those recorded in the file. Differences, findings and a summary are printed.
Without --record no file is written.

  --with 'NAME = VALUE'   replace a given, and show every result that moves;
                          can be used several times. Where a name is given twice,
                          NAME@12 means the one in line 12.
  --record                write the records that are missing or differ; the rest
                          of the file stays byte for byte
  --strict                a result without a record is a failure
  --json                  print one JSON object a line for each statement

  steelyard replay examples/pinball-plunger.worked
  steelyard replay pinball-plunger.worked --with 'm = 0.10 kg'
  steelyard replay --record pinball-plunger.worked

Exit status: 0 if all holds; 1 if a result differs from its record, a line has
an error, a mismatch or a failed check, or a record is below a line
without a result (with --strict also if a record is missing); 2 if a file can't be
read or written, or the command line can't be used. With --with, a result that
moves is not a difference.
`

const printHelp = `steelyard print FILE… [--as FORM] [--edition EDITION] [-o FILE]

Prints worksheets for paper or for a page. A key has the questions, the working,
the answers, the checks and the graphs. A handout has the title, the givens, the
questions, blank axes and room to answer, and nothing that tells an answer.

  --as html       one file without a script, for a browser and a printer (so
                  without --as, unless the name after -o ends in .md, .tex or
                  .txt)
  --as markdown   for a page that sets mathematics
  --as latex      for pdflatex
  --as text       for a terminal or a mail
  --edition key   everything (so without --edition)
  --edition handout
  -o FILE         write to a file and not to the screen; several worksheets go
                  into a folder, each under its own name

  steelyard print examples/pinball-plunger.worked -o key.html
  steelyard print --edition handout --as latex sheet.worked -o sheet.tex

Exit status: 0 if all holds; 1 if a key has a mismatch, a failed check or an
error (it is printed all the same); 2 if a file or the command line can't be
used.
`

const helpHelp = `steelyard help [WORD]

Looks up a unit (newton, mile), a quantity (torque), a formula
(spring_energy), a topic (oscillation), a statement (check), a function (sqrt),
a constant of nature (c) or the identifier of a finding (unit-mismatch). Without
a word it shows on one screen how things are written.

  steelyard help newton
  steelyard help torque
  steelyard help spring_energy
  steelyard help check

Exit status: 0; 2 if there is no help on the word.
`
